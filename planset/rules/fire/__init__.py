"""Access for the fire service on the roof of a dwelling."""
