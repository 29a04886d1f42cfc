"""Quantities of a job that are no lengths, and the tables that ship with the package."""
