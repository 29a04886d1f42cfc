"""Which pieces the page shows, in the order of working; nothing is loaded for it."""

from __future__ import annotations

MOVING, FORM = "moving_cut", "tune"  # pieces with a script, which the page shows by themselves
FIRST = (MOVING, "first", "joint", "sled")  # what one looks at while one types
REST = ("wood", "checking", "saw", "cut", "testing", FORM, "gluing", "planing", "bending")
# a record is written at the saw; of files the page has a list of its own
OF_A_FAULTY_JOB = (MOVING, "joint")  # nothing of what to do at the saw
