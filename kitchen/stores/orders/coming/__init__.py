"""What lessons of the weeks after will use, so that an order is filled up with it."""
