"""The job: its tables, reading and writing it, the commented start. Uses lengths."""
