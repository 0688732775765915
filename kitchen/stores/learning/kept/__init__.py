"""Accepted figures as kits, needs and requisitions read them."""
