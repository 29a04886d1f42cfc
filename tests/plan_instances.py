"""Requests for the tests of the plan: tiny ones for trying everything, larger ones with a known answer."""

from __future__ import annotations

import random
from typing import Any

from hypothesis import strategies as st
from scarfwright.models.plan.data import Blank, Board, Request, Rules


@st.composite
def tiny_requests(draw: Any) -> Request:
    """Up to three blanks and a few short boards on a coarse grid: defects, zones, strips, prices, mates, half marks."""
    pick = draw
    half = st.sampled_from([0, 0, 0.5])
    priced = pick(st.booleans())
    boards = tuple(pick(_boards(priced)) for _ in range(pick(st.integers(1, 3))))
    grouped = pick(st.integers(0, 3)) == 0
    blanks: list[Blank] = []
    while sum(b.count for b in blanks) < pick(st.integers(1, 3)):
        blanks.append(pick(_blanks(grouped, 3 - sum(b.count for b in blanks))))
    rules = Rules(
        1,
        2,
        pick(st.sampled_from([0.5, 1, 1, 1.25])),
        least=pick(st.sampled_from([1, 1, 2])),
        spacing=pick(st.sampled_from([0, 1, 3])),
        keep=pick(st.sampled_from([0, 2, 4])),
        kerf=pick(st.sampled_from([0, 0, 0.5, 1])),
        rip_kerf=pick(st.sampled_from([0, 1])),
        end_trim=pick(half),
        spare=pick(st.sampled_from([0, 2])),
        effort=2,
    )
    return Request(rules, boards, tuple(blanks))


@st.composite
def _boards(draw: Any, priced: bool) -> Board:
    length = draw(st.integers(3, 7))
    defects: tuple[tuple[float, float], ...] = ()
    if draw(st.integers(0, 2)) == 0:
        low = draw(st.integers(1, length - 1))
        defects = ((low, low + draw(st.sampled_from([0.5, 1]))),)
    return Board(
        "board",
        length,
        draw(st.sampled_from([None, None, 4, 5])),
        draw(st.sampled_from([None, None, 0.5])),
        draw(st.sampled_from([1, 1, 2])),
        draw(st.sampled_from([None, 1, 2, 3.5])) if priced else None,
        defects,
    )


@st.composite
def _blanks(draw: Any, grouped: bool, room: int) -> Blank:
    length = draw(st.integers(2, 9)) - draw(st.sampled_from([0, 0, 0.5]))
    zones: tuple[tuple[float, float], ...] = ()
    if length > 3 and draw(st.booleans()):
        low = draw(st.integers(0, int(length) - 2))
        zones = ((low, low + draw(st.sampled_from([1, 2]))),)
    count = draw(st.sampled_from([1, 1, 2])) if room > 1 else 1
    return Blank(
        "blank",
        length,
        count,
        draw(st.sampled_from([0, 0, 0.5])),
        zones,
        mirrored=count == 2 and draw(st.booleans()),
        group="side by side" if grouped else "",
        stagger=draw(st.sampled_from([0, 1])),
        neighbours=draw(st.sampled_from([None, 1])),
    )


def usual(blanks: int, boards: int, seed: int, **rules: Any) -> Request:
    """A rack as builders have it: boards of 1.5 to 4.2 m with knots, blanks of 4.2 to 7.8 m, stretches kept clear."""
    pick = random.Random(seed)
    overlap = round(pick.uniform(12, 14) * 20.2, 2)
    rack = []
    for number in range(boards):
        length = pick.randrange(1500, 4200, 5)
        rack.append(Board(f"board {number}", length, defects=_apart(pick, (0, 0, 1, 1, 2), 50, length - 150, 20, 90)))
    wanted = []
    for number in range(blanks):
        length = pick.randrange(4200, 7800, 10)
        zones = _apart(pick, (0, 1, 2), 200, length - 900, 200, 700)
        wanted.append(Blank(f"blank {number}", length, allowance=25, keep_clear=zones))
    settings = {"thickness": 20, "height": 45, "overlap": overlap, "least": 450, "end_trim": 15, **rules}
    return Request(Rules(**settings), tuple(rack), tuple(wanted))


def _apart(
    pick: random.Random, many: tuple[int, ...], low: int, high: int, least: int, most: int
) -> tuple[tuple[int, int], ...]:
    found: list[tuple[int, int]] = []
    for _ in range(pick.choice(many)):
        a = pick.randrange(low, high)
        b = a + pick.randrange(least, most)
        if all(b < c or a > d for c, d in found):
            found.append((a, b))
    return tuple(sorted(found))


def waste_free(blanks: int, seed: int) -> tuple[Request, int]:
    """A request whose boards are exactly the pieces of a plan, and the joints of that plan, which are the fewest.

    A blank of k pieces is longer than k - 1 boards can be, so no plan has fewer joints; all wood is needed.
    """
    pick = random.Random(seed)
    overlap, longest = 240, 3000
    lengths: list[int] = []
    wanted = []
    joints = 0
    for number in range(blanks):
        many = pick.choice((2, 3))
        while True:
            pieces = [pick.randrange(1700, longest + 1) for _ in range(many)]
            total = sum(pieces) - (many - 1) * overlap
            if total > (many - 1) * (longest - overlap) + overlap:
                break
        lengths += pieces
        joints += many - 1
        wanted.append(Blank(f"blank {number}", total))
    pick.shuffle(lengths)
    rules = Rules(20, 45, overlap, least=450, kerf=3, keep=300)
    return Request(rules, tuple(Board(f"board {k}", x) for k, x in enumerate(lengths)), tuple(wanted)), joints
