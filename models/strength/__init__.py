"""How strong a scarf is: share of clear-wood strength by slope, glue-plane stress, kinds of wood, the bend test."""
