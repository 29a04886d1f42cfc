"""The glue-up sheet: where every clamp and riser stands, how much glue, in which order. Uses drawing, gluing, words."""
