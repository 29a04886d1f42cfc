"""Wood, joints, saws and shapes: plain functions and frozen data, no files, no printing."""
