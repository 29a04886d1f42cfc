"""Drawings as narrow as a phone: few things, large letters. Uses drawing, the scene of the cut and words."""
