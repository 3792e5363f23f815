"""rounds."""
