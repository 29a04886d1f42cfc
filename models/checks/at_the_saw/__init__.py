"""Findings about the saw and the cut."""
