"""dispersal."""
