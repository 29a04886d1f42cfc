"""What the shop book says beyond the other words: where a figure comes from, what lies in which "
"file, what to record."""
