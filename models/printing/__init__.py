"""What lies how on the bed of a printer: sections, plates, overhangs. Uses part, flat, job."""
