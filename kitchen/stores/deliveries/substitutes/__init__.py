"""A substitute whose label names more: whom it touches, and what a person decides."""
