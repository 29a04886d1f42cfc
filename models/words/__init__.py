"""Sentences, made last from numbers and a unit. Uses findings, lengths, and the data it speaks of."""
