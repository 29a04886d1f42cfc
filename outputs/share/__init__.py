"""A job passed on as files: sealing a folder, writing a zip, reading one strictly, checking a folder against its
manifest. Nothing read is unpacked or run."""
