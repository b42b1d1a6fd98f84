"""Modules and rails on their plane."""
