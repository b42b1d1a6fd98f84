"""California Fire Code (CFC)."""
