"""What is said about the cut and the saw."""
