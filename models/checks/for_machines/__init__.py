"""Findings about what machines and paper can take."""
