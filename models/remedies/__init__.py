"""Ways out of a finding, as changes to the job: proposed from its numbers, and each tried before it is told."""
