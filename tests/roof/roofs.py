"""Random roofs for the tests: main roofs with wings and dormers that fit them."""

from __future__ import annotations

from hypothesis import strategies as st

from planset.roof.shapes import Dormer, MainRoof, RoofShapeError, Wing, shaped_roof
from planset.roof.solid import Roof

lengths = st.integers(240, 1400).map(float)
pitches = st.sampled_from([n / 12 for n in range(1, 15)]) | st.floats(0.05, 1.5)


@st.composite
def mains(draw: st.DrawFn) -> MainRoof:
    """A main roof of any kind."""
    kind = draw(st.sampled_from(["gable", "hip", "shed", "flat"]))
    pitch = draw(st.floats(0, 1 / 6)) if kind == "flat" else draw(pitches)
    return MainRoof(kind, draw(lengths), draw(lengths), pitch)


@st.composite
def roofs(draw: st.DrawFn) -> tuple[Roof, MainRoof, tuple[Wing, ...]]:
    """A roof with what it was made of; what does not fit is left out."""
    main = draw(mains())
    azimuth = draw(st.floats(0, 359))
    wings: tuple[Wing, ...] = ()
    dormers: tuple[Dormer, ...] = ()
    for number in range(draw(st.integers(0, 2)) if main.kind != "flat" else 0):
        wing = Wing(
            f"w{number}",
            draw(st.sampled_from(["front", "right", "back", "left"])),
            draw(st.integers(0, 600)),
            draw(st.integers(60, 500)),
            draw(st.integers(12, 400)),
            draw(pitches),
            draw(st.booleans()),
        )
        if fits(main, (*wings, wing), dormers):
            wings = (*wings, wing)
    for number in range(draw(st.integers(0, 2)) if main.kind != "flat" else 0):
        setback = draw(st.integers(0, 200))
        rise = draw(st.integers(12, 60))
        dormer = Dormer(
            f"d{number}",
            draw(st.sampled_from(["gable", "shed"])),
            draw(st.sampled_from(["front", "right", "back", "left"])),
            draw(st.integers(0, 900)),
            draw(st.integers(36, 120)),
            setback,
            main.pitch * setback + rise,
            draw(pitches) * 0.5,
        )
        if fits(main, wings, (*dormers, dormer)):
            dormers = (*dormers, dormer)
    return shaped_roof(main, wings, dormers, azimuth), main, wings


def fits(main: MainRoof, wings: tuple[Wing, ...], dormers: tuple[Dormer, ...]) -> bool:
    try:
        shaped_roof(main, wings, dormers)
    except RoofShapeError:
        return False
    return True
