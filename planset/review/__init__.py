"""Opinions on the pages: one rule one file, listed in `registry.py`, run by `run.py`."""
