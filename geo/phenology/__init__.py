"""phenology."""
