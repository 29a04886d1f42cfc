"""Where the figures of the sled and of its plank come from."""

from __future__ import annotations

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.sled.layout import ClampPlace
from scarfwright.models.words.at_the_saw.endings import clamp
from scarfwright.models.words.the_book.figure import Figure, Origin

TO_MAKE = "Make it so, then measure what it came to: the measured size goes into the job."


def sled_figures(work: Groundwork) -> tuple[Figure, ...]:
    """Size, mark, notches, hand line."""
    say = say_in(work.job.units)
    return (*_size(work, say), *_places(work, say))


def _size(work: Groundwork, say: Say) -> list[Figure]:
    sled, asked = work.way.sled, work.job.sled
    auto = Origin(
        "chosen", "The shortest that serves: clamps clear of the blade, hands clear of it, wood for every hole."
    )
    found = [
        Figure(
            "sled.length_mm",
            "Sled, length",
            say(sled.length),
            auto if asked.length == "auto" and asked.length_as_made is None else Origin("job", "As the job says."),
            main=True,
        ),
        Figure("sled.heel_mm", "Heel", say(sled.heel), _end(work, say, "heel"), main=True),
        Figure("sled.nose_mm", "Nose", say(sled.nose), _end(work, say, "nose"), main=True),
        Figure(
            "sled.thickness_mm",
            "Sled, thickness",
            say(sled.thickness),
            Origin(
                "job", "The plank's thickness." if asked.made_from == "plank" else "Layers times the sheet's thickness."
            ),
        ),
    ]
    if sled.mark is not None and sled.plank_width is not None:
        found.append(
            Figure(
                "sled.mark_mm",
                "Mark M on the plank",
                say(sled.mark),
                Origin(
                    "formula",
                    f"Half of the plank's width and the rise of the slope, (P + L / N) / 2, to a mark of the rule. The "
                    f"plank is {say(sled.plank_width)} wide in the job: measure yours.",
                ),
                main=True,
            )
        )
    if sled.nose_flat > 0:
        how = "The clamp's pad and a little room on each side." if asked.nose_flat == "auto" else "As the job says."
        found.append(Figure("sled.nose_flat_mm", "Nose flat, length", say(sled.nose_flat), Origin("chosen", how)))
    return found


def _end(work: Groundwork, say: Say, which: str) -> Origin:
    asked, nominal = work.job.sled, work.way.nominal
    measured = asked.heel_as_made if which == "heel" else asked.nose_as_made
    if measured is not None:
        return Origin("job", "As you measured it.")
    if nominal.mark is None or nominal.plank_width is None:
        told = (
            "As the job says."
            if which == "nose"
            else f"Nose and length over slope: {say(nominal.nose)} + {say(nominal.length)} / {nominal.ratio:.2f}."
        )
        return Origin("formula", f"{told} {TO_MAKE}")
    from_mark = "The mark" if which == "heel" else "The plank's width less the mark"
    return Origin("formula", f"{from_mark}, less half the saw cut square to the fence edge. {TO_MAKE}")


def _places(work: Groundwork, say: Say) -> list[Figure]:
    layout, saw, way = work.way.layout, work.job.saw, work.way
    asked = work.job.sled.hand_line
    hand = (
        Origin(
            "formula",
            f"End of the cut {say(max(way.travel.end(saw.end_of_cut), 0.0))}, margin {say(saw.travel_margin)}, the "
            f"blade's reach at the table {say(way.blade.reach(0.0))} and {say(saw.hands_clear)} clear, up to a mark. "
            "Published figures of how far hands stay away disagree, and none is for a sled with handles.",
        )
        if asked == "auto"
        else Origin("job", "As the job says.")
    )
    found = [Figure("sled.hand_line_mm", "Hand line, from the heel", say(layout.hand_line), hand, main=True)]
    found += [_clamp(work, place, number, say) for number, place in enumerate(layout.clamps)]
    if layout.handle_holes:
        holes = sorted(work.way.sled.from_heel(x) for x, _ in layout.handle_holes)
        told = "In the middle of the width, on your side of the hand line, clear of notches."
        found.append(
            Figure(
                "sled.handle_holes_mm",
                "Handle holes, from the heel",
                " and ".join(map(say, holes)),
                Origin("chosen", told),
            )
        )
    return found


def _clamp(work: Groundwork, place: ClampPlace, number: int, say: Say) -> Figure:
    name = clamp(place.where)
    limit = (
        "Nothing stops it in this cut."
        if place.limit is None
        else f"It would meet the {place.meets} at {say.down(place.limit)} of travel."
    )
    least = (
        f" A notch may lie {say.up(work.way.layout.least_station)} or more from the heel."
        if place.where == "heel"
        else ""
    )
    return Figure(
        f"sled.clamps.{number}.station_mm",
        f"{name[0].upper()}{name[1:]}, from the heel",
        say(place.station),
        Origin("formula", f"Along the work edge. It closes on {say(place.opening)}. {limit}{least}"),
    )


def dividing_figures(work: Groundwork) -> tuple[Figure, ...]:
    """The cut that makes two sleds of a plank, on its carrier."""
    cut, say = work.way.dividing, say_in(work.job.units)
    if cut is None:
        return ()
    saw = work.job.saw
    return (
        Figure(
            "dividing.fence_mm",
            "Rip fence for dividing",
            say(cut.fence),
            Origin(
                "formula",
                f"The carrier's width, {say(cut.carrier_width)}, and the gap of {say(saw.fence_gap)}. "
                "Measure your carrier.",
            ),
        ),
        Figure(
            "dividing.blade_height_mm",
            "Blade height for dividing",
            say.up(cut.blade_height),
            Origin(
                "formula",
                f"Carrier {say(cut.carrier_thickness)}, plank {say(work.way.nominal.thickness)} and "
                f"{say(saw.blade_above_work)} above them.",
            ),
        ),
        Figure(
            "dividing.line_beyond_mm",
            "Line beyond the carrier's edge",
            say(cut.line_beyond),
            Origin("formula", f"The gap of {say(saw.fence_gap)} and half the kerf of {say(saw.kerf)}."),
        ),
        Figure(
            "dividing.rail_offset_mm",
            "Guide rail, from the line",
            say(cut.rail_offset),
            Origin(
                "yours",
                f"Your saw's base, edge to blade, {say(saw.base_to_blade)}, and half its kerf of {say(cut.rail.kerf)}.",
            ),
        ),
    )
