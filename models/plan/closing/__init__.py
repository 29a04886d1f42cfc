"""Proving plans: the exact model for the solver, and patterns where no blank may have a joint. The only folder here
that loads a solver, inside functions."""
