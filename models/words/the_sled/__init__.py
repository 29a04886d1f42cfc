"""What is said about the sled, its clamps and how it is made."""
