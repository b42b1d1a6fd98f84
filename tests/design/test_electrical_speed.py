"""The electrical part of a design takes no time worth waiting for."""

import time

from houses import house, placed_arrays

from planset.design.electrical.build import build_electrical


def test_1000_modules() -> None:
    given = house().job.electrical
    first = given.strings[0]
    strings = tuple(
        first.model_copy(update={"id": f"S{n}", "modules": 10, "input": 1 + n % 3})
        for n in range(100)
    )
    changes = {
        "arrays.A1.rows": 20,
        "arrays.A1.columns": 50,
        "electrical.strings": strings,
    }
    inputs = house(changes)
    arrays = placed_arrays(inputs)
    build_electrical(inputs, arrays, ())
    start = time.process_time()
    found = build_electrical(inputs, arrays, ())
    assert time.process_time() - start < 0.2
    assert sum(len(string.modules) for string in found.strings) == 1000


def test_a_house() -> None:
    inputs = house()
    arrays = placed_arrays(inputs)
    build_electrical(inputs, arrays, ())
    start = time.process_time()
    for _ in range(10):
        build_electrical(inputs, arrays, ())
    assert (time.process_time() - start) / 10 < 0.02
