"""National Design Specification for Wood Construction (NDS), 2018 edition, allowable stress."""
