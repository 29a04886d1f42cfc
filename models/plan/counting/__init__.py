"""Bounds by count: rows of arithmetic in whole numbers that a person can check; no solver needed for the joints."""
