"""The attachment details of S-501: which there are, their sections, notes and tables."""
