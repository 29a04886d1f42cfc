"""Templates at full size, tiled into pages. Uses drawing and templates."""
