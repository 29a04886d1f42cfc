"""Printed parts laid on the printer's bed: the best face down, cut in sections where they must be, side by side."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import Point
from scarfwright.models.flat.packing import fit
from scarfwright.models.job.tables import Printer
from scarfwright.models.part.part import Part
from scarfwright.models.printing.bed import angle_to_fit, height, part_bounds
from scarfwright.models.printing.overhang import best_face, ceilings
from scarfwright.models.printing.sections import sections

SPACING = 5.0  # between parts on the bed [mm]; common practice, no source


@dataclass(frozen=True)
class Laid:
    """A part as it is printed: turned over or not, then turned by `angle` [rad], then the lower left corner of its
    box put at (x, y) [mm]."""

    part: Part
    turned_over: bool = False
    angle: float = 0.0
    x: float = 0.0
    y: float = 0.0

    @property
    def name(self) -> str:
        return self.part.name

    @property
    def footprint(self) -> Part:
        """Seen from above as it lies, but for the shift: x -> x, y -> -y where it is turned over."""
        return self.part.mirrored_y() if self.turned_over else self.part

    @property
    def box(self) -> tuple[float, float]:
        """Length and width it takes on the bed [mm]."""
        x0, y0, x1, y1 = part_bounds(self.footprint, self.angle)
        return (x1 - x0, y1 - y0)

    @property
    def shift(self) -> tuple[float, float]:
        """What its turned footprint is moved by [mm]."""
        x0, y0, _, _ = part_bounds(self.footprint, self.angle)
        return (self.x - x0, self.y - y0)


@dataclass(frozen=True)
class FilledBed:
    """What is printed in one go; `name` is the file's."""

    name: str
    laid: tuple[Laid, ...]


def laid_flat(part: Part, printer: Printer) -> tuple[tuple[Laid, ...], list[Finding]]:
    """The part, or its sections, each as it is printed alone; none, with a finding, where it can't be printed."""
    bed_x, bed_y, bed_z = free_bed(printer)
    laid, found = _laid_flat(part, bed_x, bed_y, bed_z, float(printer.tolerance), float(printer.margin))
    return laid, list(found)


def free_bed(printer: Printer) -> tuple[float, float, float]:
    """Length and width of the bed between its margins, and how high it prints [mm]."""
    bed_x, bed_y, bed_z = (float(side) for side in printer.bed)
    return bed_x - 2 * printer.margin, bed_y - 2 * printer.margin, bed_z


@lru_cache(maxsize=128)
def _laid_flat(
    part: Part, bed_x: float, bed_y: float, bed_z: float, tolerance: float, margin: float
) -> tuple[tuple[Laid, ...], tuple[Finding, ...]]:
    tall = height(part)
    if tall > bed_z:
        return (), (finding("print.too_tall", title=part.title, height_mm=tall, bed_z_mm=bed_z),)
    pieces, stuck = sections(part, bed_x, bed_y, tolerance, margin)
    if stuck:
        return (), tuple(stuck)
    over = best_face(part)
    laid = []
    for piece in pieces:
        angle = angle_to_fit(piece, bed_x, bed_y)
        assert angle is not None  # `sections` gives only pieces that fit
        # turned over the footprint is mirrored, and a mirrored shape fits at the mirrored angle
        laid.append(Laid(piece, over, -angle if over else angle))
    return tuple(laid), _overhang(part, over)


def _overhang(part: Part, over: bool) -> tuple[Finding, ...]:
    hanging = ceilings(part, turned_over=over)
    if not hanging:
        return ()
    area, lowest = sum(c.area for c in hanging), hanging[0].height
    return (finding("print.overhang", title=part.title, area_mm2=area, height_mm=lowest, turned_over=float(over)),)


def filled_beds(things: Iterable[tuple[Laid, int]], printer: Printer) -> tuple[FilledBed, ...]:
    """Everything arranged on as few beds as will do; the second of a pair is how many of it are wanted."""
    copies = [_copy(laid, number) for laid, count in things for number in range(1, count + 1)]
    if not copies:
        return ()
    bed_x, bed_y, _ = free_bed(printer)
    margin = float(printer.margin)
    beds: dict[int, list[Laid]] = {}
    for spot in pack([laid.box for laid in copies], bed_x, bed_y, SPACING):
        laid = copies[spot.item]
        turned = replace(laid, angle=laid.angle + math.pi / 2) if spot.turned else laid
        beds.setdefault(spot.bed, []).append(replace(turned, x=margin + spot.x, y=margin + spot.y))
    if len(beds) == 1:
        return (FilledBed("bed", tuple(beds[0])),)
    return tuple(FilledBed(f"bed-{number + 1}", tuple(beds[number])) for number in sorted(beds))


def _copy(laid: Laid, number: int) -> Laid:
    """The first keeps its name, the others are numbered."""
    if number == 1:
        return laid
    return replace(laid, part=replace(laid.part, name=f"{laid.part.name}_{number}"))


class Spot(NamedTuple):
    """Where rectangle `item` goes: bed number, its lower left corner [mm], and whether it is turned a quarter."""

    item: int
    bed: int
    x: float
    y: float
    turned: bool


@dataclass
class _Bed:
    """A bed being filled: numbers and sizes of its rectangles, whether each is turned, and their corners."""

    held: list[tuple[int, tuple[float, float], bool]]
    corners: list[Point]


def pack(sizes: Sequence[tuple[float, float]], bed_x: float, bed_y: float, spacing: float) -> list[Spot]:
    """Places for all rectangles, `spacing` [mm] apart, in the order given.

    Parameters: sizes, length and width of each [mm]; bed_x, bed_y [mm].
    Large ones are placed first, each on the first bed that takes it, turned a quarter where only that goes.
    Raises ValueError if one does not go on an empty bed.
    """

    def taken(bed: _Bed, index: int, turned: bool) -> bool:
        size = sizes[index][::-1] if turned else sizes[index]
        trial = [*bed.held, (index, size, turned)]
        corners = fit([side for _, side, _ in trial], bed_x, bed_y, spacing)
        if corners is not None:
            bed.held, bed.corners = trial, corners
        return corners is not None

    beds: list[_Bed] = []
    for index in sorted(range(len(sizes)), key=lambda i: (-max(sizes[i]), -min(sizes[i]), i)):
        if not any(taken(bed, index, turned) for turned in (False, True) for bed in beds):
            beds.append(_Bed([], []))
            if not any(taken(beds[-1], index, turned) for turned in (False, True)):
                long, wide = sizes[index]
                raise ValueError(f"{long:g} by {wide:g} does not go on a bed of {bed_x:g} by {bed_y:g}")
    spots = [
        Spot(index, number, x, y, turned)
        for number, bed in enumerate(beds)
        for (index, _, turned), (x, y) in zip(bed.held, bed.corners, strict=True)
    ]
    return sorted(spots, key=lambda spot: spot.item)
