"""What a person fixes by hand in a lesson's time plan: a start, an oven, an order."""
