"""Trays that stand weighed and are no longer wanted: taken apart, or kept for a new kit."""
