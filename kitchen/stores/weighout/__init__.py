"""The weigh-out of a lesson: its order, its tally against the bulk, its second check, its lids."""
