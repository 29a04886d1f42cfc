"""Lengths, units, sizes of sawn timber (lumber), slopes, and how numbers read. Uses nothing of ours."""
