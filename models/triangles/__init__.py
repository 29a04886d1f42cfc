"""Triangles of what is drawn along an axis, holes and all, for pictures in 3D. Knows flat loops, no kernel, no job."""
