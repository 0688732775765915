"""The papers of a lesson: which prints are in force, what must be printed again, what a code says."""
