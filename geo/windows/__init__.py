"""windows."""
