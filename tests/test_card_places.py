"""The set-up card's words and places, each known by hand: what stands on it, where, and rounded to which side."""

from __future__ import annotations

import math
from functools import cache

import pytest
from scarfwright.outputs.drawing.display import Path, Sheet
from scarfwright.outputs.setup_card.card import setup_card

from tests.cut_jobs import worked
from tests.words_at_the_saw import JOBS, expected_cautions, expected_checks, expected_steps, work_of

each_job = pytest.mark.parametrize("name", JOBS)

# what the saw is set by, label and figure, in the order of the card
SETTINGS = {
    "run_on": {
        "Slope": "12.05:1, 4.74°",
        "Fence, right": "132.6 mm = heel by callipers + 0.4 mm",
        " ": "to a tooth set towards the fence; to the plate: heel + 0.75 mm",
        "Blade height": "66 mm above the table",
        "Riving knife": "2.2 mm thick. Top: 64 mm up or lower",
        "Heel clamp": "at 551 mm, closes on 47 mm",
        "Nose clamp": "at 987.4 mm, closes on 71.1 mm; fence at travel 509 mm",
        "Pads": "lower edge 18 mm above the table, not lower",
        "Stop block": "1233 mm from the table's front edge",
        "Start": "heel 663 mm inside the front edge",
        "Hand line": "750 mm from the heel",
        "Infeed support": "200 mm to 1520 mm out from the front edge; level or a hair high, never low",
        "Heel ends": "53 mm past the table's far edge",
    },
    "draw_back": {
        "Slope": "11.97:1, 4.77°",
        "Fence, left": "126.6 mm = heel by callipers + 0.4 mm",
        " ": "to a tooth set towards the fence; to the plate: heel + 0.75 mm",
        "Blade height": "66 mm above the table",
        "Riving knife": "NONE",
        "Heel clamp": "at 395 mm, closes on 47 mm; blade at travel 271.1 mm",
        "Nose clamp": "at 837.5 mm, closes on 77.1 mm; fence at travel 359 mm",
        "Pads": "lower edge 18 mm above the table, not lower",
        "Stop block": "1021 mm from the table's front edge",
        "Start": "heel 663 mm inside the front edge",
        "Hand line": "540 mm from the heel",
        "Infeed support": "190 mm to 1520 mm out from the front edge; level or a hair high, never low",
        "Heel ends": "on the table",
    },
}
# these are told among the settings or the cautions; all other checks stand in the card's check list
SET_ALREADY = ("Riving knife", "Fence", "Blade height", "Stop block", "Infeed", "Outfeed", "Hands")
HEADING = {
    "hold": "At the end of the cut, held against the stop block: plan and side view, scale 1:",
    "run_on": "At the end of the cut, blade clear: plan and side view, scale 1:",
    "draw_back": "At the end of the cut, before drawing back: plan and side view, scale 1:",
}
# way, whether it is possible, travel at its end, what it takes of heel station and sled
COLUMNS = ("Way to end the cut", "", "over at travel", "heel notch from", "sled from")
NOT = "NOT with these clamps"
ENDINGS = {
    "hold": (
        ("hold (this job)", "possible", "220.9 mm", "395 mm", "764.5 mm"),
        ("run on", NOT, "430.8 mm", "547.5 mm", "975 mm"),
        ("draw back", "possible", "220.9 mm", "395 mm", "764.5 mm"),
    ),
    "run_on": (
        ("hold", "possible", "222.6 mm", "396.5 mm", "766.1 mm"),
        ("run on (this job)", "possible", "432.8 mm", "551 mm", "977.1 mm"),
        ("draw back", "possible", "222.6 mm", "396.5 mm", "766.1 mm"),
    ),
    "draw_back": (
        ("hold", "possible", "220.9 mm", "395 mm", "764.5 mm"),
        ("run on", NOT, "430.8 mm", "547.5 mm", "975 mm"),
        ("draw back (this job)", "possible", "220.9 mm", "395 mm", "764.5 mm"),
    ),
}


@cache
def sheets(name: str) -> list[Sheet]:
    return setup_card(work_of(name))


def card(name: str) -> Sheet:
    """The sheet with the views and the settings."""
    return sheets(name)[0]


def second(name: str) -> Sheet:
    """The sheet with the check list, the order of work and the ways to end the cut."""
    (_, sheet) = sheets(name)
    return sheet


def between(sheet: Sheet, first: str, last: str) -> list[str]:
    """The words drawn after one text and before one that begins so, in the order they are drawn, bullets left out."""
    texts = [t.text for t in sheet.texts()]
    start = texts.index(first) + 1
    end = next(i for i in range(start, len(texts)) if texts[i].startswith(last))
    return [text for text in texts[start:end] if text != "-"]


def scale_of(name: str) -> float:
    """What the heading of the views says; lengths on the page are measured by it."""
    (heading,) = [t.text for t in card(name).texts() if t.text.startswith(HEADING[name])]
    return float(heading.removeprefix(HEADING[name]))


# -- words ---------------------------------------------------------------------------------------------------


@each_job
def test_all_cautions_stand_on_the_card(name: str) -> None:
    drawn = between(card(name), "BEFORE ANYTHING ELSE: sawing can maim", HEADING[name])
    assert " ".join(drawn) == " ".join(expected_cautions(name))


@each_job
def test_the_check_list_of_the_card_is_complete(name: str) -> None:
    expected = expected_checks(name)
    listed = [f"{what}: {text}" for what, text in expected.items() if what not in SET_ALREADY]
    assert len(listed) + len(SET_ALREADY) == len(expected)
    assert " ".join(between(second(name), "Check before the cut", "Order of work")) == " ".join(listed)


@each_job
def test_every_step_stands_on_the_card_numbered(name: str) -> None:
    steps = [f"{number} {text}" for number, text in enumerate(expected_steps(name), 1)]
    assert " ".join(between(second(name), "Order of work", COLUMNS[0])) == " ".join(steps)


@pytest.mark.parametrize("name", SETTINGS)
def test_the_settings_label_and_figure(name: str) -> None:
    rows = [word for row in SETTINGS[name].items() for word in row]
    assert " ".join(between(card(name), "Set", "Job")) == " ".join(rows)


@each_job
def test_which_ending_is_possible_and_which_is_not(name: str) -> None:
    drawn = between(second(name), COLUMNS[0], "Job")
    rows = [cell for row in ENDINGS[name] for cell in row]
    assert [COLUMNS[0], *drawn] == [*COLUMNS, *rows]


@pytest.mark.parametrize(
    ("front", "possible"),
    [("390 mm", NOT), ("341 mm", NOT), ("329 mm", NOT), ("328 mm", "possible")],
)
def test_an_ending_is_possible_with_its_margin_only(front: str, possible: str) -> None:
    """Run on ends at 430.76 and wants 480.76; the nose clamp meets a fence that begins `front` before the axis at
    850 - 40 - 1 - front: at 419, before the end; at 468 and 480, within the margin; at 481."""
    _, sheet = setup_card(worked(saw={"fence_front": front}, sled={"heel_station": "560 mm"}))
    drawn = between(sheet, COLUMNS[0], "Job")
    told = {way: drawn[drawn.index(way) + 1] for way in ("hold (this job)", "run on", "draw back")}
    assert told == {"hold (this job)": "possible", "run on": possible, "draw back": "possible"}


@pytest.mark.parametrize(("name", "length", "mark"), [("hold", 850, 127.5), ("run_on", 1000, 133.5)])
def test_what_the_endings_end_at_and_take_by_hand(name: str, length: float, mark: float) -> None:
    n = length / (2 * mark - 184)
    slant = math.hypot(1, n)
    at_table, at_top, at_pads = (math.sqrt(127**2 - (61 + z) ** 2) for z in (0, 60, 18))
    ends = [22 * slant - 0.4 * n - at_top, 22 * slant - 0.4 * n + at_table + 5 * n]
    for (_, _, travel, station, sled), end in zip(ENDINGS[name][:2], ends, strict=True):
        assert mm(travel) == pytest.approx(end, abs=0.05)
        # the first station, in half millimetres, whose jaw, 25 nearer the heel, stays off the blade or wholly beside it
        stations = (half / 2 for half in range(100, 2000))
        least = next(s for s in stations if jaw_front(s - 25, n) - at_pads >= end + 50)
        assert mm(station) == least
        # the nose clamp stays before the near end of the fence; another length's mark may be a quarter millimetre off,
        # and so its slope flatter by L / (L - 0.5 N) at most
        flat = 30.0 + 2 * 5.0
        before = end + 50 + flat + 12 / slant
        exact = before + 450
        told = 450 + before / (1 - 0.5 * 12 / exact)
        assert told - 1e-6 <= mm(sled) <= told + 0.1


def jaw_front(u: float, n: float) -> float:
    """Least X of an outer jaw that begins at u, 22 to 34 off the work edge, on the blade's side of F - 10; or none."""
    slant = math.hypot(1, n)
    off = ((0.4 - 10) * slant + u) / n
    return math.inf if off > 34 else (u * n + max(off, 22)) / slant


def mm(text: str) -> float:
    return float(text.removesuffix(" mm"))


def test_a_clamps_limit_is_told_short_never_long() -> None:
    """A heel clamp at 397.6 meets the blade at 273.70: told as 273.6, on the card and beside the drawing."""
    work = worked(sled={"heel_station": "397.6 mm"})
    n = 850 / 71
    limit = jaw_front(397.6 - 25, n) - math.sqrt(127**2 - 79**2)
    assert 273.65 < limit < 273.7  # to the nearest tenth it would be 273.7
    sheet, _ = setup_card(work)
    told = " ".join(between(sheet, "Set", "Job"))
    assert "closes on 47 mm; blade at travel 273.6 mm Nose clamp" in told
    assert "LIMIT 273.6 mm" in [t.text for t in sheet.texts()]


# -- places --------------------------------------------------------------------------------------------------


def ladder_reading(sheet: Sheet, start: str) -> tuple[str, float]:
    """A figure under the side view, and where its dimension line ends: from the blade's axis, in page mm."""
    (text,) = [t for t in sheet.texts() if t.text.startswith(start)]
    lines = [p for p in sheet.paths() if not p.closed and len(p.vertices) == 2]
    levels = [sorted(v.point for v in p.vertices) for p in lines]
    (level,) = [
        (a, b)
        for a, b in levels
        if abs(a[1] - b[1]) < 1e-9 and 0 < a[1] - text.y < text.size and 0 < a[0] - text.x < 3 and b[0] > a[0]
    ]
    assert any(abs(p[0] - level[1][0]) < 1e-6 and abs(q[0] - p[0]) < 1e-6 for p, q in levels)  # it points up there
    return text.text.removeprefix(start).strip(), level[1][0] - axis_of(sheet)


def axis_of(sheet: Sheet) -> float:
    blades = [p for p in sheet.paths() if p.name == "blade" and p.closed]
    (x,) = {round(sum(x_span(p)) / 2, 3) for p in blades}
    return x


def x_span(path: Path) -> tuple[float, float]:
    xs = [x for x, _ in path.points(0.001)]
    return min(xs), max(xs)


def test_blade_clear_stands_at_clear_and_the_sled_with_it() -> None:
    """By hand 222.58 and 432.78, and the offcut drops a kerf's 30.12 before the taper is complete."""
    sheet, scale = card("run_on"), scale_of("run_on")
    n = 1000 / 83
    done = 22 * math.hypot(1, n) - 0.4 * n - math.sqrt(127**2 - 121**2)
    clear = done + math.sqrt(127**2 - 121**2) + math.sqrt(127**2 - 61**2) + 5 * n
    for start, figure, travel in (
        ("blade clear", "432.8 mm", clear),
        ("taper complete", "222.6 mm", done),
        ("offcut drops", "192.5 mm", done - 2.5 * n),
    ):
        told, along = ladder_reading(sheet, start)
        assert told == figure
        assert along * scale == pytest.approx(travel, abs=0.05)
    sleds = [p for p in sheet.paths() if p.name == "sled" and p.closed]
    assert len(sleds) == 2
    for path in sleds:
        assert (x_span(path)[1] - axis_of(sheet)) * scale == pytest.approx(clear, abs=0.05)


@pytest.mark.parametrize("name", ["hold", "draw_back"])
def test_held_or_drawn_back_the_blade_is_never_said_to_be_clear(name: str) -> None:
    sheet = card(name)
    assert not [t for t in sheet.texts() if "blade clear" in t.text]
    scale = scale_of(name)
    n = 850 / 71
    told, along = ladder_reading(sheet, "taper complete")
    assert told == "220.9 mm"
    done = 22 * math.hypot(1, n) - 0.4 * n - math.sqrt(127**2 - 121**2)
    assert along * scale == pytest.approx(done, abs=0.05)
    told, along = ladder_reading(sheet, "LIMIT")
    assert told == "271.1 mm"
    assert along * scale == pytest.approx(271.11, abs=0.05)


def test_on_a_long_table_the_blade_is_said_to_be_clear_only_where_the_sled_runs_on() -> None:
    """With 700 of table behind the axis there is room to show it; the sled is stopped long before."""
    for end in ("hold", "draw_back"):
        texts = [t.text for t in setup_card(worked(saw={"end_of_cut": end, "table_back": "700 mm"}))[0].texts()]
        assert "taper complete 220.9 mm" in texts
        assert not [text for text in texts if "blade clear" in text]


def test_from_the_front_edge() -> None:
    """Start, centre and stop block from the front edge, 800 from the centre: a place less 800 from there."""
    sheet, scale = card("run_on"), scale_of("run_on")
    for start, figure, past_axis in (
        ("stop block", "1233 mm", 433.0),
        ("blade's centre", "800 mm", 0.0),
        ("heel at the start", "663 mm", -137.0),
    ):
        told, along = ladder_reading(sheet, start)
        assert told == figure
        assert along * scale == pytest.approx(past_axis, abs=0.05)
