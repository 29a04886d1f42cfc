"""Finding plans: filling one blank, ruin and recreate. Seeded, and bounded by work."""
