"""A member sprung or laminated to a curve: curvature from offsets, strain, use along it, where a joint may stand."""
