"""Where clamps and risers stand while a joint is glued, how much glue, how hard they press. Uses joint, job, "
"adhesives."""
