"""Findings about the sled and what sits on it."""
