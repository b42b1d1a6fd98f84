"""Fire Code of the National Fire Protection Association (NFPA 1)."""
