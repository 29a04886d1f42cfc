"""Parts on the printer's bed keep 5 mm from each other: to the tenth, on one bed and on several."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from scarfwright.models.job.tables import Printer
from scarfwright.models.lengths.length import parse_length
from scarfwright.models.printing.laying import FilledBed, Laid, filled_beds, laid_flat

from tests.shapes import blank, polygon

APART = 5.0  # [mm]; common practice, no source


def printer(x: float, y: float) -> Printer:
    return Printer(bed=(parse_length(x), parse_length(y), parse_length(240.0)), margin=parse_length(0))


def laid(name: str, length: float, width: float, bed: Printer) -> Laid:
    (one,), found = laid_flat(replace(blank(length, width), name=name), bed)
    assert not found
    return one


def arranged(sizes: list[tuple[float, float]], bed: Printer) -> tuple[FilledBed, ...]:
    return filled_beds([(laid(f"part{i}", a, b, bed), 1) for i, (a, b) in enumerate(sizes)], bed)


def gaps(bed: FilledBed) -> list[float]:
    """Between any two parts as they lie, their outlines turned and put down here."""
    shapes = []
    for one in bed.laid:
        turned = one.footprint.turned(one.angle, (0.0, 0.0)).outline
        x0, y0, _, _ = turned.bounds
        shapes.append(polygon(turned.moved(one.x - x0, one.y - y0)))
    return [float(a.distance(b)) for a, b in combinations(shapes, 2)]


def test_as_many_as_go_with_five_between_them() -> None:
    """Twice 107.5 and 5 are 220: they go; a tenth more and they don't."""
    bed = printer(220, 100)
    assert len(arranged([(107.5, 100), (107.5, 100)], bed)) == 1
    assert len(arranged([(107.6, 100), (107.5, 100)], bed)) == 2
    tall = printer(100, 220)
    assert len(arranged([(100, 107.5), (100, 107.5)], tall)) == 1
    assert len(arranged([(100, 107.6), (100, 107.5)], tall)) == 2


def test_neighbours_are_five_apart_and_no_less() -> None:
    (bed,) = arranged([(107.5, 100), (107.5, 100)], printer(220, 100))
    assert gaps(bed) == pytest.approx([APART], abs=0.02)


def test_every_pair_of_many_keeps_its_spacing() -> None:
    sizes = [(30.0 + 13 * i % 71, 12.0 + 7 * i % 39) for i in range(18)]
    made = arranged(sizes, printer(150, 120))
    assert len(made) > 1
    assert sum(len(bed.laid) for bed in made) == 18
    found = [gap for bed in made for gap in gaps(bed)]
    assert min(found) >= APART - 0.02
    assert min(found) < APART + 0.5  # and no more than that is wasted


def test_copies_of_one_part_keep_it_too() -> None:
    bed = printer(220, 220)
    (full,) = filled_beds([(laid("clip", 40, 30, bed), 9)], bed)
    assert len(full.laid) == 9
    assert min(gaps(full)) == pytest.approx(APART, abs=0.02)
