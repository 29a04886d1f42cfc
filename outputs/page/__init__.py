"""The page where a job is typed and seen at once: its own files, and what it shows of a job."""
