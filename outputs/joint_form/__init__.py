"""The test joint as a form on a page: what was measured is typed in, the corrections are shown at once."""
