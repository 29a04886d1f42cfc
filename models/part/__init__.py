"""A part: flat shapes with a thickness, letters, whether it is one body, how it reads. Uses flat, job, joint."""
