"""A part: flat shapes with a thickness, letters on it, whether it is one body, how well it reads. Uses flat, lengths, job, joint."""
