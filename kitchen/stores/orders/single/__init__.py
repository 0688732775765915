"""One order: its page, its sheet, what can be added to it."""
