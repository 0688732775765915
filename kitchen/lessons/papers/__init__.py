"""Which prints of a lesson are in force: a row for each print, and what has become void since."""
