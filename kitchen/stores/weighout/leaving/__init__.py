"""What must be right at the scale before kits leave the stores."""
