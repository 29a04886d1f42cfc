"""The text of a job or shop file, and the shop that a job takes its machines from."""
