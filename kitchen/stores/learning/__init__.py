"""What lessons teach the stores: over-issue, wastage and usable share, proposed and accepted by a person."""
