"""What the sheets say of dividing a plank and of what to have at hand: every line whole, from invented figures.

The figures are put into the numbers by hand, between two marks of a rule; what must be there is told long. That the
numbers themselves are right is asked in test_dividing_figures.py.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from scarfwright.models.flat.loop import polygon
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.sled.dividing import Dividing, Run
from scarfwright.models.sled.material import Bolts, SledMaterial
from scarfwright.models.sled.rail import RailPiece
from scarfwright.models.sled.screws import ScrewLength
from scarfwright.models.words.the_joint.entry import Entry
from scarfwright.models.words.the_sled import dividing, material
from scarfwright.models.workup import Workup

from tests.cut_jobs import worked
from tests.words_at_the_saw import work_of

INCH = 25.4


@cache
def work(units: Unit = "mm") -> Workup:
    """The job that runs on, with another plank: 190.04 wide, marked at 140.46."""
    found = work_of("run_on")
    nominal = replace(
        found.way.nominal,
        ratio=11.437, heel=139.21, nose=48.33, length=1040.04, mark=140.46, plank_width=190.04, thickness=38.1,
    )  # fmt: skip
    saw = found.job.saw.model_copy(update={"base_to_blade": 120.04})
    job = found.job.model_copy(update={"units": units, "saw": saw})
    blade = replace(found.way.blade, gap=0.397)
    return replace(found, job=job, way=replace(found.way, job=job, nominal=nominal, blade=blade))


def cut(**changes: Any) -> Dividing:
    found = work_of("run_on").way.dividing
    assert found is not None
    rail = replace(
        found.rail,
        offset=121.14, kerf=2.2, heel=139.36, nose=48.48, length=1440.4, saw_depth=41.04,
        pieces=(RailPiece(0, 210.4, 119.6), RailPiece(840.04, 1040.04, 190.4)),
    )  # fmt: skip
    free = replace(found.free, length=1050.0, width=100.0)
    known: dict[str, Any] = {
        "carrier_length": 1100.0, "carrier_width": 200.0, "carrier_thickness": 18.04, "fence": 200.397,
        "fence_to_plate": 200.747, "blade_height": 62.14, "screw": ScrewLength(25.1, 42.9),
        "batten_screw": ScrewLength(24.9, 29.1), "batten_height": 17.6, "line_beyond": 1.647, "free": free,
        "run": Run(134.2, 115.3, 405.2, 805.3, 512.7, 56.14), "rail": rail,
    }  # fmt: skip
    return replace(found, **{**known, **changes})


def labelled(entries: tuple[Entry, ...]) -> list[tuple[str, str]]:
    return [(e.label, e.text) for e in entries]


def strong(entries: tuple[Entry, ...]) -> list[int]:
    return [number for number, entry in enumerate(entries) if entry.strong]


CUT_AFTER = "5. Divide it on the carrier or along the guide rail. Cut notches, nose flat and holes only after that."
JOIN = "4. Join the marks. The middle of the cut runs along this line, and the halves come out equal."


def test_marking_the_plank() -> None:
    told = dividing.marking(work())
    assert labelled(told) == [
        (
            "",
            "1. Joint both edges straight and parallel. Measure the width: these sizes are right for 190 mm. If yours "
            "differs, put it into the job first and make the sheets again.",
        ),
        ("", "2. Cut both ends square, 1040 mm apart."),
        ("", "3. Mark M = 140.5 mm from one edge at one end, and from the opposite edge at the other end."),
        ("", JOIN),
        ("", CUT_AFTER),
    ]
    assert strong(told) == [2]
    assert '3. Mark M = 5 17/32" from one' in dividing.marking(work("in"))[2].text


def test_what_to_measure_again() -> None:
    told = dividing.measuring(work())
    assert labelled(told) == [
        ("Slope", "11.44:1, 5.00°"),
        ("Heel", "139.2 mm"),
        ("Nose", "48.3 mm"),
        ("Length", "1040 mm"),
        (
            "",
            "Measure heel, nose and length on the half you will use, as soon as it is cut and trued, before the "
            "notches or after: notches, flat and holes stay where these sheets put them. Put the three into the job "
            "file as the sizes as made: slope, fence and travels then follow your sled.",
        ),
    ]
    assert strong(told) == [0, 1, 2, 3]
    assert labelled(dividing.measuring(work("in")))[1] == ("Heel", '5 31/64"')


def test_along_the_guide_rail() -> None:
    told = dividing.rail_way(work(), cut())
    assert labelled(told) == [
        ("Rail", "121.1 mm from the line to the rail's edge, square to the line, at both ends"),
        ("That is", "120 mm, base's edge to blade, and half the kerf of 2.2 mm (measure yours)"),
        ("Board", "straight, 1440 x 100 mm, 200 mm past each end"),
        (
            "Carried",
            "by two pieces 38.1 mm thick like the plank, tight against its edge: 210 x 120 mm flush with the heel end "
            "and 200 x 190 mm flush with the nose end",
        ),
        (
            "",
            "Clamp plank, pieces and rail to the bench, clear of the saw, the plank carried on both sides of the cut.",
        ),
        (
            "",
            "Blade 42 mm deep, scrap below it. Guard free to close; saw at full speed before it touches; hold it until "
            "the blade has STOPPED. Halves then: heel 139.4 mm, nose 48.5 mm.",
        ),
    ]
    assert strong(told) == [0]
    inches = labelled(dividing.rail_way(work("in"), cut()))
    assert inches[2] == ("Board", 'straight, 56 11/16" x 3 15/16", 7 7/8" past each end')


def test_what_carries_the_rail() -> None:
    rail = cut().rail
    one = dividing.rail_way(work(), cut(rail=replace(rail, pieces=rail.pieces[1:])))[3]
    assert one.text == (
        "by one piece 38.1 mm thick like the plank, tight against its edge: 200 x 190 mm flush with the nose end"
    )
    none = dividing.rail_way(work(), cut(rail=replace(rail, pieces=())))[3]
    assert none.text == "by the plank itself: it lies on the plank at both ends"


def test_setting_the_saw() -> None:
    told = dividing.settings(work(), cut())
    assert labelled(told) == [
        ("Rip fence", "carrier as measured + 0.4 mm, to a tooth set towards it"),
        ("That is", "200.4 mm if the carrier is 200 mm. To the plate: 200.7 mm"),
        ("Blade", "63 mm above the table"),
        ("Guard", "on, just over 57 mm; riving knife fitted"),
        ("Plank", "against the batten, its line 1.6 mm outside the carrier's blade edge at both ends"),
    ]
    assert strong(told) == [0, 2, 3]
    inches = labelled(dividing.settings(work("in"), cut()))
    assert inches[1] == ("That is", '7 57/64" if the carrier is 7 7/8". To the plate: 7.903"')
    assert inches[2] == ("Blade", '2 1/2" above the table')  # 2.446 in: the next sixteenth


ORDER = [
    "Set stands level with the table, up to 406 mm out from its edge on your side and 806 mm out from its edge on the "
    "far side.",
    "Start with the carrier's leading end 135 mm short of the blade's centre, blade at full speed.",
    "Push on the handle, down and against the fence.",
    "Take the push stick (450 mm or longer) when the carrier's trailing end is 513 mm from the blade's centre, and "
    "push against the handle with it.",
    "Push until the whole carrier is past the blade: its trailing end 116 mm beyond the blade's centre.",
    "Switch off, stay, and wait until the blade has STOPPED. Only then take the halves off.",
    "Mark the half that lay on the carrier, and its upper face. Make that one the sled, the same face up: a tilt of "
    "the blade cancels in it and doubles in the free half.",
]


def numbered(texts: list[str]) -> list[str]:
    return [f"{number} {text}" for number, text in zip(("1.", "2.", "3.", "4.", "5.", "6.", "7."), texts, strict=False)]


def test_the_steps_of_the_dividing_cut() -> None:
    told = dividing.order(work(), cut())
    assert [e.text for e in told] == numbered(ORDER)
    bare = [*ORDER[:2], "Push with a push stick (450 mm or longer) against the carrier's trailing end. No hand nearer "
            "the blade than 300 mm.", *ORDER[4:]]  # fmt: skip
    assert [e.text for e in dividing.order(work(), cut(handle=None))] == numbered(bare)
    inches = dividing.order(work("in"), cut(handle=None))[2].text
    assert inches == (
        "3. Push with a push stick (18\" or longer) against the carrier's trailing end. No hand nearer the blade than "
        '11 13/16".'
    )


def test_stands_for_the_dividing_cut() -> None:
    def first(infeed: float, outfeed: float) -> str:
        return dividing.order(work(), cut(run=Run(134.2, 115.3, infeed, outfeed, 512.7, 56.14)))[0].text

    assert first(0.0, 0.0) == "1. Clear the table: it carries the whole run."
    assert first(0.6, 0.0) == "1. Set stands level with the table, up to 1 mm out from its edge on your side."
    assert first(0.0, 0.6) == "1. Set stands level with the table, up to 1 mm out from its edge on the far side."


HANDLE = ("Handle", "120 x 40 x 80 mm; 2 screws 58 mm, from below, heads let in")
IN_THE_PLANK = "countersunk 4.5 mm, 26 to 42 mm long, carrier and strip into the plank"


def test_what_the_carrier_is_made_of() -> None:
    some = cut(screws=((60.0, 60.0), (900.0, 100.0)), batten_screws=((60.0, 20.0), (500.0, 30.0), (900.0, 40.0)))
    told = dividing.material(work(), some)
    batten = labelled(told)[2]
    assert labelled(told) == [
        ("Carrier", "1100 x 200 x 18 mm sheet"),
        ("Strip", "1050 x 100 x 18 mm, thick as the carrier"),
        ("Batten", "1040 x 40 x 18 mm"),
        ("Screws", f"4 {IN_THE_PLANK}; 3 countersunk 4.5 mm, 25 to 29 mm long, into the batten"),
        HANDLE,
    ]
    assert strong(told) == [1]
    glued = dividing.material(work(), replace(some, batten_screw=None, handle=None))
    assert labelled(glued)[2:] == [batten, ("Screws", f"4 {IN_THE_PLANK}"), ("Batten", "glued to the carrier")]
    bare = dividing.material(work(), replace(some, batten_screw=None, screw=None, handle=None))
    assert labelled(bare)[2:] == [batten, ("Batten", "glued to the carrier")]
    fixed = dividing.material(work(), replace(some, screws=(), handle=None))
    assert labelled(fixed)[3:] == [("Screws", "3 countersunk 4.5 mm, 25 to 29 mm long, into the batten")]


def test_the_carriers_sizes_in_inches_on_marks_of_a_rule() -> None:
    """The batten is as wide as its end is long: 30 across and 40 along are 50."""
    batten = polygon([(0.0, 0.0), (400.0, 0.0), (430.0, 40.0), (30.0, 40.0)])
    told = labelled(dividing.material(work("in"), cut(batten=batten)))
    assert told[2] == ("Batten", '40 15/16" x 1 15/16" x 11/16"')
    assert told[-1] == ("Handle", '4 3/4" x 1 9/16" x 3 1/8"; 2 screws 2 5/16", from below, heads let in')


def test_putting_in_screws() -> None:
    told = "From below, heads let in: carrier into the first half, strip into the second. {} or more clear of kerf, "
    told += "edges and notches."
    assert dividing.screwing(work()) == told.format("10 mm")
    assert dividing.screwing(work("in")) == told.format('7/16"')  # 10 mm are 0.394 in


DUST = "Run the dust extraction and wear a dust mask: wood dust harms the lungs."
STOPPED = "Switch off and wait until the blade has STOPPED before you reach for anything."


def test_the_cautions_whole_and_worst_first() -> None:
    """The blade stands 62.14 up here, not 66: the riving knife's top 2 lower than that."""
    told = dividing.carrier_cautions(work(), cut())
    assert [e.text for e in told] == [
        "Never freehand, and never the bare plank along the fence: on the carrier or along a rail, or not at all.",
        "KICKBACK: a half that closes on the blade is thrown back. Stand out of its line.",
        "The free half drops at the end of the cut unless its strip carries it. Screw the strip on first.",
        "Screws outside the kerf and shorter than the plank: look again before the saw is switched on.",
        "Eyes and ears protected; no gloves, no loose sleeves.",
        "Keep the crown guard (US blade guard) on wherever it passes; where it can't, do first what the saw maker's "
        "manual and local rules say.",
        "Riving knife: Keep it fitted, the cut goes right through: 2.2 mm thick (2 mm or more, less than the 2.5 mm "
        "kerf). Set it 3 mm to 8 mm from the teeth, its top 60.1 mm above the table or lower (EN 1870-19).",
        DUST,
        f"{STOPPED} It runs down in 10 s or less with a brake (HSE WIS38), longer without.",
        "No hand over, beside or beyond a turning blade. Unplug the saw for every change.",
    ]
    assert strong(told) == [0]
    low = dividing.carrier_cautions(work(), cut(blade_height=1.5))
    assert "its top 0 mm above the table or lower" in low[6].text
    along = dividing.rail_cautions()
    assert [e.text for e in along] == [
        "The riskiest cut of all. Never freehand: on the carrier or along the rail, or not at all.",
        "KICKBACK: support both halves, so that the cut can't close on the blade.",
        "Eyes and ears protected; cable and hands clear of the line, above and below.",
        DUST,
        STOPPED,
        "Unplug the saw for every change of blade or depth.",
    ]
    assert strong(along) == [0]


# -- what to have at hand ----------------------------------------------------------------------------------------

CLAMPS = ("Clamps", "2, opening 72 mm or more")  # the nose clamp closes on 71.1
SPACED = ScrewLength(37.2, 54.9)


def test_material_of_a_sled_from_a_plank() -> None:
    """1000 long and 10 at each end; handle holes 96 apart, and 25 past each; bolts through 38 and half of 80."""
    found = work_of("run_on")
    told = material.sled_list(found)
    assert labelled(told) == [
        ("Plank", "1020 x 184 x 38 mm, straight, dry (makes two sleds)"),
        ("Handle", "146 x 35 x 80 mm; 2 bolts 5 mm, 78 mm long, from below, heads let in"),
        ("Hand stop", "60 x 24 x 30 mm; 2 screws 37 to 55 mm long"),
        ("Stop block", "150 x 40 x 60 mm, with a clamp"),
        CLAMPS,
    ]
    assert strong(told) == [0]


def test_material_of_a_sled_from_sheet() -> None:
    """Two layers of 18: the dowels are as long as both. Heel: nose 25, and 1000 at 1 in 12. No handle; at the hand
    line too narrow for a hand stop."""
    made = {"made_from": "sheet", "layers": 2, "sheet_thickness": "18 mm", "handle_hole": "0 mm", "length": "1000 mm"}
    found = worked(saw={"end_of_cut": "run_on"}, sled={**made, "plank": None}, stock={"length": None})
    told = material.sled_list(found)
    assert labelled(told) == [
        ("Sheet", "2 of 1000 x 108.3 x 18 mm, flat"),
        ("Dowels", "3 of 8 mm, 36 mm long"),
        ("Stop block", "150 x 40 x 60 mm, with a clamp"),
        ("Clamps", "2, opening 47 mm or more"),
    ]
    assert strong(told) == [0]
    bare = worked(saw={"end_of_cut": "run_on"}, sled={**made, "plank": None, "dowel": 0}, stock={"length": None})
    assert [label for label, _ in labelled(material.sled_list(bare))] == ["Sheet", "Stop block", "Clamps"]


def test_inches_have_each_their_mark_and_screws_their_range() -> None:
    say: Drawn = drawn_in("in")
    assert material.size(say, (61 * INCH, 7.25 * INCH, 1.5 * INCH)) == '61" x 7 1/4" x 1 1/2"'
    assert material.size(say, (60.02 * INCH, 7.25 * INCH), by_rule=True) == '60" x 7 1/4"'
    assert material.size(drawn_in("mm"), (1520.4, 184.04, 38.26)) == "1520.4 x 184 x 38.3 mm"
    assert material.size(drawn_in("mm"), (1520.4, 184.04, 38.26), by_rule=True) == "1520 x 184 x 38 mm"
    assert material.screws(drawn_in("mm"), 3, ScrewLength(24.4, 43.2)) == "3 countersunk 4.5 mm, 25 to 43 mm long"
    assert material.screw_range(drawn_in("mm"), SPACED) == "38 to 54 mm long"


def test_a_hand_stop_that_no_screw_holds_is_glued() -> None:
    need = SledMaterial((1020, 184, 38), 1, None, None, (60, 24, 30), None, (150, 40, 60), 2, 0, (8, 36))
    say = drawn_in("mm")
    assert material._stops(say, need)[0] == Entry("60 x 24 x 30 mm, glued on", "Hand stop")
    assert [e.label for e in material._stops(say, replace(need, hand_stop=None))] == ["Stop block"]
    assert material._handle(say, replace(need, handle=(146, 35, 80))) == []
    assert material._handle(say, replace(need, handle_bolts=Bolts(2, 5, 78))) == []
    odd = replace(
        need, handle=(146.4, 35.3, 80.4), handle_bolts=Bolts(2, 5, 78.4), hand_stop=(60.4, 24.4, 29.6),
        hand_stop_screw=SPACED, stop_block=(150.4, 40.4, 59.6),
    )  # fmt: skip
    assert labelled((*material._handle(say, odd), *material._stops(say, odd))) == [
        ("Handle", "146 x 35 x 80 mm; 2 bolts 5 mm, 78 mm long, from below, heads let in"),
        ("Hand stop", "60 x 24 x 30 mm; 2 screws 38 to 54 mm long"),
        ("Stop block", "150 x 40 x 60 mm, with a clamp"),
    ]
