"""Groups and learners with what they avoid and what was agreed: pages over several topics."""
