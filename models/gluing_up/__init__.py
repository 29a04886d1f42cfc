"""The glue-up: kinds of adhesive, how much, how hard the clamps press, where they stand."""
