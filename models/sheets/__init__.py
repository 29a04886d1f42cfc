"""What is cut from sheet: pieces, tabs, nesting, the path of the cutter, notes for the operator. Uses part, flat, job."""
