"""Where every unit of one tier stands: columns from the right, rows by the sources' order."""

from __future__ import annotations

from planset.sheets.one_line.boundary import BOUNDARY_HEAD, boundary_foot
from planset.sheets.one_line.ground import GroundPath, earth_height, lane_room
from planset.sheets.one_line.kinds import IN_ARRAY
from planset.sheets.one_line.node import TAG_RADIUS, Node, gap_after
from planset.sheets.one_line.sizes import (
    BELOW,
    LABEL_GAP,
    SHARED_BOX_HEAD,
    Style,
    box_extent,
    least_pitch,
    panel_shape,
)

BAND_GAP = 0.1  # between what stands one above the other [in]


def least_width(root: Node) -> float:
    """Width of a tier with all wires as short as may be [in]."""
    return root.width + max(
        (least_width(child) + gap_after(child) for child in root.children), default=0.0
    )


def _gaps(root: Node) -> int:
    """Wires along the widest chain."""
    if not root.children:
        return 0
    widest = max(root.children, key=lambda child: least_width(child) + gap_after(child))
    return 1 + _gaps(widest)


def place_columns(root: Node, left: float, right: float, most: float = 0.9) -> None:
    """Set every cell's side; wires take what the width leaves, up to `most` inches more each."""
    spare = right - left - least_width(root)
    stretch = min(spare / max(_gaps(root), 1), most)
    _place_from_right(root, right, stretch)
    slack = min(node.x0 for node in root.walk()) - left
    for node in root.walk():
        node.x0 -= slack


def _place_from_right(node: Node, right: float, stretch: float) -> None:
    node.x0 = right - node.width
    for child in node.children:
        _place_from_right(child, node.x0 - gap_after(child) - stretch, stretch)


def place_rows(root: Node, style: Style, path: GroundPath) -> None:
    """Set every level, from y = 0 of the root's way onward.

    Args:
        root: The tier, its columns placed.
        style: How it is drawn.
        path: The grounding path.
    """
    _measure(root, style, path)
    _descend(root, 0.0)


def _measure(node: Node, style: Style, path: GroundPath) -> None:
    for child in node.children:
        _measure(child, style, path)
    rows: list[float] = []
    below = 0.0
    pitch = least_pitch(node, style)
    for number, feed in enumerate(node.feeds):
        up, down = (feed.up, feed.down) if feed else (pitch / 2, 0.1 + node.reach)
        if number:
            rows.append(min(below - BAND_GAP - up, rows[-1] - pitch))
        else:
            rows.append(0.0)
        below = rows[-1] - down
    _set_extent(node, style, path, rows, below)


def _set_extent(
    node: Node, style: Style, path: GroundPath, rows: list[float], below: float
) -> None:
    unit = node.unit
    if unit.continued:
        node.up = max(0.05, node.symbol.y1 + LABEL_GAP + node.label.height)
        node.up = max(node.up, 2 * TAG_RADIUS + 0.04) + node.span
        node.down = max(0.05, -node.symbol.y0, lane_room(node, path)) + node.span
        return
    if unit.panel is not None:
        shape = panel_shape(unit, style, rows)
        onward, (bottom, top) = shape.main_y, shape.outline
    else:
        onward, top, bottom = box_extent(node, rows)
        if node.beside:
            top = max(top, 0.16)
    top += LABEL_GAP + node.label.height if node.label.height else 0.0
    if unit.item is not None and unit.item.panel in style.panels:
        top += SHARED_BOX_HEAD
    bottom -= BELOW if not node.beside else 0.02
    node.sink = _sink(node, path, (onward, rows), bottom)
    bottom -= earth_height(node)
    if node.feeds and node.feeds[0]:
        around = unit.kind not in IN_ARRAY and node.feeds[0].unit.kind in IN_ARRAY
        top = max(top, node.feeds[0].up + (BOUNDARY_HEAD if around else 0.0))
    bottom = min(bottom, below) if rows else bottom
    if node.lowest:
        bottom -= boundary_foot(node)
    node.rows = [row - onward for row in rows]
    node.up, node.down = top - onward, onward - bottom
    node.up = max(node.up, node.span + 2 * TAG_RADIUS + 0.04)
    node.down = max(node.down, node.span + max(0.04, lane_room(node, path)))


def _sink(node: Node, path: GroundPath, levels: tuple[float, list[float]], foot: float) -> float:
    """How far the words of the lanes beside an enclosure reach below its foot [in]."""
    onward, rows = levels
    if not node.earth:
        return 0.0
    lanes = [onward - node.span - lane_room(node, path)]
    if node.feeds and node.feeds[-1]:
        lanes.append(rows[-1] - node.feeds[-1].span - lane_room(node.feeds[-1], path))
    return max(0.0, foot - min(lanes))


def _descend(node: Node, y: float) -> None:
    node.y = y
    node.rows = [y + row for row in node.rows]
    for child, row in zip(node.feeds, node.rows, strict=True):
        if child is not None:
            _descend(child, row)


def tier_extent(root: Node) -> tuple[float, float]:
    """Lowest and highest level of a placed tier [in]."""
    return root.y - root.down, root.y + root.up
