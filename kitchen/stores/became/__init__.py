"""What became of the dishes after a lesson, and which benches a shared kit was given to."""
