"""How strong a scarf is: share by slope, glue plane, kinds of wood, the bend test. Uses joint, lengths, quantities."""
