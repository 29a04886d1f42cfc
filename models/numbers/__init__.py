"""The content of numbers.json. Uses a worked-out job."""
