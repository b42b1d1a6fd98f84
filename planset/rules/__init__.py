"""Opinions on a design: one rule one file, listed in `registry.py`, run by `run.py`."""
