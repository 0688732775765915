"""What is taught: people, foods, techniques, recipes and courses."""
