"""Equipment, mounting systems and jurisdictions: models, and data a user can copy and extend."""
