"""California Residential Code (CRC)."""
