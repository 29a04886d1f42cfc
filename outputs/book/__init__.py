"""The shop book: index.html, one file that leads through the whole job. Puts words and narrow drawings on a page."""
