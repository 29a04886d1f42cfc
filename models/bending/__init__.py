"""A member sprung or laminated to a curve: curvature, strain, use, where a joint may stand. Uses strength."""
