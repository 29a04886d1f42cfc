"""Commands about a job that is passed on: packing it, checking and making it from a zip, making it one's own."""
