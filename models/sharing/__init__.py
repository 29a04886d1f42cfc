"""A job passed on: its manifest, the versions and the licence in it, numbers compared. Reads and writes no file."""
