"""The picture of a bent member: curve, curvature, use, where joints may stand. Uses drawing, bending, words."""
