"""Doing it: rooms, lessons, safety, the time plan and the stores."""
