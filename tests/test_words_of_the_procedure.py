"""What is read aloud at the saw, whole and in its order: cautions, check list and steps of three jobs.

The sentences stand in words_at_the_saw.py; here every figure in them is worked out again from the job's own measures.
"""

from __future__ import annotations

import math
import re

import pytest
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw import endings
from scarfwright.models.words.at_the_saw.procedure import before_the_cut, cautions, order_of_work

from tests.words_at_the_saw import FIGURES, JOBS, expected_cautions, expected_checks, expected_steps, work_of

each_job = pytest.mark.parametrize("name", JOBS)


@each_job
def test_the_cautions_whole_and_worst_first(name: str) -> None:
    assert cautions(work_of(name)) == expected_cautions(name)


@each_job
def test_every_step_in_its_words_and_order(name: str) -> None:
    assert order_of_work(work_of(name)) == expected_steps(name)


@each_job
def test_the_check_list_is_whole_and_in_its_order(name: str) -> None:
    assert [(c.what, c.text) for c in before_the_cut(work_of(name))] == list(expected_checks(name).items())


# -- the figures by hand -----------------------------------------------------------------------------------

RADIUS, RAISED, KERF, GAP, PLANK = 127.0, 66.0, 2.5, 0.4, 184.0
FRONT, BACK = 800.0, 380.0
AT_TABLE = math.sqrt(RADIUS**2 - (RADIUS - RAISED) ** 2)  # half the blade's chord level with the table
AT_TOP = math.sqrt(RADIUS**2 - (RADIUS - 6.0) ** 2)  # and level with the work's top, 6 under its own


def by_hand(name: str) -> dict[str, float]:
    """Every figure of the sentences [mm] from the job's measures and the sled's length, without the tool."""
    # the mark on the next half millimetre, and the slope that comes of it; sin theta from the triangle 1, N
    length, mark = {"hold": (850.0, 127.5), "run_on": (1000.0, 133.5), "draw_back": (850.0, 127.5)}[name]
    assert abs(mark - (PLANK + length / 12) / 2) <= 0.25
    n = length / (2 * mark - PLANK)
    slant = math.hypot(1, n)
    heel = mark - KERF / 2 * slant / n
    exit_x = 22 * slant - GAP * n
    done = exit_x - AT_TOP
    clear = exit_x + AT_TABLE + 5 * n
    end = clear if name == "run_on" else done
    stop = math.ceil(FRONT + end)  # on a whole millimetre, never short of the end
    start = math.floor(FRONT - AT_TABLE - 25)  # and never nearer to the teeth
    return {
        "start": start,
        "before": FRONT - start,
        "go_on": KERF * n,
        "heel": heel,
        "fence": heel + GAP,
        "stop": stop,
        "stop_past": stop - FRONT,
        "past": stop - FRONT - BACK,  # the block's figure, not another
        "hand": math.ceil((end + 50 + AT_TABLE + 150) / 10) * 10,  # margin, blade, and hands_clear of it
        "end": end,
    }


def figure(text: str) -> float:
    return float(text.removesuffix(" mm"))


def allowed(key: str, value: float) -> tuple[float, float]:
    """Least and most that may be told: what is a limit is rounded to its safe side only."""
    if key in ("start", "before", "stop", "stop_past", "past"):
        return value, value
    if key == "go_on":
        return value - 1e-6, value + 0.1
    return value - 0.05 - 1e-6, value + 0.05 + 1e-6


@each_job
def test_the_figures_told_are_those_worked_by_hand(name: str) -> None:
    hand, given = by_hand(name), FIGURES[name]
    for key in sorted(set(hand) & set(given)):
        least, most = allowed(key, hand[key])
        assert least <= figure(given[key]) <= most, key
    assert figure("222.8 mm") == pytest.approx(2 * AT_TABLE, abs=0.05)


@each_job
def test_the_clamps_told_stand_where_nothing_meets_the_blade(name: str) -> None:
    """Heel clamp: its pads' lower edge is 38 - 20 above the table; its slot lets it slide 25 towards the heel."""
    hand = by_hand(name)
    heel_clamp, nose_clamp = (figure(text) for text in FIGURES[name]["clamps"].split(", "))
    length = 1000.0 if name == "run_on" else 850.0
    n = length / (2 * (133.5 if name == "run_on" else 127.5) - PLANK)
    sin, cos = 1 / math.hypot(1, n), n / math.hypot(1, n)
    least = heel_clamp - 25
    # the jaw, 22 to 34 from the work edge, lies on the blade's side of F - 10 from this much off the work edge on
    off = (GAP - 10 + least * sin) / cos
    if off <= 34:
        front = least * cos + max(off, 22.0) * sin - math.sqrt(RADIUS**2 - (18 + RADIUS - RAISED) ** 2)
        assert front >= hand["end"] + 50
    else:
        assert name == "run_on"  # there the whole jaw stays beside the blade
    assert figure(FIGURES[name]["loose"]) == heel_clamp - 15  # half a pad before its middle
    # nose clamp: in the middle of the flat, which has room for the pad and 5 each side
    flat = 30.0 + 2 * 5.0
    nose = hand["heel"] - length / n
    assert nose_clamp == pytest.approx((length - flat / 2 + nose * cos * sin) / cos, abs=0.05)


@each_job
def test_the_stand_told_carries_from_start_to_end(name: str) -> None:
    """Balance by moments of the sled, without its notches, and the board, in one density, about the front edge."""
    hand, given = by_hand(name), FIGURES[name]
    length, n = (1000.0, 1000 / 83) if name == "run_on" else (850.0, 850 / 71)
    board = 900.0 if name == "hold" else 2400.0
    sin, cos = 1 / math.hypot(1, n), n / math.hypot(1, n)
    heel, nose = hand["heel"], hand["heel"] - length / n
    square, wedge, flat = nose * length * 38, (heel - nose) * length / 2 * 38, 40.0
    off = flat * flat / n / 2 * 38
    # notches: a slot 50 long and 16 wide with round ends, its middle 25 + 8 inside the work edge
    slot = ((50 - 16) * 16 + math.pi * 64) * 38
    heel_clamp = figure(given["clamps"].split(", ")[0])
    at_slot = heel_clamp * cos - 33 * sin
    wood = board * 22 * 60
    moment = square * length / 2 + wedge * length / 3 - off * (length - 2 * flat / 3)
    moment -= slot * at_slot
    moment += wood * (board / 2 * cos + 11 * sin)
    centre = moment / (square + wedge - off - slot + wood)
    edge = FRONT - AT_TABLE - 25  # X of the table's front edge at the start
    over = centre - edge
    weight = (square + wedge - off - slot + wood) * 1e-9 * 320 * 9.81
    handle = {"hold": 646.5, "run_on": 856.5, "draw_back": 646.5}[name]  # half the spacing behind the first that fits
    assert handle >= hand["hand"] + 96 + 2.5 + 8 - 1e-9
    assert figure(given["balance"]) == pytest.approx(abs(over), abs=5)
    if name == "hold":
        assert over < -50
        assert weight * -over > 100 * (handle - edge)  # no hand lifts it
        return
    nearest, furthest, best = (figure(given[key]) for key in ("nearest", "furthest", "best"))
    assert 0 <= nearest - max(over + 50, handle - edge) < 10
    # it stays under the board's tail until the table alone carries: the wedge off, the centre 50 inside the edge
    tip = GAP * math.hypot(1, n) / n
    run, deep = (22 - tip) * n, 22 - tip
    cut = run * deep / 2 * 60
    moment -= cut * (run / 3 * cos + (22 - deep / 3) * sin)
    after = moment / (square + wedge - off - slot + wood - cut)
    lighter = weight * (1 - cut / (square + wedge - off - slot + wood))
    pressed = max((w * at + 100 * handle) / (w + 100) for w, at in ((weight, centre), (lighter, after)))
    last = min(max(max(centre, after) + 50, pressed) - FRONT, hand["end"])
    assert 0 <= board * cos - (last + FRONT) - furthest < 10
    assert abs(best - (nearest + furthest) / 2) <= 5
    beside = [heel - (travel + FRONT + best) / n for travel in (edge - FRONT, last)]
    assert figure(given["beyond"]) == pytest.approx(-min(beside), abs=5)
    assert figure(given["beside"]) == pytest.approx(max(beside) + 22 / cos, abs=5)


def test_what_the_words_say_the_numbers_of_the_advice_are() -> None:
    """The stop block's own figure, which the drawing takes, is the sentence's."""
    for name in JOBS:
        stop = work_of(name).cut.advice.stop
        (mm,) = re.findall(
            r"near face ([\d.]+) mm", endings.stop_block(stop, work_of(name).way.sled.heel, say_in("mm"))
        )
        assert stop.from_front == pytest.approx(float(mm))
        assert float(mm) == figure(FIGURES[name]["stop"])
