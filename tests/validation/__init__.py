"""One module for each outside source: what it says, against what the models compute."""
