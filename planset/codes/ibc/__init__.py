"""International Building Code (IBC)."""
