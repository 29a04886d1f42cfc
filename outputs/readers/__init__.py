"""Written files read back by libraries that did not write them, where these are installed; each imported when used."""
