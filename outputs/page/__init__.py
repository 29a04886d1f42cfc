"""The page where a job is typed and its sled, cut and warnings are seen at once: its files, and what it shows of a job."""
