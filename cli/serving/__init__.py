"""`scarfwright page`: a server for one person on this machine, and the process that makes files for it."""
