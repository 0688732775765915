"""Checks against sources outside the project: each row carries its source and how it was seen."""
