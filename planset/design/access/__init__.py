"""Fire access: what is measured of a roof, and what has to be kept free of it."""
