"""Marking templates: what is drawn round and pricked through on the wood, cut by a laser or printed at full size."""
