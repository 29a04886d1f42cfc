"""Quantities that are no lengths, and the tables that ship with the package. Uses lengths."""
