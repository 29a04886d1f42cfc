"""The card that hangs at the saw. Uses drawing, the scene and the words of the cut."""
