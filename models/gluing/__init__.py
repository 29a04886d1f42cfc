"""Where clamps and risers stand while a joint is glued. Uses joint and job."""
