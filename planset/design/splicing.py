"""Where one rail may be spliced, and the fewest pieces it then takes; all along the rail [in]."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planset.catalog.rail import Splice

_NOISE_IN = 1e-6
_KNOWN = 256  # rails whose splices are kept: most rails of a job are alike


@dataclass(frozen=True, slots=True)
class Window:
    """Where the middle of a splice may lie.

    Attributes:
        low_in: From here.
        high_in: To here.
        span: The attachments of its span, the same one twice where it is on an attachment.
        own_in: The first attachment past the splice, None where there is none.
    """

    low_in: float
    high_in: float
    span: tuple[float, float]
    own_in: float | None


@dataclass(frozen=True, slots=True)
class Section:
    """A rail to be made of pieces.

    Attributes:
        start_in: Its lower or left end.
        end_in: Its other end.
        first_in: Its first attachment.
    """

    start_in: float
    end_in: float
    first_in: float


def windows(
    supports: Sequence[float],
    splice: Splice,
    footprint_in: float,
    kept_clear: Iterable[tuple[float, float]],
) -> list[Window]:
    """Where a rail may be spliced, from its lower or left end.

    Args:
        supports: Its attachments, along it.
        splice: What joins its pieces.
        footprint_in: Length of an attachment along the rail.
        kept_clear: Middles and half lengths of what the splice must not overlap besides.
    """
    half = splice.length / 2
    found: list[Window] = []
    for a, b in pairwise(supports):
        near, far = ((b - a) * share for share in (splice.window_from, splice.window_to))
        for low, high in ((a + near, a + far), (b - far, b - near)):
            if splice.on_attachment:
                found += _by_own(Window(low, high, (a, b), None), supports, half)
            else:
                clear = footprint_in / 2 + half
                found.append(Window(max(low, a + clear), min(high, b - clear), (a, b), b))
    if splice.on_attachment:
        for at in supports:
            found += _by_own(Window(at, at, (at, at), None), supports, half)
    for middle, half_size in kept_clear:
        found = [part for window in found for part in _beside(window, middle, half_size + half)]
    return sorted(
        (window for window in found if window.low_in <= window.high_in + _NOISE_IN),
        key=lambda window: (window.low_in, window.high_in),
    )


def _by_own(window: Window, supports: Sequence[float], half: float) -> Iterator[Window]:
    """A window cut where the first attachment clear of the splice changes."""
    low = window.low_in
    for at in supports:
        if low > window.high_in + _NOISE_IN:
            return
        if at - half >= low - _NOISE_IN:
            high = min(window.high_in, at - half)
            yield replace(window, low_in=low, high_in=high, own_in=at)
            low = at - half + 2 * _NOISE_IN
    if low <= window.high_in + _NOISE_IN:
        yield replace(window, low_in=low)


def _beside(window: Window, middle: float, apart: float) -> Iterator[Window]:
    """What is left of a window where a splice keeps so far from something."""
    if not window.low_in - apart < middle < window.high_in + apart:
        yield window
        return
    yield replace(window, high_in=min(window.high_in, middle - apart))
    yield replace(window, low_in=max(window.low_in, middle + apart))


@dataclass(frozen=True, slots=True)
class _Way:
    """Splices chosen so far."""

    at_in: float
    own_in: float
    splices: tuple[float, ...]


@lru_cache(maxsize=_KNOWN)
def fewest_splices(
    section: Section, allowed: tuple[Window, ...], stock_in: float, half_in: float
) -> tuple[float, ...] | None:
    """Splices that make a section of the fewest pieces, the longest first; None where none can.

    Of the places with the same attachment past them the farthest is as good as any other: the
    next piece reaches farther from it and has the same to stand on.

    Args:
        section: The section.
        allowed: Where it may be spliced, in order.
        stock_in: The longest piece.
        half_in: Half the length of a splice.
    """
    ways = [_Way(section.start_in, section.first_in, ())]
    while ways:
        done = [way for way in ways if section.end_in - way.at_in <= stock_in + _NOISE_IN]
        if done:
            return max(done, key=lambda way: way.at_in).splices
        ways = _next(ways, allowed, section, stock_in, half_in)
    return None


def _next(
    ways: Sequence[_Way],
    allowed: Sequence[Window],
    section: Section,
    stock_in: float,
    half_in: float,
) -> list[_Way]:
    """The farthest next splice by each attachment past it."""
    best: dict[float, _Way] = {}
    for way in ways:
        for window in allowed:
            own = window.own_in
            if own is None:
                continue
            at = min(window.high_in, way.at_in + stock_in)
            if at < max(window.low_in, way.own_in + half_in) - _NOISE_IN:
                continue
            if own not in best or at > best[own].at_in:
                best[own] = _Way(at, own, (*way.splices, at))
    return [best[own] for own in sorted(best)]
