"""International Fire Code (IFC)."""
