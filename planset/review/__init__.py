"""Opinions on the pages and the set they make: a rule a file, in `registry.py`, run by `run.py`."""
