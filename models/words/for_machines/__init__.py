"""What is said about gauges, printers, routers and lasers."""
