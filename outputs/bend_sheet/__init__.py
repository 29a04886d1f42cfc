"""The picture of a bent member: its curve, its curvature, what it asks of the wood, where joints may stand."""
