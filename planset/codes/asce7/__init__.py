"""ASCE 7: what its editions share, and the door to the numbers of each (`standard`)."""
