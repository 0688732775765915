"""Judging it: schemes, marking, verification, feedback and progress."""
