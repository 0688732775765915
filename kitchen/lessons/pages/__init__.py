"""What the pages of lessons show, put together."""
