"""The three packaged example jobs."""
