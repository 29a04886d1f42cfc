"""What is cut from sheet: pieces, tabs, nesting, path of the cutter, operator notes. Uses part, flat, job."""
