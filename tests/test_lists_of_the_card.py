"""The card's texts as they are set: lines as full as they may be, in order, in their columns; cautions in two columns
of like length; settings with what may not be missed in bold. Every place on the page is worked out again by hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from scarfwright.models.cut.balance import Stand
from scarfwright.models.sled.layout import ClampPlace
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.display import EDGE, Item, Path, Pen, Text
from scarfwright.outputs.setup_card import texts
from scarfwright.outputs.setup_card.texts import Listing, caution_band, checks, columns_of, endings, settings, steps

from tests.words_at_the_saw import JOBS, expected_cautions, expected_checks, expected_steps, work_of

AREA = (20.0, 30.0, 240.0, 150.0)
LEFT, RIGHT, TOP = 20.0, 260.0, 180.0
PAD, LEADING = 2.0, 1.34  # round a box's texts [mm]; from base line to base line, of the size
COLUMN = (240.0 - 3 * PAD) / 2
STARTS = (LEFT + PAD, LEFT + 2 * PAD + COLUMN)  # of the two columns


def drawn(items: Sequence[Item]) -> list[Text]:
    return [item for item in items if isinstance(item, Text)]


def full(lines: Sequence[str], size: float, room: float, bold: bool) -> bool:
    """Whether every line fits, and none has room for the next one's first word."""
    fits = all(lettering.width(line, size, bold) <= room for line in lines)
    return fits and all(lettering.width(f"{a} {b.split()[0]}", size, bold) > room for a, b in pairwise(lines))


def items_of(written: Sequence[Text], marks: Sequence[str]) -> list[list[Text]]:
    """Each item's texts, its mark first."""
    found: list[list[Text]] = []
    for text in written:
        if len(found) < len(marks) and text.text == marks[len(found)] and text.x in STARTS:
            found.append([text])
        else:
            found[-1].append(text)
    return found


# -- the cautions ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("job", JOBS)
def test_the_band_of_cautions(job: str) -> None:
    size, pitch = 3.3, 3.3 * LEADING
    band, high = caution_band(work_of(job), AREA)
    frame, heading, *_ = band
    assert isinstance(frame, Path)
    assert (frame.pen, frame.fill) == (Pen(0.6, "#b00000"), "#fbe9e7")
    xs, ys = zip(*frame.points(), strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((LEFT, RIGHT, TOP - high, TOP))
    assert isinstance(heading, Text)
    assert (heading.text, heading.size, heading.bold) == ("BEFORE ANYTHING ELSE: sawing can maim", 4.0, True)
    assert (heading.x, heading.colour) == (LEFT + PAD, "#b00000")
    assert 1.5 < TOP - max(y for _, y in heading.box()) < 2.5

    told = expected_cautions(job)
    items = items_of(drawn(band)[1:], ["-"] * len(told))
    assert [" ".join(t.text for t in item[1:]) for item in items] == list(told)
    inward = lettering.width("-", size) + 0.4 * size
    for number, (mark, *lines) in enumerate(items):
        assert {(t.size, t.bold) for t in (mark, *lines)} == {(size, number == 0)}
        assert mark.y == lines[0].y
        assert all(t.x - mark.x == pytest.approx(inward) for t in lines)
        assert full([t.text for t in lines], size, COLUMN - inward, number == 0)

    columns = [[t for mark, *lines in items if mark.x == start for t in lines] for start in STARTS]
    assert [t for column in columns for t in column] == [t for _, *lines in items for t in lines]
    assert columns[0][0].y == columns[1][0].y
    for column in columns:
        assert all(a.y - b.y == pytest.approx(pitch) for a, b in pairwise(column))
    assert 2.0 < min(y for _, y in heading.box()) - max(y for _, y in columns[0][0].box()) < 3.5
    assert 1.0 < min(min(t.box()[0][1] for t in column) for column in columns) - (TOP - high) < 2.0
    # no other way to share them out makes the longer column shorter
    counts = [len(lines) for _, *lines in items]
    longer = max(map(len, columns))
    assert longer == min(max(sum(counts[:n]), sum(counts[n:])) for n in range(1, len(counts) + 1))


@pytest.mark.parametrize(
    ("lines", "first"), [([3, 1, 2, 2], 2), ([1, 1, 1], 2), ([5], 1), ([4, 1, 1], 1), ([1, 1, 4], 2), ([2, 2, 2, 2], 2)]
)
def test_where_the_cautions_are_parted(lines: list[int], first: int) -> None:
    """Of two ways as good the fuller first column: a reader begins there."""
    assert texts._balanced(lines) == first


# -- check list and steps ----------------------------------------------------------------------------------------

WORDS = "Look at each before every cut and set the lower edge of each pad above the table so that it stays. "


def lists_of(times: int) -> list[Listing]:
    """Two lists of invented items, each some words longer than the one before; numbers of one and two digits."""
    items = [(WORDS * times)[: 40 * times + 17 * n].strip() for n in range(11)]
    return [
        Listing("Look at these", tuple(("-", text) for text in items)),
        Listing("Then do these", tuple((str(n), text) for n, text in enumerate(items, 1))),
    ]


@pytest.mark.parametrize(("times", "size", "pages"), [(1, 3.8, 1), (2, 3.3, 1), (4, 3.0, 2), (9, 3.0, 3)])
def test_the_lists_flow_through_their_columns(times: int, size: float, pages: int) -> None:
    """As large as fits on one sheet, never under 3 mm; no item is torn, no heading stands at a column's foot."""
    lists = lists_of(times)
    sheets = columns_of(lists, AREA)
    larger = [3.8 - 0.05 * n for n in range(17) if 3.8 - 0.05 * n > size + 0.01]
    assert all(len(by_hand(lists, one, AREA)) > 1 for one in larger)
    assert len(sheets) == pages
    assert alike(sheets, by_hand(lists, size, AREA))


def test_no_heading_stands_at_a_columns_foot_wherever_the_foot_is() -> None:
    """Short lists in columns of every height: the first item of the second list is of one line, two, or three."""
    seen = set()
    for words in (4, 9, 18):
        text = " ".join(["taper"] * words)
        lists = [Listing("Look at these", (("-", "one"), ("-", "two"))), Listing("Then do these", (("1", text),))]
        for tenths in range(340, 620, 4):
            area = (20.0, 30.0, 130.0, tenths / 10)
            pages = texts._flow(lists, area, 3.8)
            assert alike(pages, by_hand(lists, 3.8, area))
            heading = next(t for page in pages for t in drawn(page) if t.text == "Then do these")
            seen.add((words, heading.x > 30))
    assert len(seen) == 6  # each both in the first column and in the second


def alike(pages: Sequence[Sequence[Item]], expected: Sequence[Sequence[Item]]) -> bool:
    """Whether the same texts stand at the same places of the same pages."""

    def told(sheets: Sequence[Sequence[Item]]) -> list[tuple[int, str, bool]]:
        return [(number, t.text, t.bold) for number, sheet in enumerate(sheets) for t in drawn(sheet)]

    def places(sheets: Sequence[Sequence[Item]]) -> list[float]:
        return [at for sheet in sheets for t in drawn(sheet) for at in (t.x, t.y, t.size)]

    return told(pages) == told(expected) and places(pages) == pytest.approx(places(expected))


def by_hand(lists: Sequence[Listing], size: float, area: tuple[float, float, float, float]) -> list[list[Item]]:
    """The same pages, line for line: the pen goes down from the top of a column, and on to the next when an item, or
    a heading with its first item, has no room."""
    left, bottom, wide, high = area
    column, top = (wide - 3 * PAD) / 2, bottom + high - PAD
    pitch, between = size * LEADING, 0.35 * size
    columns: list[list[Item]] = [[]]
    pen = top

    def start() -> float:
        return left + PAD if len(columns) % 2 else left + 2 * PAD + column

    for listing in lists:
        inward = max(lettering.width(mark, size) for mark, _ in listing.items) + 0.4 * size
        runs = [lettering.wrap(text, size, column - inward) for _, text in listing.items]
        assert all(full(run, size, column - inward, False) for run in runs)
        if pen - 1.2 * pitch - (len(runs[0]) + 1) * pitch < bottom:
            columns.append([])
            pen = top
        if columns[-1]:
            pen -= size
        pen -= 1.2 * pitch
        columns[-1].append(Text(start(), pen, listing.heading, 1.2 * size, bold=True))
        pen -= between
        for (mark, _), run in zip(listing.items, runs, strict=True):
            if pen - len(run) * pitch < bottom + between:
                columns.append([])
                pen = top
            columns[-1].append(Text(start(), pen - pitch, mark, size))
            for line in run:
                pen -= pitch
                columns[-1].append(Text(start() + inward, pen, line, size))
            pen -= between
    return [[*columns[n], *(columns[n + 1] if n + 1 < len(columns) else [])] for n in range(0, len(columns), 2)]


@pytest.mark.parametrize("job", JOBS)
def test_the_cards_lists_are_headed_and_whole(job: str) -> None:
    already = ("Riving knife", "Fence", "Blade height", "Stop block", "Infeed", "Outfeed", "Hands")
    told = tuple(("-", f"{what}: {text}") for what, text in expected_checks(job).items() if what not in already)
    assert checks(work_of(job)) == Listing("Check before the cut", told)
    steps_told = tuple((str(number), text) for number, text in enumerate(expected_steps(job), 1))
    assert steps(work_of(job)) == Listing("Order of work", steps_told)


# -- settings and endings ----------------------------------------------------------------------------------------

PANEL = (160.0, 30.0, 100.0, 110.0)


def rows(work: Workup) -> list[tuple[str, str, bool]]:
    """Label, text and whether it is bold, of each setting; lines of one text joined."""
    found: list[list[Any]] = []
    _, heading, *written = settings(work, PANEL)
    assert isinstance(heading, Text)
    assert heading.text == "Set"
    for text in drawn(written):
        if text.x == PANEL[0] + PAD:
            found.append([text.text, [], False])
        else:
            found[-1][1].append(text.text)
            found[-1][2] = text.bold
    return [(label, " ".join(lines), bold) for label, lines, bold in found]


def place(where: str, station: float, opening: float, limit: float | None = None, meets: str = "blade") -> ClampPlace:
    return ClampPlace(where, station, opening, 48.0, limit, meets if limit is not None else None, None, None, None, 0.0)


CLAMPS = (
    place("heel", 394.98, 47.04, 271.18),
    place("extra", 500.0, 47.04),
    place("extra", 610.04, 46.96),
    place("extra", 720.0, 47.04, -8.02, "fence"),
    place("nose", 812.46, 47.04, 359.08, "fence"),
)


def changed(clamps: Sequence[ClampPlace] = CLAMPS, stand: Stand | None = None, past: float = 0.0) -> Workup:
    """The job that holds at the block, with invented clamps, support and feed."""
    work = work_of("hold")
    way = replace(work.way, layout=replace(work.way.layout, clamps=tuple(clamps), hand_line=550.0))
    need = replace(work.cut.support, stand=stand, past_back=past)
    feed = replace(work.cut.feed, time_range=(3.91, 10.39))
    return replace(work, way=way, cut=replace(work.cut, support=need, feed=feed))


def test_the_settings_whole_with_what_may_not_be_missed_in_bold() -> None:
    """Two further clamps that nothing meets share a row; one that something meets has its own."""
    assert rows(changed()) == [
        ("Slope", "11.97:1, 4.77°", False),
        ("Fence, right", "126.6 mm = heel by callipers + 0.4 mm", True),
        (" ", "to a tooth set towards the fence; to the plate: heel + 0.75 mm", False),
        ("Blade height", "66 mm above the table", True),
        ("Riving knife", "2.2 mm thick. Top: 64 mm up or lower", False),
        ("Heel clamp", "at 395 mm, closes on 47 mm; blade at travel 271.1 mm", False),
        ("Clamps", "at 500 mm, 610 mm, closes on 47 mm", False),
        ("Clamp", "at 720 mm, closes on 47 mm; fence at travel 8.1 mm short of the centre", False),
        ("Nose clamp", "at 812.5 mm, closes on 47 mm; fence at travel 359 mm", False),
        ("Pads", "lower edge 18 mm above the table, not lower", False),
        ("Stop block", "1021 mm from the table's front edge", True),
        ("Start", "heel 663 mm inside the front edge", False),
        ("Hand line", "550 mm from the heel", True),
        ("Infeed", "none needed", False),
        ("Heel ends", "on the table", False),
        ("Feed", "4.0 to 10.3 s from first touch to taper complete", False),
    ]


def test_one_further_clamp_is_told_alone() -> None:
    told = rows(changed(CLAMPS[:2]))
    assert told[5:7] == [
        ("Heel clamp", "at 395 mm, closes on 47 mm; blade at travel 271.1 mm", False),
        ("Clamp", "at 500 mm, closes on 47 mm", False),
    ]
    assert told[7][0] == "Pads"
    free_heel = rows(changed([place("heel", 394.98, 47.04), *CLAMPS[1:3]]))
    assert [(label, text) for label, text, _ in free_heel[5:7]] == [
        ("Heel clamp", "at 395 mm, closes on 47 mm"), ("Clamps", "at 500 mm, 610 mm, closes on 47 mm"),
    ]  # fmt: skip


LEVEL = "level or a hair high, never low"


@pytest.mark.parametrize(
    ("stand", "told"),
    [
        (Stand(200, 1520, 860, (-10, 30)), f"200 mm to 1520 mm out from the front edge; {LEVEL}"),
        (Stand(1530, 1520, 1525, (-10, 30)), f"front edge to 1530 mm out or more; {LEVEL}"),
    ],
)
def test_the_support_and_where_the_heel_ends(stand: Stand, told: str) -> None:
    named = {label: (text, bold) for label, text, bold in rows(changed(stand=stand, past=52.91))}
    assert named["Infeed support"] == (told, True)
    assert named["Heel ends"] == ("53 mm past the table's far edge", False)


def test_no_riving_knife_is_told_in_bold() -> None:
    told = rows(work_of("draw_back"))
    assert told[1] == ("Fence, left", "126.6 mm = heel by callipers + 0.4 mm", True)
    assert told[4] == ("Riving knife", "NONE", True)


def test_the_settings_stand_in_their_panel_as_large_as_they_may() -> None:
    frame, *written = settings(work_of("hold"), (160.0, 30.0, 100.0, 140.0))
    assert isinstance(frame, Path)
    xs, ys = zip(*frame.points(), strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == (160, 260, 30, 170)
    assert max(t.size for t in drawn(written) if t.text != "Set") == 3.8


FEET = (20.0, 30.0, 240.0, 21.0)


def test_the_ways_to_end_the_cut_stand_in_their_box() -> None:
    """What must be there is told long: 394.92 as 395, 764.41 as 764.5."""
    work = work_of("hold")
    ways = [replace(e, least_station=394.92, least_length=764.41, travel=-12.34) for e in work.cut.advice.endings]
    advice = replace(work.cut.advice, endings=tuple(ways))
    box, *items = endings(replace(work, cut=replace(work.cut, advice=advice)), FEET)
    assert isinstance(box, Path)
    assert box.pen == EDGE
    xs, ys = zip(*box.points(), strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == (20, 260, 30, 51)
    written = drawn(items)
    assert [t.text for t in written] == [
        "Way to end the cut", "", "over at travel", "heel notch from", "sled from",
        "hold (this job)", "possible", "12.3 mm short of the centre", "395 mm", "764.5 mm",
        "run on", "NOT with these clamps", "12.3 mm short of the centre", "395 mm", "764.5 mm",
        "draw back", "possible", "12.3 mm short of the centre", "395 mm", "764.5 mm",
    ]  # fmt: skip
    assert {t.size for t in written} == {3.0}
    assert min(t.x for t in written) == 22
    assert all(30 < y < 51 and 22 <= x <= 258 for t in written for x, y in t.box())
    assert 2.0 < 51 - max(y for t in written for _, y in t.box()) < 2.5


def test_the_ways_to_end_the_cut_are_written_as_large_as_their_box_allows() -> None:
    """2.4 between two columns, 2 beside them; four lines, 0.5 over them and as much under, 2.2 for the rule."""
    work = work_of("run_on")
    cells = [t.text for t in drawn(endings(work, FEET))]
    sizes = [3.0 * 0.97**n for n in range(40)]
    for wide, high in [(120 + n / 2, 21.0) for n in range(20)] + [(240.0, 14 + n / 4) for n in range(20)]:
        written = drawn(endings(work, (20.0, 30.0, wide, high)))
        assert [t.text for t in written] == cells

        def fits(size: float, wide: float = wide, high: float = high) -> bool:
            columns = [max(lettering.width(c, size, i == 0) for i, c in enumerate(cells[n::5])) for n in range(5)]
            return sum(columns) + 5 * 2.4 <= wide - 2 * PAD and 4 * size * LEADING + 2.2 <= high - 1.0

        assert written[0].size == pytest.approx(next(size for size in sizes if fits(size)))
