"""The solver of linear programs and of whole numbers, silent and alike on every machine.

It takes a tenth of a second to import, so that whoever may do without imports this late.
"""

import highspy


class Solver(highspy.Highs):
    """One that says nothing: to enable callbacks, which nobody wants here, prints a banner.

    Args:
        **options: Options of HiGHS by name; limits are numbers of nodes or steps, never times.
    """

    def __init__(self, **options: float) -> None:
        super().__init__()  # type: ignore[no-untyped-call]
        always: dict[str, bool | str | int] = {
            "output_flag": False,
            "parallel": "off",
            "random_seed": 0,
        }
        for name, value in (always | options).items():
            self.setOptionValue(name, value)

    def enableCallbacks(self) -> None:  # noqa: N802, D102
        pass
