"""What lies how on the bed of a printer: sections, filled beds, overhangs. Uses part, flat, job."""
