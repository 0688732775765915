"""What hangs in the stores on a lesson that is cancelled or moved, and what is to be done about it."""
