"""What is said of the end of the cut, of travels and supports: whole sentences from invented figures.

The figures lie between two marks wherever a sentence must go to the safe side: what must be there is told long, what
may not be passed is told short. Where one sentence gives way to another, the figure stands on that very limit.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from scarfwright.models.cut.balance import Balance, Stand, Support
from scarfwright.models.cut.endings import Bound, Ending, Offcut, Start, StopBlock, TravelAdvice
from scarfwright.models.cut.knife_and_guard import Knife
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.words.at_the_saw import at_every_cut, endings, support, travel

MM, IN = say_in("mm"), say_in("in")
INCH = 25.4
SAID = {**travel.SENTENCES, **support.SENTENCES}

HAND = "a hand on the far handle (100 N; common practice, no source)"
LEVEL = "Level with the table or a hair high, never low; a roller's axis square to the fence."
RECEIVES = (
    "The table ends less than {} beyond the blade's centre (HSE, circular saw bench): add an outfeed table, or have a "
    "helper who only receives and never pulls."
)
TIPS = f"{LEVEL} Without it everything tips off: sled and a board"
INFEED: dict[str, Any] = {
    "board_length_mm": 2400, "board_length_is": "given", "over_front_mm": 136, "hand_over_mm": 190, "nearest_mm": 200,
    "furthest_mm": 1520, "best_mm": 860, "across_from_mm": -14, "across_to_mm": 26,
}  # fmt: skip
ROLLER = (
    "Set a roller or trestle in front of the table, on your side: 200 mm to 1520 mm out from its edge (best 860 mm), "
    "under the board, from 10 mm beyond the fence's face to 30 mm on the blade's side of it."
)
MEETS: dict[str, Any] = {"where": "nose_flat", "station_mm": 837.46, "end_of_cut": "hold", "spare_mm": 50}

FOUND: list[tuple[str, Say, dict[str, Any], str]] = [
    (
        "clamp.meets_fence", MM, {**MEETS, "limit_mm": 220.98, "end_mm": 220.99},
        "The nose clamp at 837.5 mm from the heel meets the near end of the fence at 220.9 mm of travel, before the "
        "end of the cut at 221 mm (the taper is complete and the sled held there).",
    ),
    (
        "clamp.meets_blade", MM,
        {**MEETS, "where": "extra", "end_of_cut": "draw_back", "limit_mm": 220.98, "end_mm": 220.98},
        "The further clamp at 837.5 mm from the heel meets the blade at 220.9 mm of travel, within the margin after "
        "the end of the cut at 221 mm (the taper is complete and the sled drawn back).",
    ),
    (
        "clamp.meets_blade", MM,
        {**MEETS, "where": "heel", "end_of_cut": "run_on", "limit_mm": 0.0, "end_mm": -12.34},
        "The heel clamp at 837.5 mm from the heel meets the blade 0 mm before the heel reaches the blade's centre, "
        "within the margin after the end of the cut with the heel 12.3 mm short of the blade's centre (the blade is "
        "clear of the work).",
    ),
    (
        "board.meets_fence", MM, {"limit_mm": -3.91, "end_mm": 220.93, "end_of_cut": "hold", "length_mm": 900},
        "A long board's tail meets the near end of the fence 4 mm before the heel reaches the blade's centre, and the "
        "cut ends at 220.9 mm (the taper is complete and the sled held there).",
    ),
    (
        "table.no_room_to_start", MM, {"table_front_mm": 100, "needed_mm": 136.42},
        "At the start the heel must be 136.4 mm short of the blade's centre, and the table's front edge is only 100 mm "
        "from it. Measure table_front again; or fix an infeed support level with the table and give its front edge, "
        "136.5 mm or more.",
    ),
    (
        "fence.behind_blade", MM, {"fence_front_mm": 80, "start_mm": 136.42, "lead_mm": -56},
        "The near end of the fence is 80 mm from the blade's centre, and the heel starts 136.4 mm from it: nothing "
        "guides the sled when the teeth reach it.",
    ),
    (
        "fence.short_lead", MM, {"guided_mm": 63.58, "wanted_mm": 126.2, "lead_mm": 63.58},
        "At the start only 63.6 mm of the sled lie along the fence, less than its heel is wide (126.2 mm): it can skew "
        "(common practice, no source).",
    ),
    (
        "stop.off_table", MM, {"from_axis_mm": 433, "table_back_mm": 379.92, "cleat_mm": None},
        "The stop block would hang past the table: the heel ends 433 mm beyond the blade's centre, 53.1 mm past the "
        "table's far edge. Add an outfeed table and a longer fence.",
    ),
    (
        "stop.off_table", IN, {"from_axis_mm": 17 * INCH, "table_back_mm": 15 * INCH, "cleat_mm": 48.5 * INCH},
        "The stop block would hang past the table: the heel ends 17 in beyond the blade's centre, 2 in past the "
        "table's far edge. Add an outfeed table and a longer fence, or screw a cleat under the sled 48 1/2 in from the "
        "heel.",
    ),
    (
        "support.outfeed_needed", MM, {"past_back_mm": 52.91, "over_back_mm": 3},
        "Keep 53 mm free beyond the table's far edge: the heel runs out there at the end of the cut. Set an outfeed "
        "support beyond the table's far edge, level with the table: without it sled and board tip over the edge at the "
        "end of the cut.",
    ),
    (
        "support.outfeed_needed", MM, {"past_back_mm": 0.0},
        "Set an outfeed support beyond the table's far edge, level with the table: without it sled and board tip over "
        "the edge at the end of the cut.",
    ),
    (
        "support.infeed_needed", MM, INFEED,
        f"{ROLLER} {TIPS} 2400 mm long balance 140 mm outside the table's front edge at the start.",
    ),
    (
        "support.infeed_needed", MM, {**INFEED, "over_front_mm": 0.6},
        f"{ROLLER} {TIPS} 2400 mm long balance right on the table's front edge at the start.",
    ),
    (
        "support.infeed_needed", MM, {**INFEED, "over_front_mm": -36, "hand_over_mm": 0.6},
        f"{ROLLER} {TIPS} 2400 mm long balance 40 mm inside the table's front edge at the start, and {HAND} tips them.",
    ),
    (
        "support.infeed_needed", MM, {**INFEED, "over_front_mm": 0.0, "across_from_mm": -26, "across_to_mm": -14},
        f"{ROLLER.replace('10 mm beyond', '30 mm beyond').replace('30 mm on', '0 mm on')} {TIPS} 2400 mm long balance "
        f"right on the table's front edge at the start, and {HAND} tips them.",
    ),
    (
        "support.infeed_needed", MM, {**INFEED, "over_front_mm": 0.0, "hand_over_mm": 0.0},
        f"{ROLLER} {TIPS} 2400 mm long balance right on the table's front edge at the start.",
    ),
    (
        "support.infeed_needed", MM,
        {**INFEED, "over_front_mm": -36, "hand_over_mm": 0.0, "across_from_mm": -4, "board_length_is": "assumed"},
        "Set a roller or trestle in front of the table, on your side: 200 mm to 1520 mm out from its edge (best 860 "
        f"mm), under the board, 0 mm to 30 mm from the fence's face towards the blade. {TIPS} 2400 mm long (assumed: "
        "the job gives no length) balance only 40 mm inside the table's front edge at the start.",
    ),
    (
        "support.infeed_needed", IN,
        {**INFEED, "board_length_mm": 96 * INCH, "over_front_mm": 5.3 * INCH, "nearest_mm": 60 * INCH,
         "furthest_mm": 60 * INCH, "best_mm": 60 * INCH, "across_from_mm": 12.8, "across_to_mm": 49},
        "Set a roller or trestle in front of the table, on your side: 60 in to 60 in out from its edge (best 60 in), "
        f"under the board, 1/2 in to 2 in from the fence's face towards the blade. {TIPS} 96 in long balance 5 1/2 in "
        "outside the table's front edge at the start.",
    ),
    (
        "support.infeed_needed", MM, {**INFEED, "nearest_mm": 1530},
        "Set an infeed support as long as a bench on your side, from the table's front edge to 1530 mm out or more. No "
        f"single roller or trestle serves from start to end. {TIPS} 2400 mm long balance 140 mm outside the table's "
        "front edge at the start.",
    ),
]  # fmt: skip


# -- supports ----------------------------------------------------------------------------------------------------


def needs(**changes: Any) -> Support:
    """Sled and a board of 900 that balance 274 inside the front edge and end on a table that is long enough."""
    start = Balance("start", -136.4, 526, -274, -900, -180, True)
    known: dict[str, Any] = {
        "board_length": 900.0, "assumed": False, "balances": (start,), "stand": None, "handle": 646.5,
        "past_back": 0.0, "outfeed": False, "short_table": False,
    }  # fmt: skip
    return Support(**{**known, **changes})


def test_no_infeed_support() -> None:
    told = "No infeed support needed. Sled and a board 900 mm long{} balance 270 mm inside the table's front edge from "
    told += f"the start, with {HAND} too."
    assert support.infeed(needs(), MM) == told.format("")
    assert support.infeed(needs(assumed=True), MM) == told.format(" (assumed: the job gives no length)")
    assert "balance 11 in inside" in support.infeed(needs(), IN)  # 274 mm are 10.79 in


def test_an_infeed_support_is_told_with_the_numbers_of_its_finding() -> None:
    need = needs(stand=Stand(200, 1520, 860, (-14, 26)))
    assert support.infeed(need, MM) == support.SENTENCES["support.infeed_needed"](MM, **need.infeed_numbers())


@pytest.mark.parametrize(
    ("say", "changes", "told"),
    [
        (MM, {}, "At the end of the cut the sled's heel still lies on the table."),
        (MM, {"outfeed": True}, "At the end of the cut the sled's heel still lies on the table."),
        (
            MM,
            {"short_table": True},
            f"At the end of the cut the sled's heel still lies on the table. {RECEIVES.format('1200 mm')}",
        ),
        (
            IN,
            {"past_back": 0.51, "short_table": True},
            "Keep 1/32 in free beyond the table's far edge: the heel runs out there at the end of the cut. The table "
            f"still carries sled and board. {RECEIVES.format('4 ft')}",
        ),
        (
            MM,
            {"past_back": 0.51, "outfeed": True},
            "Keep 0.6 mm free beyond the table's far edge: the heel runs out there at the end of the cut. Set an "
            "outfeed support beyond the table's far edge, level with the table: without it sled and board tip over the "
            "edge at the end of the cut.",
        ),
    ],
)
def test_the_outfeed(say: Say, changes: dict[str, Any], told: str) -> None:
    assert support.outfeed(needs(**changes), say) == told


def test_what_holds_at_every_cut() -> None:
    """The push stick: 450 mm is the longer of EN 1870-19's 400 and HSE's 450; 18 in is longer still."""
    knife = Knife(2.2, 1.8, 2.5, 2.0, 2.5, 64.07)
    assert at_every_cut.at_every_cut(knife, MM) == (
        "Keep the crown guard (US blade guard) on wherever it passes; where it can't, do first what the saw maker's "
        "manual and local rules say.",
        "Riving knife: Keep it fitted, the cut goes right through: 2.2 mm thick (2 mm or more, less than the 2.5 mm "
        "kerf). Set it 3 mm to 8 mm from the teeth, its top 64 mm above the table or lower (EN 1870-19).",
        "Run the dust extraction and wear a dust mask: wood dust harms the lungs.",
        "Switch off and wait until the blade has STOPPED before you reach for anything. It runs down in 10 s or less "
        "with a brake (HSE WIS38), longer without.",
    )
    assert (at_every_cut.push_stick("mm"), at_every_cut.push_stick("in")) == ("450 mm", "18 in")


# -- the ways to end the cut -------------------------------------------------------------------------------------

HEEL = Bound("heel", 394.98, 271.18, "blade")
FLAT = Bound("nose_flat", 837.46, 359.0, "fence")
TAIL = Bound("board", None, 0.0, "fence", sure=False)
NEEDS = "Needs: heel notch at least 395 mm from the heel, sled at least 764.5 mm long."


def way(**changes: Any) -> Ending:
    known: dict[str, Any] = {
        "name": "hold", "asked": True, "travel": 220.93, "needed": 270.93, "first": HEEL, "lacks": (), "spare": 50.25,
        "least_station": 394.92, "least_length": 764.41,
    }  # fmt: skip
    return Ending(**{**known, **changes})


@pytest.mark.parametrize(
    ("ending", "told"),
    [
        (way(first=None), "Possible. The cut is over at 220.9 mm of travel; nothing ever comes into the way."),
        (
            way(),
            "Possible. The cut is over at 220.9 mm of travel; the heel clamp at 395 mm would reach the blade 50.2 mm "
            "further on.",
        ),
        (
            way(lacks=(HEEL, TAIL), needed=480.76),
            "Not with these clamps: it needs 480.8 mm of free travel, but the heel clamp at 395 mm meets the blade at "
            "271.1 mm of travel; the board's tail, if it is long enough, meets the fence 0 mm before the heel reaches "
            "the blade's centre.",
        ),
        (
            way(lacks=(FLAT,), needed=0.0),
            "Not with these clamps: it needs 0 mm of free travel, but the nose clamp at 837.5 mm meets the fence at "
            "359 mm of travel.",
        ),
        (
            way(lacks=(replace(TAIL, travel=-40.01, sure=True),), needed=-12.29),
            "Not with these clamps: it must be free until the heel is 12.2 mm short of the blade's centre, but the "
            "board's tail meets the fence 40.1 mm before the heel reaches the blade's centre.",
        ),
    ],
)
def test_whether_an_ending_is_possible(ending: Ending, told: str) -> None:
    assert endings.why(ending, MM) == f"{told} {NEEDS}"


def advised(*bounds: Bound) -> TravelAdvice:
    offcut = Offcut(226.3, 18.87, "left")
    stop = StopBlock(1021, 221, -159, None)
    return TravelAdvice((way(),), bounds, 29.92, 2.5, offcut, stop, Start(663, 137))


def test_the_travel_limit() -> None:
    assert endings.limit(advised(), MM) == "Nothing limits the travel."
    assert endings.limit(advised(HEEL, FLAT), MM) == (
        "Travel limit 271.1 mm: there the heel clamp at 395 mm meets the blade."
    )
    assert endings.limit(advised(replace(HEEL, where="extra", travel=0.99), FLAT), MM) == (
        "Travel limit 0.9 mm: there the further clamp at 395 mm meets the blade."
    )
    assert endings.limit(advised(TAIL, FLAT), MM) == (
        "No travel: the board's tail, if it is long enough, meets the fence 0 mm before the heel reaches the blade's "
        "centre."
    )


def test_lip_and_offcut() -> None:
    assert endings.go_on(advised(), MM) == (
        "Keep pushing 30 mm after the offcut drops. Until then a lip up to 2.5 mm thick is left on the board and holds "
        "the joint open."
    )
    assert endings.offcut(Offcut(226.3, 18.87, "left"), MM) == (
        "The offcut, a wedge 226.3 mm long and 18.9 mm thick at its heel end, falls on the left, the free side, never "
        "between blade and fence. Keep that side clear. Leave it where it fell until the blade has stopped; then take "
        "it off with a push stick, never with a hand."
    )
    assert endings.offcut(Offcut(6.0, 0.5, "right"), MM).startswith("The offcut, a wedge 6 mm long and 0.5 mm thick")
    nothing = "There is no offcut: the kerf is as wide as the board is thick."
    assert endings.offcut(Offcut(0.0, 0.0, "left"), MM) == nothing


STOP = (
    "Clamp it to the fence, on its blade side and clear of the blade, its near face {} from the table's front edge "
    "({} the blade's centre). The sled's heel end runs against it. Make it narrower than the heel (126.2 mm). Chamfer "
    "its lower edge, so that sawdust can't hold the sled off."
)
CLEAT = (
    " Or screw a cleat under the sled, 788 mm from the heel, to meet the table's front edge (no infeed support in its "
    "way)."
)


def test_the_stop_block() -> None:
    on_table = STOP.format("788 mm", "12 mm short of")
    assert endings.stop_block(StopBlock(788, -12, 0.0, None), 126.24, MM) == on_table
    assert endings.stop_block(StopBlock(788, -12, -1.0, 788), 126.24, MM) == on_table + CLEAT
    hangs = " It would hang 53 mm past the table's far edge: add an outfeed table and a longer fence."
    assert endings.stop_block(StopBlock(788, 433, 52.92, 788), 126.24, MM) == (
        STOP.format("788 mm", "433 mm beyond") + hangs + CLEAT
    )


@pytest.mark.parametrize(
    ("front", "where"), [(663, "663 mm inside"), (0, "0 mm inside"), (-30, "30 mm outside"), (0.5, "0.5 mm inside")]
)
def test_the_start(front: float, where: str) -> None:
    assert endings.start(Start(front, 137), MM) == (
        f"Start with the heel {where} the table's front edge, 137 mm short of the blade's centre. Let the blade reach "
        "full speed, touching nothing."
    )
