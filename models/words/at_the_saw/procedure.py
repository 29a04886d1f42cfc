"""Before the cut and during it: cautions, the check list and the order of work, with this job's numbers.

Common practice, no source, where no other is named; the saw maker's manual, local rules and competent instruction
come first.
"""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.cut.sides import sides
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.sled.layout import deepest_lower_edge, pad_lower_edge
from scarfwright.models.words.at_the_saw import at_every_cut, endings, feed, fence, knife_and_guard, support
from scarfwright.models.words.at_the_saw.place import from_centre

FIRST = "The saw maker's manual, local rules and competent instruction come first."

FEATHER = (
    "Loose over the {loose} from the heel to the first clamp: hold it there with thin double-sided tape, the same tape "
    "at the nose end too (common practice, no source). Never by hand."
)


@dataclass(frozen=True)
class Check:
    """One thing to look at before the cut: what, how it must be, and the figure it turns on [mm] if there is one."""

    what: str
    text: str
    value: float | None = None


def cautions(work: Groundwork) -> tuple[str, ...]:
    """What stands at the top of everything pinned up at the saw, worst first."""
    say, free = say_in(work.job.units), sides(work.job).free
    told = [
        FIRST,
        "Protect eyes, ears and lungs. No gloves, loose sleeves or loose hair near a turning blade.",
        f"HANDS: keep both on your side of the line {say(work.way.layout.hand_line)} from the heel. Never reach over "
        "or "
        "past a turning blade.",
        f"KICKBACK throws the work at you: stand on the {free}, the free side, out of the line of the blade, nobody "
        "else "
        "in it. Never lift, twist or let go of the sled in the cut.",
        f"Switch off and wait until the blade has STOPPED before you reach for anything, the offcut on the {free} "
        "above "
        "all.",
        "Unplug the saw to change or set blade, riving knife, guard or stop block.",
    ]
    if work.cut.support.stand is not None:
        told.insert(0, "INFEED SUPPORT FIRST. Without it sled and board tip off the table while the blade is running.")
    if work.job.saw.end_of_cut == "draw_back":
        told.insert(0, endings.RISKS["draw_back"])
    return tuple(told)


def before_the_cut(work: Groundwork) -> tuple[Check, ...]:
    """The check list, in the order one walks round the saw; saw unplugged until the dry run is done."""
    say = say_in(work.job.units)
    return (*_saw_checks(work, say), *_work_checks(work, say), *_last_checks(work, say))


def _saw_checks(work: Groundwork, say: Say) -> list[Check]:
    stop, setting, blade = work.cut.advice.stop, work.cut.fence, work.way.blade
    return [
        Check(
            "Saw",
            "Unplug it. Sharp, clean rip blade without cracks. Switch within reach of your knee from where you stand, "
            "or "
            "a helper who touches only the switch.",
        ),
        Check("Insert", "Fit a zero-clearance insert (throat plate): the offcut must not drop beside the blade."),
        Check("Riving knife", knife_and_guard.knife(work.cut.knife, say), work.cut.knife.top),
        Check("Guard", knife_and_guard.guard(work.cut.guard, say), work.cut.guard.over),
        Check("Dust", at_every_cut.DUST),
        Check("Fence", fence.fence(setting, say), setting.to_tooth),
        Check("Fence parallel", fence.parallel(setting, say), setting.tooth_turn),
        Check(
            "Blade height",
            f"Raise it {say(blade.height)} above the table: the board's {say(work.joint.height)} and "
            f"{say(work.job.saw.blade_above_work)}.",
            blade.height,
        ),
        Check("Blade square", "Set it at 90 degrees to the table: try square against the plate, full height."),
        Check("Stop block", endings.stop_block(stop, work.way.sled.heel, say), stop.from_front),
    ]


def _work_checks(work: Groundwork, say: Say) -> list[Check]:
    heel = min(work.way.layout.clamps, key=lambda c: c.station)
    loose = max(heel.station - work.job.clamp.pad_width / 2, 0.0)
    low = pad_lower_edge(work.job, work.way.sled)
    deep = (
        " Do not push a clamp down until it bottoms: the blade would reach it sooner."
        if low > deepest_lower_edge(work.job, work.way.sled)
        else ""
    )
    places = ", ".join(say(c.station) for c in work.way.layout.clamps)
    return [
        Check("Board", "End square and flush with the heel; no loose knot and no metal in the taper."),
        Check(
            "Board upright",
            f"Try square from the table, full {say(work.joint.height)}, at the heel and at each clamp.",
            work.joint.height,
        ),
        Check(
            "Board tight",
            f"Look for light between board and work edge along the {say(loose)} from the heel to the first clamp. Any "
            "gap "
            "there doubles in the glue line.",
            loose,
        ),
        Check("Feather", FEATHER.format(loose=say(loose))),
        Check(
            "Clamps",
            f"Look at each before every cut: tight, at {places} from the heel along the work edge. Set the lower edge "
            "of "
            f"each pad {say(low)} above the table.{deep} Outer jaws {say.down(work.job.clamp.jaw_outer)} off the "
            "board at most; no screw, bar end or handle past them towards the blade. In a notch: only clamps "
            "slim on both sides, a screw on neither. Only the nose clamp stands past the fence edge. "
            f"{_bar(work, say)}",
            low,
        ),
    ]


def _bar(work: Groundwork, say: Say) -> str:
    """What a clamp's bar needs that reaches past the fence edge, with the pads set as they are told."""
    lower = pad_lower_edge(work.job, work.way.sled) + work.job.clamp.throat
    at, fence_high = say.apart(lower, work.job.saw.fence_height)
    if lower > work.job.saw.fence_height:
        return f"A bar past the fence edge must pass over the fence ({fence_high}): it is {at} up."
    return f"No bar past the fence edge: {at} up, it would meet the fence ({fence_high})."


def _last_checks(work: Groundwork, say: Say) -> list[Check]:
    need, hand = work.cut.support, work.way.layout.hand_line
    return [
        Check("Infeed", support.infeed(need, say), None if need.stand is None else need.stand.best),
        Check("Outfeed", support.outfeed(need, say), need.past_back),
        Check("Hands", f"Keep both on your side of the line {say(hand)} from the heel, to the end of the cut.", hand),
        Check(
            "Push stick", f"Lay one {at_every_cut.push_stick(work.job.units)} or longer within reach, for the offcut."
        ),
        Check(
            "Dry run",
            "Saw unplugged, push from the start to the stop block. Nothing meets blade, guard or fence, and the sled "
            "lies "
            "against the fence and down on the table all the way.",
        ),
    ]


def order_of_work(work: Groundwork) -> tuple[str, ...]:
    """The numbered steps of one cut, for the ending the job asks for."""
    say, advice = say_in(work.job.units), work.cut.advice
    free = sides(work.job).free
    return (
        "Unplug the saw. Set riving knife, fence, blade height, stop block and supports by the check list.",
        "Cut a test joint first, in scrap of the same thickness and height.",
        "Stand the board on the sled, the end to be tapered flush with the heel. The face that lies on the sled keeps "
        "the "
        "feather end: pick it so that the grain runs out along the cut, not across it. Both boards the same edge down.",
        "Close the clamps. Look for light at the heel. Push once through dry. Tighten every clamp again.",
        f"Plug in. Stand on the {free}, beside the line of the blade, with knee or helper at the switch.",
        endings.start(advice.start, say),
        f"Press the sled against the fence and down on the table, both hands on your side of the line. Feed steadily, "
        f"heel first{_time(work)}.",
        f"{endings.go_on(advice, say)} The offcut falls on the {free}: leave it there.",
        _end_step(work, say),
        f"Stay, both hands on the sled, until the blade has stopped; never let go. {at_every_cut.RUN_DOWN}",
        f"Now take the offcut off with a push stick {at_every_cut.push_stick(work.job.units)} or longer. Draw the sled "
        "back. "
        "Loosen the clamps.",
        "Look at the face: no lip at the thick end, no step, no burn. A burnt face does not glue: cut it again.",
    )


def _time(work: Groundwork) -> str:
    return "" if work.cut.feed.time_range is None else f", {feed.seconds(work.cut.feed)} to the end of the taper"


def _end_step(work: Groundwork, say: Say) -> str:
    at, ending = work.cut.advice.stop.from_axis, work.job.saw.end_of_cut
    if ending == "run_on":
        return (
            f"Push on in one go until the heel meets the stop block, {from_centre(at, say)}: the blade is "
            "clear of the taper. Hold there, switch off, and wait until the blade has STOPPED."
        )
    stop = f"Stop at the stop block, {from_centre(at, say)}: the taper is complete."
    if ending == "draw_back":
        return (
            f"{stop} Draw straight back along the fence until the blade is free of the work, then switch off and wait "
            "until it has STOPPED. KICKBACK: if anything is not as it should be, hold and switch off instead."
        )
    return (
        f"{stop} Hold the sled down and against it, switch off by knee or helper, and wait until the blade has STOPPED."
    )
