"""Parts and the set-up as solids: the only room of the models with the CAD kernel. Uses part, printing, sheets, cut."""
