"""Plates of a bench beside those that its learners make for themselves."""
