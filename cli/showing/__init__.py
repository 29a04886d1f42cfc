"""What commands show on the screen."""
