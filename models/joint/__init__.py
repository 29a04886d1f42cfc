"""The scarf joint alone, whatever cuts it. Uses nothing of ours."""
