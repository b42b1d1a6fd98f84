"""Cutting stock: packing, bounds, and the exact search; lengths are whole numbers."""
