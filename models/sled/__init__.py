"""The way "sled": sled, blade, travels, what sits where, the dividing cut. Uses joint, job, part, sheets, flat."""
