"""Days on which nothing is taken in, and for how long an order may be filled up: what orders keep to."""
