"""Pages and data files made from a shop."""
