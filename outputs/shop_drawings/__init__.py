"""Dimensioned sheets of sled, plank, layers and cut sheets. Uses drawing and a worked-out job."""
