"""Before the cut and during it: cautions, the check list and the order of work, with this job's numbers.

Common practice, no source, where no other is named; the saw maker's manual, local rules and competent instruction
come first.
"""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.cut.cut import Cut
from scarfwright.models.cut.sides import sides
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.sled.layout import deepest_lower_edge, pad_lower_edge
from scarfwright.models.sled.way import SledWay

FIRST = "The saw maker's manual, local rules and competent instruction come first."


@dataclass(frozen=True)
class Check:
    """One thing to look at before the cut: what, how it must be, and the figure it turns on [mm] if there is one."""

    what: str
    text: str
    value: float | None = None


def cautions(way: SledWay, cut: Cut) -> tuple[str, ...]:
    """What stands at the top of everything pinned up at the saw, worst first."""
    say, free = say_in(way.job.units), sides(way.job).free
    told = [
        FIRST,
        "Eyes and ears protected; no gloves, loose sleeves or loose hair at a turning blade.",
        f"Hands never past the line {say(way.layout.hand_line)} from the heel, never over or behind a turning blade.",
        "Kickback: stand out of the line of the blade and nobody else in it; riving knife on; never lift, twist or let "
        "go of the sled in the cut.",
        f"Switch off and wait until the blade STANDS before reaching for anything, the offcut on the {free} above all.",
        "Unplug the saw to change or set the blade, the knife or the stop block.",
    ]
    if cut.support.stand is not None:
        told.insert(0, "INFEED SUPPORT FIRST: without it sled and board tip off the table, blade running.")
    if way.job.saw.end_of_cut == "draw_back":
        told.insert(0, cut.advice.endings[2].risk)
    return tuple(told)


def before_the_cut(way: SledWay, cut: Cut) -> tuple[Check, ...]:
    """The check list, in the order one walks round the saw; saw unplugged until the dry run is done."""
    say = say_in(way.job.units)
    return (*_saw_checks(way, cut, say), *_work_checks(way, say), *_last_checks(way, cut, say))


def _saw_checks(way: SledWay, cut: Cut, say: Say) -> list[Check]:
    stop = cut.advice.stop
    return [
        Check("Saw", "unplugged; a sharp rip blade, clean; the switch within reach of a knee, or a helper at it."),
        Check("Riving knife", cut.knife.text, cut.knife.top),
        Check(
            "Fence",
            f"to the blade's near face: heel as measured + {say(way.blade.gap)}, {say(way.fence)} by the heel of "
            f"{say(way.sled.heel)}; on the {sides(way.job).fence}.",
            way.fence,
        ),
        Check(
            "Fence parallel",
            f"the same distance to one tooth turned to the blade's front and to its back, "
            f"{say(2 * way.blade.reach(0.0))} apart on the table; never less at the back.",
        ),
        Check(
            "Blade height",
            f"{say(way.blade.height)} above the table: work {say(way.joint.height)} and "
            f"{say(way.job.saw.blade_above_work)}.",
            way.blade.height,
        ),
        Check("Blade square", f"to the table, by a square over its whole {say(way.blade.height)}."),
        Check("Stop block", stop.text, stop.from_front),
    ]


def _work_checks(way: SledWay, say: Say) -> list[Check]:
    heel = min(way.layout.clamps, key=lambda c: c.station)
    loose = max(heel.station - way.job.clamp.pad_width / 2, 0.0)
    low = pad_lower_edge(way.job, way.sled)
    spare = low - deepest_lower_edge(way.job, way.sled)
    deep = f", not the {say(spare)} lower they could go: the blade would come sooner" if spare > 0 else ""
    places = ", ".join(say(c.station) for c in way.layout.clamps)
    return [
        Check("Board's end", "square, and flush with the heel; no loose knot or metal in the taper."),
        Check(
            "Work square",
            f"to the table, by a square over its whole {say(way.joint.height)}, at the heel and at each clamp.",
            way.joint.height,
        ),
        Check(
            "Light",
            f"none between board and work edge on the unclamped {say(loose)} from the heel to its clamp: a gap there "
            "comes out up to twice in the glue line.",
            loose,
        ),
        Check(
            "Clamps",
            f"tight, at {places} from the heel along the work edge; pads' lower edge {say(low)} above the table{deep}; "
            f"outer jaws {say.down(way.job.clamp.jaw_outer)} off the work at most, no screw, bar end or handle past "
            "them towards the blade; only a clamp on the nose past the fence edge.",
            low,
        ),
    ]


def _last_checks(way: SledWay, cut: Cut, say: Say) -> list[Check]:
    need = cut.support
    return [
        Check("Infeed", need.infeed_text, None if need.stand is None else need.stand.best),
        Check("Outfeed", need.outfeed_text, need.past_back),
        Check(
            "Hands",
            f"behind the line {say(way.layout.hand_line)} from the heel, to the end of the cut.",
            way.layout.hand_line,
        ),
        Check(
            "Dry run",
            "saw unplugged: push from the start to the stop block; nothing meets blade, guard or fence, and the sled "
            "lies against the fence and down on the table all the way.",
        ),
    ]


def order_of_work(way: SledWay, cut: Cut) -> tuple[str, ...]:
    """The numbered steps of one cut, for the ending the job asks for."""
    advice = cut.advice
    free = sides(way.job).free
    return (
        "Saw unplugged: set fence, blade height, riving knife, stop block and infeed support; walk through the check "
        "list; push once through dry.",
        "Plug in. Board's end flush with the heel, clamps tight, no light at the heel.",
        advice.start.text,
        "Sled against the fence and down on the table, both hands behind the line; feed steadily, heel first.",
        f"{advice.go_on_text} The offcut falls on the {free} and stays there.",
        _end_step(way),
        "Only when the blade stands: take off the offcut, draw the sled back, loosen the clamps.",
        "Look at the face: no lip at the thick end, no step, no burn. A burnt face does not glue: cut it again.",
    )


def _end_step(way: SledWay) -> str:
    say, travel, ending = say_in(way.job.units), way.travel, way.job.saw.end_of_cut
    if ending == "run_on":
        return (
            f"Push on in one go, taper complete at {say(travel.done)} past the axis, until the blade is clear at "
            f"{say.up(travel.clear)}, where the heel meets the stop block; hold there, switch off, wait until the "
            "blade stands."
        )
    stop = f"Taper complete at {say(travel.done)} past the axis, where the heel meets the stop block: "
    if ending == "draw_back":
        return (
            f"{stop}stop, and draw straight back along the fence until the blade is free of the work, then switch off "
            "and wait until it stands. KICKBACK: if anything is not as it should be, hold and switch off instead."
        )
    return f"{stop}hold the sled down and against it, switch off by knee or helper, and wait until the blade STANDS."
