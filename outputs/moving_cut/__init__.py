"""The cut in 3D, in plan and from the side, moved along by a slider: a piece of a web page. Knows the workup."""
