"""What is said about joint, glue, wood and what a test joint tells."""
