"""The sheet that shows each gauge at work. Uses drawing and what is wanted."""
