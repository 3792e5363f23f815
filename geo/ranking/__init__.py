"""ranking."""
