"""What a supplier brings, checked line by line before it stands in the stores."""
