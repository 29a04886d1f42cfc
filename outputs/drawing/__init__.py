"""Display list of a sheet, dimensions, lettering, panels, placing of texts. Knows no saw."""
