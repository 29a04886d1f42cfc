"""Planing the glued stick to size, and choosing boards for it. Uses joint and strength."""
