"""What the lessons behind an order need otherwise since it was drawn up."""
