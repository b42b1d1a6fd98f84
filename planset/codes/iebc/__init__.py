"""International Existing Building Code (IEBC)."""
