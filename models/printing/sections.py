"""A flat part longer than the bed cut into sections that are joined by dovetail keys.

      shoulder
________|________       The shoulders meet without play, so the length stays what it is; only the key's
        \\  ___          flanks and end have the clearance.
         |/   |  key
         |\\___|         The key belongs to the section on the left, its socket to the one on the right.
________/________
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeVar

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.crossings import crossings, edge_box, split_at
from scarfwright.models.flat.loop import Edge, Loop, Point, rounded_each
from scarfwright.models.flat.overlap import inside, meet
from scarfwright.models.part.part import Feature, Mark, Part, Raised
from scarfwright.models.printing.bed import angle_to_fit, part_bounds, size

KEY_PITCH = 45.0  # one key for so much width [mm]
KEY_DEPTH = (4.0, 12.0)  # least and greatest [mm]
KEY_SPREAD = math.radians(15)  # slope of the flanks; steeper ones hold, flatter ones break (common practice, no source)
LEAST_WIDTH = 12.0  # narrower stretches have no room for a key and wood beside it [mm]
MARGIN = 2.0  # plain material before and behind a key [mm]
MOST_SECTIONS = 12
MOST_CLEARANCE = 1.0  # a key looser than this holds nothing in line [mm]; common practice, no source


Shape = TypeVar("Shape", Feature, Raised)


class SplitError(ValueError):
    """The part fits no bed of this size, not even in sections."""


@dataclass(frozen=True)
class Key:
    """A dovetail on the middle line `y`, from the shoulder `x` towards +x [mm]."""

    x: float
    y: float
    base: float
    depth: float

    def corners(self, clearance: float) -> list[tuple[Point, float]]:
        """Corners from below to above with the radius of each [mm]; a socket is larger by the clearance all round.

        The root rounding stays the same, moved along the shoulder; that of the end grows with the clearance.
        """
        spread = math.tan(KEY_SPREAD)
        half = self.base / 2 + clearance / math.cos(KEY_SPREAD)
        depth = self.depth + clearance
        root, end = 0.12 * self.depth, max(0.15 * self.depth + clearance, 0.0)
        tip = half + depth * spread
        return [
            ((self.x, self.y - half), root),
            ((self.x + depth, self.y - tip), end),
            ((self.x + depth, self.y + tip), end),
            ((self.x, self.y + half), root),
        ]


def split(part: Part, bed_x: float, bed_y: float, clearance: float) -> tuple[Part, ...]:
    """The part in as few sections as fit the bed; the part itself if it fits whole.

    Parameters: bed_x, bed_y [mm]; clearance of the keys' flanks and ends [mm]: the printer's tolerance, or for a
    tool that cuts on the line the play wanted less the kerf (negative: the key is drawn larger than its socket).
    Cuts run across the part where its outline is two straight lines and no hole or letter is in the way.
    Raises SplitError if there is no way.
    """
    if angle_to_fit(part, bed_x, bed_y) is not None:
        return (part,)
    if clearance > MOST_CLEARANCE:
        raise SplitError(f"{part.name}: keys {clearance:g} mm loose hold no sections together")
    long, wide = size(part)
    lying = part if long >= wide else part.turned(-math.pi / 2)
    for count in range(2, MOST_SECTIONS + 1):
        sections = _sections(lying, count, clearance)
        if sections and all(angle_to_fit(s, bed_x, bed_y) is not None for s in sections):
            return sections if lying is part else tuple(s.turned(math.pi / 2) for s in sections)
    raise SplitError(f"{part.name} fits a bed of {bed_x:g} by {bed_y:g} mm no way")


def sections(
    part: Part, bed_x: float, bed_y: float, clearance: float, margin: float = 0.0
) -> tuple[tuple[Part, ...], list[Finding]]:
    """As `split`, with a finding and no section where the part does not fit even so; `margin` is what was taken off
    the bed on each side [mm]."""
    try:
        return split(part, bed_x, bed_y, clearance), []
    except SplitError:
        if clearance > MOST_CLEARANCE:
            return (), [finding("split.too_loose", title=part.title, clearance_mm=clearance, most_mm=MOST_CLEARANCE)]
        long, wide = sorted(size(part), reverse=True)
        stuck = finding(
            "split.no_place",
            title=part.title,
            length_mm=long,
            width_mm=wide,
            bed_x_mm=bed_x + 2 * margin,
            bed_y_mm=bed_y + 2 * margin,
            margin_mm=margin,
            too_wide=float(wide > max(bed_x, bed_y)),
        )
        return (), [stuck]


def _sections(part: Part, count: int, clearance: float) -> tuple[Part, ...]:
    """`count` sections of about equal length; none if a joint finds no place."""
    x0, _, x1, _ = part_bounds(part)
    even = (x1 - x0) / count
    found: list[Part | None] = []
    rest: Part | None = part
    for i in range(1, count):
        keys = _place(part, x0 + i * even, even / 3, clearance)
        if keys is None:
            return ()
        left, right = _regions(part, keys, clearance)
        found.append(_clipped(rest, left))
        rest = _clipped(rest, right)
    found.append(rest)
    if not all(found):
        return ()
    return tuple(
        replace(s, name=f"{part.name}-{i}", title=f"{part.title}, section {i} of {count}")
        for i, s in enumerate((f for f in found if f), start=1)
    )


# -- where a joint can be ---------------------------------------------------------------------------------


def _place(part: Part, wish: float, reach: float, clearance: float) -> list[Key] | None:
    """Keys of the joint nearest to x = `wish`, within `reach` [mm] of it, or None."""
    barred = _barred(part)
    for step in range(int(reach) + 1):
        for x in (wish + step, wish - step) if step else (wish,):
            keys = _keys_at(part, x)
            if not keys:
                continue
            left, right = x - MARGIN, x + keys[0].depth + clearance + MARGIN
            if _plain(part.outline, left, right) and not any(a < right and b > left for a, b in barred):
                return keys
    return None


def _barred(part: Part) -> list[tuple[float, float]]:
    """Stretches of x that must not be cut through: holes, letters, and what has islands."""
    cuts = [f.loop.bounds for f in part.features if f.depth is None or f.writing or f.islands]
    return [(x0, x1) for x0, _, x1, _ in cuts]


def _keys_at(part: Part, x: float) -> list[Key]:
    """Keys across the part at x: as many as the width asks for, none where it is too narrow."""
    low, high = _span(part.outline, x)
    width = high - low
    if width < LEAST_WIDTH:
        return []
    count = max(1, math.floor(width / KEY_PITCH))
    pitch = width / count
    depth = min(max(0.3 * pitch, KEY_DEPTH[0]), KEY_DEPTH[1])
    return [Key(x, low + (i + 0.5) * pitch, 0.36 * pitch, depth) for i in range(count)]


def _span(loop: Loop, x: float) -> tuple[float, float]:
    """Lowest and highest y where the upright line at x crosses a loop's straight edges; equal where it does not."""
    found = []
    for edge in loop.edges():
        (ax, ay), (bx, by) = edge.start, edge.end
        if (ax > x) != (bx > x):
            found.append(ay + (x - ax) / (bx - ax) * (by - ay))
    return (min(found), max(found)) if found else (0.0, 0.0)


def _plain(outline: Loop, left: float, right: float) -> bool:
    """Two straight edges through the whole band, neither steeper than 1 in 2, and nothing else in it."""
    through = 0
    for edge in outline.edges():
        (ax, ay), (bx, by) = edge.start, edge.end
        x0, _, x1, _ = edge_box(edge)
        if x1 <= left or x0 >= right:
            continue
        if edge.bulge or x0 > left or x1 < right or abs(by - ay) > abs(bx - ax) / 2:
            return False
        through += 1
    return through == 2


# -- cutting ----------------------------------------------------------------------------------------------


def _regions(part: Part, keys: list[Key], clearance: float) -> tuple[Loop, Loop]:
    """All that lies left of the joint, keys included, and all that lies right of it, outside the sockets."""
    x0, y0, x1, y1 = part_bounds(part)
    far_left, low, far_right, high = x0 - 10, y0 - 10, x1 + 10, y1 + 10
    x = keys[0].x
    tabs = [corner for key in keys for corner in key.corners(0.0)]
    sockets = [corner for key in reversed(keys) for corner in reversed(key.corners(clearance))]
    left = [((far_left, low), 0.0), ((x, low), 0.0), *tabs, ((x, high), 0.0), ((far_left, high), 0.0)]
    right = [((x, low), 0.0), ((far_right, low), 0.0), ((far_right, high), 0.0), ((x, high), 0.0), *sockets]
    return _rounded(left), _rounded(right)


def _rounded(corners: list[tuple[Point, float]]) -> Loop:
    return rounded_each([point for point, _ in corners], [radius for _, radius in corners])


def _clipped(part: Part | None, region: Loop) -> Part | None:
    """What of a part lies in a region; None if that is not one piece."""
    if part is None:
        return None
    outlines = meet(part.outline, region)
    if len(outlines) != 1:
        return None
    return replace(
        part,
        outline=outlines[0],
        features=tuple(piece for f in part.features for piece in _shared(f, region)),
        raised=tuple(piece for r in part.raised for piece in _shared(r, region)),
        marks=tuple(piece for mark in part.marks for piece in _mark(mark, region)),
    )


def _shared(thing: Shape, region: Loop) -> list[Shape]:
    """A feature whole if it lies in the region, else the pieces of it that do."""
    points = [v.point for v in thing.loop.vertices]
    x0, y0, x1, y1 = thing.loop.bounds
    near = [e for e in region.edges() if (b := edge_box(e))[0] <= x1 and b[2] >= x0 and b[1] <= y1 and b[3] >= y0]
    crossed = any(crossings(a, b, 1e-6) for a in thing.loop.edges() for b in near)
    if not crossed:
        return [thing] if inside(region, points[0]) else []
    return [replace(thing, loop=loop) for loop in meet(thing.loop, region)]


def _mark(mark: Mark, region: Loop) -> list[Mark]:
    """A text where it begins in the region; a line cut at its edge."""
    if mark.text or len(mark.points) < 2:
        return [mark] if inside(region, mark.points[0]) else []
    runs: list[list[Point]] = []
    for start, end in pairwise(mark.points):
        edge = Edge(start, end, 0.0)
        if edge.length == 0:
            continue
        cuts = [p for other in region.edges() for p in crossings(edge, other, 1e-6)]
        for piece in split_at(edge, cuts, 1e-6):
            if not inside(region, piece.middle):
                continue
            if runs and runs[-1][-1] == piece.start:
                runs[-1].append(piece.end)
            else:
                runs.append([piece.start, piece.end])
    return [replace(mark, points=tuple(run)) for run in runs]
