"""The whole plan in one picture for the wall: on the projector and on A3 or A4."""
