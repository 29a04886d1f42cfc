"""Which board goes where: long blanks out of short boards. Pure data in, pure data out; free of the saw."""
