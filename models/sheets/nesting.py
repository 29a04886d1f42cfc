"""Pieces laid on as few sheets as possible: two of a kind half turned into one another, then rectangles packed.

Which piece goes on which sheet is first fit, largest first, tried in several orders. Nothing is random: the same
pieces give the same sheets. All lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from scarfwright.models.flat.loop import Point
from scarfwright.models.flat.offset import offset
from scarfwright.models.flat.packing import fit
from scarfwright.models.part.part import Part
from scarfwright.models.sheets.pieces import FlatPart

SAGITTA = 0.01  # of the chords that stand for arcs where two pieces are fitted together [mm]


@dataclass(frozen=True)
class Bundle:
    """Parts that are laid as one rectangle from (0, 0); `may_turn`: by a quarter, for the packing's sake."""

    parts: tuple[Part, ...]
    width: float
    height: float
    may_turn: bool

    def turned(self) -> Bundle:
        """A quarter turn counter-clockwise, back to (0, 0)."""
        parts = tuple(p.turned(math.pi / 2).moved(self.height, 0.0) for p in self.parts)
        return Bundle(parts, self.height, self.width, self.may_turn)

    def at(self, x: float, y: float) -> tuple[Part, ...]:
        return tuple(part.moved(x, y) for part in self.parts)

    @property
    def area(self) -> float:
        return self.width * self.height


def bundles_of(piece: FlatPart, spacing: float, grain: str) -> list[Bundle]:
    """A piece as often as it is asked for, in pairs where that saves room. Names get a number if there are several."""
    part = _at_corner(piece.part)
    left, _, right, _ = part.outline.bounds
    low, high = part.outline.bounds[1], part.outline.bounds[3]
    upright = (high - low) > (right - left)
    if piece.along_grain and upright == (grain == "x"):
        part = _at_corner(part.turned(math.pi / 2))
    names = [piece.part.name] if piece.count == 1 else [f"{piece.part.name}_{i + 1}" for i in range(piece.count)]
    _, _, width, height = part.outline.bounds
    single = Bundle((part,), width, height, not piece.along_grain)
    pair = _pair(part, spacing) if piece.count > 1 else None
    if pair is None:
        return [_named(single, [name]) for name in names]
    found = [_named(replace(pair, may_turn=single.may_turn), names[i : i + 2]) for i in range(0, len(names) - 1, 2)]
    return found + ([_named(single, names[-1:])] if len(names) % 2 else [])


def _named(block: Bundle, names: list[str]) -> Bundle:
    return replace(block, parts=tuple(replace(p, name=n) for p, n in zip(block.parts, names, strict=True)))


def _at_corner(part: Part) -> Part:
    left, low, _, _ = part.outline.bounds
    return part.moved(-left, -low)


def _pair(part: Part, spacing: float) -> Bundle | None:
    """Two of a part, one half turned, as close together as the spacing lets them; None where that saves nothing.

    Both ways round and both directions are tried: side by side, and one above the other.
    """
    _, _, width, height = part.outline.bounds
    best: Bundle | None = None
    for sideways in (False, True):
        for flip in (False, True):
            first = _at_corner(part.turned(math.pi / 2)) if sideways else part
            across, up = (height, width) if sideways else (width, height)
            other = first.turned(math.pi, (across / 2, up / 2))
            lower, upper = (other, first) if flip else (first, other)
            lift = _lift(lower, upper, spacing)
            if lift > up + spacing - 1.0:
                continue
            block = Bundle((lower, upper.moved(0.0, lift)), across, up + lift, may_turn=False)
            if sideways:
                block = _back(block)
            if best is None or block.area < best.area - 1e-6:
                best = block
    return best


def _back(block: Bundle) -> Bundle:
    """A quarter turn clockwise, back to (0, 0)."""
    parts = tuple(p.turned(-math.pi / 2).moved(0.0, block.width) for p in block.parts)
    return Bundle(parts, block.height, block.width, block.may_turn)


def _lift(lower: Part, upper: Part, spacing: float) -> float:
    """How far up the upper part must go to stand clear of the lower one."""
    ring = offset(lower.outline, spacing)[0].points(SAGITTA)
    over = upper.outline.points(SAGITTA)
    stops = sorted({p[0] for p in ring} | {p[0] for p in over})
    tops, bottoms = _profile(ring, stops, max), _profile(over, stops, min)
    both = [(t, b) for t, b in zip(tops, bottoms, strict=True) if t is not None and b is not None]
    return max(t - b for t, b in both) + 2 * SAGITTA


def _profile(ring: list[Point], stops: list[float], pick: Callable[[list[float]], float]) -> list[float | None]:
    """Highest or lowest y of a polygon at each x; None beside it."""
    out: list[float | None] = []
    for x in stops:
        found = []
        for (x1, y1), (x2, y2) in zip(ring, ring[1:] + ring[:1], strict=True):
            if min(x1, x2) <= x <= max(x1, x2):
                found += [y1, y2] if x1 == x2 else [y1 + (y2 - y1) * (x - x1) / (x2 - x1)]
        out.append(pick(found) if found else None)
    return out


# -- packing ---------------------------------------------------------------------------------------------


def nest(blocks: list[Bundle], length: float, width: float, spacing: float) -> list[tuple[Part, ...]]:
    """The parts of each sheet, laid out from the sheet's lower left corner, a spacing from its edges and apart.

    Every block must fit a sheet by itself. The order that needs the fewest sheets wins, then the one that leaves the
    last sheets emptiest.
    """
    orders: list[Callable[[Bundle], tuple[float, ...]]] = [
        lambda b: (-b.area,),
        lambda b: (-max(b.width, b.height), -b.area),
        lambda b: (-b.height, -b.width),
        lambda b: (-min(b.width, b.height), -b.area),
    ]
    best: list[_Sheet] | None = None
    for order in orders:
        found = _first_fit(sorted(blocks, key=order), (length - 2 * spacing, width - 2 * spacing), spacing)
        if best is None or _rank(found) < _rank(best):
            best = found
        if len(best) == 1:
            break
    return [
        tuple(
            part
            for block, (x, y) in zip(s.blocks, s.places, strict=True)
            for part in block.at(x + spacing, y + spacing)
        )
        for s in best or []
    ]


@dataclass
class _Sheet:
    blocks: list[Bundle]
    places: list[Point]

    @property
    def area(self) -> float:
        return sum(block.area for block in self.blocks)


def _rank(sheets: list[_Sheet]) -> tuple[int, float]:
    return (len(sheets), -sum(round(s.area) ** 2 for s in sheets))


def _first_fit(blocks: list[Bundle], room: Point, spacing: float) -> list[_Sheet]:
    """Each block on the first sheet that takes it; `room` is what a spacing at the sheet's edges leaves."""
    sheets: list[_Sheet] = []
    for block in blocks:
        shapes = [block, block.turned()] if block.may_turn else [block]
        if not any(_added(sheet, shape, room, spacing) for sheet in sheets for shape in shapes):
            sheets.append(_Sheet([], []))
            if not any(_added(sheets[-1], shape, room, spacing) for shape in shapes):
                raise ValueError(f"{block.parts[0].name} does not fit a sheet")
    return sheets


def _added(sheet: _Sheet, block: Bundle, room: Point, spacing: float) -> bool:
    blocks = [*sheet.blocks, block]
    places = fit([(b.width, b.height) for b in blocks], *room, spacing)
    if places is not None:
        sheet.blocks, sheet.places = blocks, places
    return places is not None
