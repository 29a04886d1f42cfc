"""The fence to a tooth, and to the plate: the blade drawn with its plate and a tooth on each side."""

from __future__ import annotations

import pytest
from scarfwright.models.lengths.say import say_in
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.words.at_the_saw import fence
from shapely import LineString, Point, box

from tests.cut_jobs import worked


@pytest.mark.parametrize("side", ["right", "left"])
@pytest.mark.parametrize(("kerf", "plate"), [("2.5 mm", "1.8 mm"), ("3.2 mm", "2.2 mm")])
def test_tooth_and_plate_by_drawn_bodies(kerf: str, plate: str, side: str) -> None:
    """Teeth from one side of the kerf to the other, the plate in its middle; the heel a gap from the nearest tooth."""
    work = worked(saw={"kerf": kerf, "plate": plate, "riving_knife": "2.4 mm", "fence_side": side})
    heel, gap = work.way.sled.heel, 0.4
    k, p = (float(text.removesuffix(" mm")) for text in (kerf, plate))
    sled, tooth = box(0, 0, 100, heel), box(50, heel + gap, 54, heel + gap + k)
    middle = tooth.centroid.y
    body = box(0, middle - p / 2, 100, middle + p / 2)
    assert sled.distance(tooth) == pytest.approx(gap)
    found = work.cut.fence
    assert found.to_tooth == pytest.approx(tooth.bounds[1])
    assert found.to_plate == pytest.approx(body.bounds[1])
    assert found.plate_gap == pytest.approx(sled.distance(body))
    assert found.side == side
    # the blade seen from the side, 254 across and 66 above the table: a tooth turned from front to back at the table
    wheel = Point(0, 66 - 127).buffer(127, quad_segs=4000).boundary.intersection(LineString([(-200, 0), (200, 0)]))
    assert found.tooth_turn == pytest.approx(wheel.bounds[2] - wheel.bounds[0], abs=1e-3)
    assert numbers(work)["saw"]["fence_to_plate_mm"] == pytest.approx(body.bounds[1])


def test_set_to_the_plate_with_the_tooths_figure_the_teeth_would_cut_the_sled() -> None:
    """Why both are told: kerf 3.2 and plate 2.2 differ by 0.5, more than the gap of 0.4."""
    found = worked(saw={"kerf": "3.2 mm", "plate": "2.2 mm", "riving_knife": "2.5 mm"}).cut.fence
    assert found.to_plate - found.to_tooth > found.gap
    text = fence.fence(found, say_in("mm"))
    assert "callipers" in text
    assert "add 0.4 mm" in text
    assert "To the blade's plate instead, add 0.9 mm" in text


def test_in_inches_thousandths_stand_in_a_sentence_of_their_own() -> None:
    text = fence.fence(worked().cut.fence, say_in("in"))
    assert not [s for s in text.split(". ") if "/" in s and "0." in s]
