"""Writers: finished objects in, files out; one file a format."""
