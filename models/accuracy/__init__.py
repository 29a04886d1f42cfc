"""What goes wrong in a joint and by how much; the verdict; what to expect of a shop, and what to better first."""
