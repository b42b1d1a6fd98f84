"""Where raceways of several boxes become one there is a box for it."""

import math
from collections.abc import Iterator

from planset.errors import Problem
from planset.job.electrical.electrical import Electrical
from planset.job.electrical.wiring import RunOfBox
from planset.source import Location, SourceDocument
from planset.units import format_feet_inches

_NOISE_IN = 0.5


def check_joints(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield runs that come together in no box, in none that is there, and boxes beside the way."""
    boxes = [box.id for box in electrical.junction_boxes]
    known = [*boxes, *(box.id for box in electrical.pull_boxes)]
    used = set()
    for stated in electrical.wiring.runs:
        run = stated.run
        if not isinstance(run, RunOfBox):
            continue
        place: Location = ("electrical", "wiring", *stated.place, "joined_in")
        used.add(run.joined_in)
        if run.shared is None:
            if run.joined_in is not None:
                yield document.problem(place, "of a run that shares no raceway", "remove it")
        elif run.joined_in is None:
            message = "missing: raceways become one in a box"
            mend = "name that box, as joined_in: JB1, or add one to pull_boxes"
            yield document.problem(place, message, mend)
        elif run.joined_in not in known:
            message = f"no box has this id (got {run.joined_in})"
            yield document.problem(place, message, f"write one of: {', '.join(known)}")
        elif run.joined_in == stated.box:
            lengths = [part.length for part in run.places if part.length is not None]
            apart = math.fsum(lengths) - run.shared
            if len(lengths) == len(run.places) and apart > _NOISE_IN:
                message = (
                    f"the raceways come together {format_feet_inches(apart)} past it (got "
                    f"{run.joined_in})"
                )
                mend = "share the whole run of that box, or name a pull box"
                yield document.problem(place, message, mend)
    for number, box in enumerate(electrical.pull_boxes):
        if box.id not in used:
            where: Location = ("electrical", "pull_boxes", number)
            mend = "name it in joined_in of the runs, or remove it"
            yield document.problem(where, f"no raceways come together in {box.id}", mend)
