"""Tests of `scarfwright page`."""
