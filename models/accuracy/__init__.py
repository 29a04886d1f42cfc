"""What goes wrong in a joint and by how much; the verdict; what is to be expected of a shop, and what to better first."""
