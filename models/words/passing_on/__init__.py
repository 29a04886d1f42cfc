"""Words of a job that is passed on: what goes with it, and what is found when it comes back."""
