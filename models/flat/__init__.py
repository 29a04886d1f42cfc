"""Loops of lines and arcs: crossings, overlap, offset, pen strokes, round cutters. Uses nothing of ours."""
