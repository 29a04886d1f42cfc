"""The eight packaged example jobs."""
