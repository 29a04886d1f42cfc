"""The sheets' figures for the dividing cut, by hand: rip fence, screws' room, heel and nose each at its end."""

from __future__ import annotations

import math
from functools import cache

import pytest
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Path, Sheet
from scarfwright.outputs.shop_drawings.dividing_sheet import dividing_sheet
from scarfwright.outputs.shop_drawings.plank_sheet import plank_sheet

from tests.cut_jobs import worked

SIDES = ("right", "left")
each_side = pytest.mark.parametrize("side", SIDES)

# plank 184 x 38, sled 1000, mark 133.5, kerf 2.5, gap 0.4, carrier 18 thick: what the sheet says of the dividing cut
NUMBERS = (
    "Rip fence carrier as measured + 0.4 mm, to a tooth set towards it That is 190.4 mm if the carrier is 190 mm. To "
    "the plate: 190.8 mm Blade 62 mm above the table Guard on, just over 56 mm; riving knife fitted Plank against the "
    "batten, its line 1.6 mm outside the carrier's blade edge at both ends"
)
SCREWS_HEAD = ("No.", "Half: heel", "edge", "Carrier: end", "edge")
SCREWS = (
    ("1", "60 mm", "64 mm", "960 mm", "127 mm"),
    ("2", "500 mm", "45 mm", "520 mm", "145 mm"),
    ("3", "940 mm", "27 mm", "80 mm", "163 mm"),
)
HALVES = "Slope 12.05:1, 4.74° Heel 132.2 mm Nose 49.2 mm Length 1000 mm"
FENCE, NOSE_SIDE, HEEL_SIDE = "190.4 mm", "141.3 mm", "58.6 mm"

N = 1000 / (2 * 133.5 - 184)
SLANT = math.hypot(1, N)
SIN, COS = 1 / SLANT, N / SLANT
HEEL = 133.5 - 1.25 * SLANT / N  # half the kerf, which runs aslant
NOSE = 184 - 133.5 - 1.25 * SLANT / N
# across the carrier: the heel as it lies, a batten 40 wide, 15 of edge, to the next ten; the blade a gap beyond
CARRIER = math.ceil((HEEL * COS + 40 + 15) / 10) * 10


@cache
def work_of(side: str) -> Workup:
    return worked(saw={"end_of_cut": "run_on", "fence_side": side}, sled={"length": "1000 mm"}, stock={"length": None})


@cache
def sheet_of(side: str) -> Sheet:
    return dividing_sheet(work_of(side), 1, 1)


@cache
def plank_of(side: str) -> Sheet:
    return plank_sheet(work_of(side), 1, 1)


def words(sheet: Sheet) -> str:
    return " ".join(" ".join(t.text for t in sheet.texts()).split())


def told(side: str) -> str:
    return words(sheet_of(side))


def path(side: str, name: str) -> Path:
    (found,) = [p for sheet in (sheet_of(side), plank_of(side)) for p in sheet.paths() if p.name == name]
    return found


def bounds(side: str, name: str) -> tuple[float, float, float, float]:
    xs, ys = zip(*path(side, name).points(), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


@each_side
def test_the_numbers_of_the_dividing_cut(side: str) -> None:
    assert f"Set the saw {NUMBERS} From below, heads let in" in told(side)
    assert HALVES in words(plank_of(side))


def test_the_fence_is_the_carrier_and_the_gap() -> None:
    """The blade passes the gap beyond the carrier; less, and it would saw the carrier itself."""
    cut = work_of("right").way.dividing
    assert cut is not None
    assert (cut.carrier_width, CARRIER) == (190.0, 190)
    assert cut.fence == pytest.approx(190 + 0.4)
    assert float(FENCE.removesuffix(" mm")) == pytest.approx(cut.fence)


@each_side
def test_the_fences_figure_stands_at_a_line_that_long(side: str) -> None:
    """From the carrier's fence edge to the blade's line, which lies the gap beyond the other edge."""
    low, high = (bounds(side, "carrier")[i] for i in (1, 3))
    scale = CARRIER / (high - low)
    line = bounds(side, "blade line")[1]
    fence_edge = low if side == "right" else high
    assert abs(line - fence_edge) * scale == pytest.approx(190.4, abs=0.01)
    (figure,) = [t for t in sheet_of(side).texts() if t.text in (FENCE, f"fence {FENCE}")]
    assert figure.x > bounds(side, "carrier")[2]
    spans = [(min(v.y for v in p.vertices), max(v.y for v in p.vertices)) for p in upright(side) if near(p, figure.x)]
    wanted = sorted((fence_edge, line))
    assert any(abs(a - wanted[0]) < 1e-6 and abs(b - wanted[1]) < 1e-6 for a, b in spans)


def upright(side: str) -> list[Path]:
    paths = [p for p in sheet_of(side).paths() if not p.closed and len(p.vertices) == 2]
    return [p for p in paths if abs(p.vertices[0].x - p.vertices[1].x) < 1e-9]


def near(line: Path, x: float) -> bool:
    return abs(line.vertices[0].x - x) < 5


def test_the_screws_room_is_the_least_to_the_near_face_of_the_kerf() -> None:
    """Screws in the middle of the half's width to a millimetre, 60 from its ends: the third, in the narrow end, is
    nearest the saw."""
    rooms = [(NOSE + (1000 - s) / N - round((NOSE + (1000 - s) / N) / 2)) * COS for s in (60, 500, 940)]
    assert rooms == sorted(rooms, reverse=True)
    cut = work_of("right").way.dividing
    assert cut is not None
    assert cut.screw_to_kerf == pytest.approx(rooms[2])
    assert 27.1 <= rooms[2] < 27.2  # told: 27.1, on the safe side
    assert "Axis to kerf 27.1 mm or more" in told("right")
    for (_, y), room in zip(cut.screws, rooms, strict=True):
        assert 190.4 - y == pytest.approx(room)


def test_the_screws_room_is_told_short_never_long() -> None:
    """A sled of 1004 with a mark of 134: 26.47 by hand, told as 26.4, though 26.5 is nearer."""
    work = worked(sled={"length": "1004 mm", "plank": ["38 mm", "184 mm"]}, stock={"length": None})
    n = 1004 / (2 * 134 - 184)
    nose = 184 - 134 - 1.25 * math.hypot(1, n) / n
    wide = nose + 60 / n
    room = (wide - round(wide / 2)) * n / math.hypot(1, n)
    assert work.way.nominal.mark == 134
    short = math.floor(room * 10) / 10
    assert room - short > 0.05
    assert f"Axis to kerf {short:g} mm or more" in words(dividing_sheet(work, 1, 1))


@each_side
def test_each_screw_row_by_hand(side: str) -> None:
    rows = " ".join(cell for row in SCREWS for cell in row)
    assert f"{' '.join(SCREWS_HEAD)} {rows}" in told(side)
    # along the carrier: 15 of edge, the batten's end, then along the line, and back by the depth
    left = (NOSE + 40) * SIN + 15
    for (_, station, depth, along, across), s in zip(SCREWS, (60, 500, 940), strict=True):
        wide = NOSE + (1000 - s) / N
        half = round(wide / 2)
        assert (figure(station), figure(depth)) == (s, half)
        assert figure(along) == pytest.approx(left + (1000 - s) * COS + (half - NOSE) * SIN, abs=0.5)
        assert figure(across) == pytest.approx(190.4 - (wide - half) * COS, abs=0.5)


def figure(text: str) -> float:
    return float(text.removesuffix(" mm"))


@each_side
def test_heel_and_nose_stand_each_at_its_end(side: str) -> None:
    """The heel leads: the batten is nearer the fence edge at the carrier's right end, where the feed points."""
    texts = {t.text: t for t in sheet_of(side).texts()}
    left, low, right, high = bounds(side, "carrier")
    scale = CARRIER / (high - low)
    assert figure(NOSE_SIDE) == pytest.approx(190.4 - NOSE * COS, abs=0.05)
    assert figure(HEEL_SIDE) == pytest.approx(190.4 - HEEL * COS, abs=0.05)
    assert texts[NOSE_SIDE].x < left
    assert texts[HEEL_SIDE].x > right
    assert texts["FEED"].x > (left + right) / 2
    # and so they are drawn: the half's fence edge, at either end, from the carrier's fence edge
    fence_edge = low if side == "right" else high
    corners = path(side, "half on the carrier").points(0.01)
    middle = (left + right) / 2
    off_heel = [abs(y - fence_edge) * scale for x, y in corners if x > middle]
    off_nose = [abs(y - fence_edge) * scale for x, y in corners if x < middle]
    assert min(off_heel) == pytest.approx(190.4 - HEEL * COS, abs=0.05)
    assert (max(off_heel), max(off_nose)) == pytest.approx((190.4, 190.4), abs=0.05)
    assert any(off == pytest.approx(190.4 - NOSE * COS, abs=0.05) for off in off_nose)
    assert min(off_nose) > 190.4 - NOSE * COS - 40 / N - 0.05  # the nose flat begins its step nearer the fence


@each_side
def test_the_wide_end_of_each_half_is_called_its_heel(side: str) -> None:
    """On the plank the first half's heel is at the right end, along the fence's edge; the other is turned round."""
    left, low, right, high = bounds(side, "plank")
    scale = 184 / (high - low)
    for name, at_right in (("half_1", True), ("half_2", False)):
        corners = path(side, name).points(0.01)
        end, other = (right, left) if at_right else (left, right)
        at_end = [y for x, y in corners if abs(x - end) < 0.01]
        at_other = [y for x, y in corners if abs(x - other) < 0.01]
        assert (max(at_end) - min(at_end)) * scale == pytest.approx(HEEL, abs=0.05)
        assert (max(at_other) - min(at_other)) * scale == pytest.approx(NOSE, abs=0.05)
        (word,) = [
            t for t in plank_of(side).texts() if t.text == "HEEL" and low < t.y < high and abs(t.x - end) * scale < 200
        ]
        assert min(at_end) < word.y < max(at_end)
