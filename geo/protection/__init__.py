"""protection."""
