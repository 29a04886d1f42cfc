"""The joint on paper: mated, magnified, planed; what to pencil on each board; right and wrong turns."""
