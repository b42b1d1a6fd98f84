"""Words of the crew sheet on how attachments stand among the courses of tile or shingles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planset.catalog.attachment import HookAttachment
from planset.design.clamp_reach import rail_reach
from planset.design.mounted import Mounted
from planset.design.post_courses import PostFit
from planset.sheets.attachment_mark import as_laid_out, laps_as_laid_out, window_words
from planset.sheets.details.detail import Detail
from planset.sheets.details.sections import place_on_shingles
from planset.sheets.details.shingles import Tucked, shingle
from planset.sheets.tag_lists import listed_tags
from planset.sheets.words import inches
from planset.units import format_feet_inches


def among_courses(alike: Sequence[Mounted], detail: Detail) -> Iterator[str]:
    """Where an attachment must stand among the courses, and what gives way if it does not.

    Args:
        alike: The arrays of one mounting system.
        detail: How its attachment is drawn.
    """
    attachment = alike[0].array.system.attachment
    if isinstance(attachment, HookAttachment):
        yield from _hooks(alike, attachment)
    posts = [one.post_fit for one in alike if one.post_fit and one.post_fit.posts]
    if posts:
        yield _lapped(posts)
        yield from _battens(posts)
    place = place_on_shingles(detail)
    if place is not None:
        yield _on_shingles(alike, place, shingle(detail).exposure)


def _hooks(alike: Sequence[Mounted], hook: HookAttachment) -> Iterator[str]:
    fits = [one.tile_fit for one in alike if one.tile_fit and one.tile_fit.hooks]
    if fits:
        yield (
            f"{hook.name}: its arm leaves at the lap of a course, {window_words(fits)} "
            f"({as_laid_out(fits)} as laid out), in a pan, up to {inches(hook.side_adjustment)} to "
            "either side of its plate's middle. Farther off: stop and call the designer."
        )


def _lapped(fits: Sequence[PostFit]) -> str:
    """How a post must stand below the course above."""
    post = fits[0].post
    return (
        f"{post.name}: its flashing reaches {inches(post.flashing_above)} up the slope from the "
        f"post, {inches(fits[0].least_lap_in)} or more of it under the course above "
        f"({laps_as_laid_out(fits)} as laid out). Less: stop and call the designer."
    )


def _battens(fits: Sequence[PostFit]) -> Iterator[str]:
    """What is done where a plate meets a batten, and where the layout has that."""
    if not fits[0].battens:
        return
    met = [post.attachment for fit in fits for post in fit.posts if post.on_batten_in > 0]
    where = f"as laid out at {listed_tags(met)}" if met else "as laid out none does"
    yield (
        f"{fits[0].post.name}: where its plate meets a batten ({where}), the batten is cut out for "
        "the plate and blocked to the deck on both sides of it; the plate lies flat on the deck."
    )


def _on_shingles(alike: Sequence[Mounted], place: Tucked, exposure_in: float) -> str:
    """Where one must stand below the butt above, and how far a rail may go to bring it there."""
    attachment = alike[0].array.system.attachment
    least = format_feet_inches(place.least_in, rounding="up")
    most = format_feet_inches(place.most_in, rounding="down")
    window = (
        f"{attachment.name}: its mark UP stands {least} to {most} below the butt of the course "
        "above. Nobody has measured the courses"
    )
    reaches = [reach for one in alike if (reach := rail_reach(one)) is not None]
    if len(reaches) < len(alike):
        return (
            f"{window}: measure them before the first hole. Where a mark stands elsewhere, stop "
            "and call the designer."
        )
    farthest = (exposure_in - (place.most_in - place.least_in)) / 2
    edge, middle = (
        format_feet_inches(min(farthest, *ways), rounding="down")
        for ways in zip(*((one.to_edge_in, one.to_middle_in) for one in reaches), strict=True)
    )
    return (
        f"{window}: before the first hole move the whole rail, all its marks alike, to the nearest "
        f"such place, at most {edge} toward the edge of its modules and {middle} toward their "
        "middle (clamp zone of the frame); write the new UP into the tables and check the "
        "diagonals by it. Where that does not reach, stop and call the designer."
    )
