"""Kinds of adhesive in numbers, with their sources. Uses quantities."""
