"""pipeline."""
