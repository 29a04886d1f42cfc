"""The sheet to measure a test joint on: where each figure is taken, and a box to write it in."""
