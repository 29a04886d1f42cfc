"""Kinds of adhesive in numbers."""
