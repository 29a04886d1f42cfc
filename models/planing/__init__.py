"""Planing the glued stick to size, and choosing boards for the joint."""
