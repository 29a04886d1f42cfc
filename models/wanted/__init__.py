"""Which parts a job asks for, and what was found about each. Uses parts, printing, sheets."""
