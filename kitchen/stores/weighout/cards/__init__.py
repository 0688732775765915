"""What the label of a kit says of its weigh-out and of the clock."""
