"""The electrical design: circuits, equipment and what connects it, conductors, buses, grounding."""
