"""Turn one job file into a permit-ready plan set for a rooftop solar array."""

__version__ = "0.1.0"
