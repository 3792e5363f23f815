"""infection."""
