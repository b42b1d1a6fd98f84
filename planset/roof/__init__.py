"""Roofs as solids: planes with frames of their own, and the edges between them."""
