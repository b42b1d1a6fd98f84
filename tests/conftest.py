"""Settings of the whole suite."""

import gc

from hypothesis import settings

# The same cases on every run, and no deadline: a loaded machine is no fault of the code.
settings.register_profile("planset", derandomize=True, deadline=None)
settings.load_profile("planset")


def pytest_collection_finish() -> None:
    """Keep the garbage collector off the thousands of tests, which would slow what they time."""
    gc.collect()
    gc.freeze()
