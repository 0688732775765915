"""How many of each thing every place has: seen, corrected with a reason, moved, added."""
