"""Settings of the whole suite."""

from hypothesis import settings

# The same cases on every run, and no deadline: a loaded machine is no fault of the code.
settings.register_profile("planset", derandomize=True, deadline=None)
settings.load_profile("planset")
