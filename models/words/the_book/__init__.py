"""What the shop book says of its own: where a figure comes from, what lies in which file, what to record."""
