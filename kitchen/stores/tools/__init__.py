"""Small equipment: what a lesson needs, borrows, counts out and in, and what each place has."""
