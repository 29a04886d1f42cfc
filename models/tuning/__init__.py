"""From what was measured on a test joint to what is wrong with the set-up, how surely, and how to correct it."""
