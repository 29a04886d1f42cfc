"""Sentences: numbers from the rooms, made into what people read."""
