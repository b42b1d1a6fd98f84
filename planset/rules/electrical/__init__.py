"""Voltages, currents, shutdown and connection."""
