"""What a piece of a web page is: its markup, script, style and data. Knows no job."""
