"""Marking templates, their sections on the bed of a laser, its kerf. Uses sled, part, sheets, printing."""
