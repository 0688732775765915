"""Lessons that were held, as evidence, and lessons to come."""
