"""Access for the fire service on roofs of buildings other than dwellings."""
