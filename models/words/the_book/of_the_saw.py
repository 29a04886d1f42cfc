"""Where the figures that set the saw, and the travels of the cut, come from."""

from __future__ import annotations

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.guesses import guessed
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.sled.blade import START_CLEARANCE
from scarfwright.models.words.at_the_saw.endings import bound
from scarfwright.models.words.at_the_saw.feed import seconds
from scarfwright.models.words.at_the_saw.place import from_centre, in_a_table, limit_in_a_table
from scarfwright.models.words.the_book.figure import Figure, Origin

ASSUMED = {
    "blade_diameter": "blade diameter",
    "kerf": "kerf",
    "plate": "plate",
    "riving_knife": "riving knife",
    "max_depth": "blade's greatest height",
    "table_front": "blade's centre to the table's front edge",
    "table_back": "blade's centre to the table's far edge",
    "fence_front": "blade's centre to the near end of the fence",
    "fence_height": "fence height",
    "base_to_blade": "hand-held saw, base to blade",
    "hand_kerf": "hand-held saw, kerf",
    "opening": "clamps, opening",
    "throat": "clamps, throat",
    "pad_width": "clamps, pad along the board",
    "pad_height": "clamps, pad up and down",
    "jaw_outer": "clamps, jaw on the work",
    "jaw_inner": "clamps, jaw in the notch",
}


def setting_figures(work: Groundwork) -> tuple[Figure, ...]:
    """Fence, blade, knife, start and stop."""
    say = say_in(work.job.units)
    return (*_fence_and_blade(work, say), *_knife_and_guard(work, say), *_start_and_stop(work, say))


def _fence_and_blade(work: Groundwork, say: Say) -> list[Figure]:
    way, saw, setting = work.way, work.job.saw, work.cut.fence
    return [
        Figure(
            "saw.fence_mm",
            "Fence, to a tooth",
            say(way.fence),
            Origin(
                "formula",
                f"The heel, {say(way.sled.heel)}, and the gap of {say(saw.fence_gap)} that keeps the "
                "blade off the sled. "
                "Measure the heel of your sled with callipers: your figure comes first.",
            ),
            main=True,
        ),
        Figure(
            "saw.fence_to_plate_mm",
            "Fence, to the blade's plate",
            say.fine(setting.to_plate) if say.units == "in" else say(setting.to_plate),
            Origin(
                "formula",
                f"The same, and half of what the teeth stand out: half of kerf {say.fine(saw.kerf)} less plate "
                f"{say.fine(saw.plate)}.",
            ),
        ),
        Figure(
            "saw.blade_height_mm",
            "Blade, above the table",
            say(way.blade.height),
            Origin(
                "formula", f"The board's height, {say(work.joint.height)}, and {say(saw.blade_above_work)} above it."
            ),
            main=True,
        ),
        Figure(
            "saw.reach_at_table_mm",
            "Blade's reach at the table",
            say(way.blade.reach(0.0)),
            Origin(
                "formula",
                "From its centre along the table, by Pythagoras from the radius and how far the centre lies below: "
                f"{say(way.blade.radius)} and {say(way.blade.axis_depth)}.",
            ),
        ),
    ]


def _knife_and_guard(work: Groundwork, say: Say) -> list[Figure]:
    knife, guard = work.cut.knife, work.cut.guard
    return [
        Figure(
            "saw.riving.top_at_most_mm",
            "Riving knife, top at most",
            say.down(knife.top),
            Origin("source", "EN 1870 series: 2 mm or more below the blade's top."),
        ),
        Figure(
            "saw.riving.least_mm",
            "Riving knife, thickness",
            f"{say.fine(knife.least)} or more, under {say.fine(knife.most)}",
            Origin("source", "EN 1870 series: 0.2 mm or more over the blade's plate, thinner than the kerf."),
        ),
        Figure(
            "saw.riving.guard_over_mm",
            "Guard must lift over",
            say.up(guard.over),
            Origin("formula", "The higher of board and sled."),
        ),
    ]


def _start_and_stop(work: Groundwork, say: Say) -> list[Figure]:
    saw, advice = work.job.saw, work.cut.advice
    front = f"the table's front edge is {say(saw.table_front)} from the blade's centre: measure yours"
    return [
        Figure(
            "saw.advice.start.heel_from_table_front_mm",
            "Start: heel inside the table's front edge",
            say(advice.start.from_front),
            Origin(
                "formula",
                f"The blade's reach at the table and {say(START_CLEARANCE)} (common practice, no source) short of the "
                f"blade's centre; {front}.",
            ),
        ),
        Figure(
            "saw.advice.stop_block.from_table_front_mm",
            "Stop block, from the table's front edge",
            say(advice.stop.from_front),
            Origin(
                "formula",
                f"Where the heel ends, {from_centre(advice.stop.from_axis, say)}; {front}.",
            ),
            main=True,
        ),
    ]


def travel_figures(work: Groundwork) -> tuple[Figure, ...]:
    """The heel's travel past the blade's centre, station by station."""
    say, way, advice = say_in(work.job.units), work.way, work.cut.advice
    travel, blade, joint = way.travel, way.blade, work.joint
    leaves = f"The blade leaves the board's outer face {say(travel.exit_x)} from the heel"
    found = [
        Figure(
            "saw.travel_offcut_free_mm",
            "Offcut drops at",
            in_a_table(travel.offcut_free, say),
            Origin(
                "formula",
                f"{leaves}; less its reach at the board's top, {say(blade.reach(joint.height))}, and "
                "one kerf along the "
                f"slope, {say(advice.go_on)}.",
            ),
        ),
        Figure(
            "saw.travel_done_mm",
            "Taper complete at",
            in_a_table(travel.done, say),
            Origin("formula", f"{leaves}; less its reach at the board's top, {say(blade.reach(joint.height))}."),
            main=True,
        ),
        Figure(
            "saw.travel_clear_mm",
            "Blade clear of the taper at",
            in_a_table(travel.clear, say),
            Origin(
                "formula",
                f"{leaves}; its reach at the table, {say(blade.reach(0.0))}, and a gap of "
                f"{say(work.job.saw.clear_gap)} "
                "to the finished face.",
            ),
        ),
    ]
    if way.travel_limit is not None and advice.bounds:
        first = advice.bounds[0]
        told = f"There {bound(first, say)} meets the {first.meets}: nearest of all that could."
        found.append(
            Figure(
                "saw.travel_limit_mm",
                "Travel limit",
                limit_in_a_table(way.travel_limit, say),
                Origin("formula", told),
                main=True,
            )
        )
    told = f"One kerf along the slope: {say.fine(blade.kerf)} x {joint.ratio:.2f}."
    found.append(
        Figure("saw.advice.go_on_mm", "Push on after the offcut drops", say.up(advice.go_on), Origin("formula", told))
    )
    if work.cut.feed.time_range is not None:
        told = "From teeth, speed and feed per tooth; the range of feed per tooth is common practice, no source."
        found.append(Figure("saw.feed.time_range_s", "Push in", seconds(work.cut.feed), Origin("practice", told)))
    return tuple(found)


def assumed_sizes(work: Groundwork) -> tuple[str, ...]:
    """Sizes of saw and clamps that are assumed till they are measured, each with what is assumed."""
    say, job = say_in(work.job.units), work.job
    found = []
    for key in guessed(job):
        held = getattr(job.saw, key) if hasattr(job.saw, key) else getattr(job.clamp, key)
        found.append(
            f"{ASSUMED[key]}: {say.fine(held) if key in ('plate', 'kerf', 'riving_knife', 'hand_kerf') else say(held)}"
        )
    return tuple(found)
