"""Where the numbers come from that stand only in the sentences of setting the saw and of the cut."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.cut.balance import TAKES_OFF
from scarfwright.models.cut.endings import Ending
from scarfwright.models.cut.feed import THIN_KERF
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import round_to
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.sled.layout import pad_lower_edge
from scarfwright.models.words.at_the_saw import endings
from scarfwright.models.words.at_the_saw.at_every_cut import push_stick
from scarfwright.models.words.at_the_saw.feed import hand_speed, rim_words
from scarfwright.models.words.at_the_saw.knife_and_guard import NEAR, knife_gap
from scarfwright.models.words.the_book.figure import Figure, Kind, Origin
from scarfwright.models.words.the_book.of_the_joint import joint_figures
from scarfwright.models.words.the_book.of_the_saw import setting_figures, travel_figures
from scarfwright.models.words.the_book.of_the_sled import sled_figures

OF_CHECK = {  # how the labels begin of what a check of the walk may tell; the others may tell any
    "Riving knife": ("Riving knife", "Your riving knife", "Kerf"),
    "Guard": ("Guard",),
    "Fence": ("Fence, to", "Heel", "Gap"),
    "Fence parallel": ("From the tooth",),
    "Blade height": ("Blade", "Board, height"),
    "Stop block": ("Stop block", "Heel", "Cleat"),
    "Board upright": ("Board, height",),
    "Board tight": ("Unclamped",),
    "Feather": ("Unclamped",),
    "Clamps": ("Heel clamp", "Nose clamp", "Further clamp", "Pads", "Outer jaw", "Clamp's bar", "Fence, height"),
    "Infeed": ("Infeed", "Board's length", "Balance"),
    "Outfeed": ("Heel past", "Table"),
    "Hands": ("Hand line",),
    "Push stick": ("Push stick",),
}


def told_of_the_saw(work: Groundwork) -> tuple[Figure, ...]:
    """For the chapter on setting the saw."""
    say = say_in(work.job.units)
    own = (*_fence_and_knife(work, say), *_clamps(work, say), *_supports(work, say), _stick(work))
    return (*setting_figures(work), *joint_figures(work), *sled_figures(work), *own)


def told_of_the_cut(work: Groundwork) -> tuple[Figure, ...]:
    """For the chapter on the cut."""
    say = say_in(work.job.units)
    own = (*_ends(work, say), *_offcut(work, say), *_feed(work, say), _stick(work))
    return (*travel_figures(work), *setting_figures(work), *sled_figures(work), *own)


def _told(label: str, value: str, kind: Kind, text: str) -> Figure:
    return Figure("", label, value, Origin(kind, text))


def _stick(work: Groundwork) -> Figure:
    text = "HSE, circular saw bench."
    return _told("Push stick", push_stick(work.job.units), "source", text)


def run_down() -> Figure:
    """How long a blade runs down."""
    return _told("Run-down with a brake", "10 s", "source", "HSE WIS38. Time yours: without a brake it is longer.")


def knife_figures(work: Groundwork, say: Say) -> tuple[Figure, ...]:
    """The riving knife as it stands in a sentence."""
    saw = work.job.saw
    return (
        _told("Your riving knife, thickness", say.fine(saw.riving_knife), "yours", "As the job has it: measure yours."),
        _told("Kerf", say.fine(saw.kerf), "yours", "As the job has it: measure yours across the teeth."),
        _told(
            "Riving knife, at least", say.fine(work.cut.knife.least), "source", "The plate and 0.2 mm (EN 1870 series)."
        ),
        _told("Riving knife, from the teeth", knife_gap(say), "source", "EN 1870 series."),
    )


def _fence_and_knife(work: Groundwork, say: Say) -> Iterator[Figure]:
    saw, setting, hood, stop = work.job.saw, work.cut.fence, work.cut.guard, work.cut.advice.stop
    yield from knife_figures(work, say)
    yield _told(
        "Gap between heel and blade", say(setting.gap), "job", "It keeps the blade off the sled; it is the tip's too."
    )
    yield _told(
        "Heel to the blade's plate",
        say.fine(setting.plate_gap),
        "formula",
        f"The gap, and half of kerf {say.fine(saw.kerf)} less plate {say.fine(saw.plate)}. Measure both.",
    )
    yield _told(
        "From the tooth at the front to the back",
        say(setting.tooth_turn),
        "formula",
        f"Twice the blade's reach at the table, {say(work.way.blade.reach(0.0))}.",
    )
    yield _told(
        "Blade above the board",
        say(saw.blade_above_work),
        "job",
        "So that the gullets clear the wood (common practice, no source).",
    )
    if hood.free_ahead is not None:
        told = "From the blade's centre to the nearest clamp when the cut has ended."
        yield _told("Guard's reach towards you, at most", say.down(hood.free_ahead), "formula", told)
    told = "California Code of Regulations, title 8, section 4300.1, and WAC 296-806-48012: 1/4 in."
    yield _told("Guard over the work, at most", NEAR[work.job.units], "source", told)
    yield _end_of_cut(work, say)
    if stop.cleat is not None:
        told = "As far from the heel as the block stands from the table's front edge: both stop the sled there."
        yield _told("Cleat, from the heel", say(stop.cleat), "formula", told)
    if stop.past_table > 0:
        told = f"The end of the cut less the table beyond the blade's centre, {say(saw.table_back)}: measure yours."
        yield _told("Stop block past the table", say.up(stop.past_table), "formula", told)


def _end_of_cut(work: Groundwork, say: Say) -> Figure:
    stop = work.cut.advice.stop
    how = {"run_on": "the blade is clear of the taper"}.get(work.job.saw.end_of_cut, "the taper is complete")
    told = f"The travel at which {how}, up to a mark of the rule."
    return _told("Heel beyond the blade's centre at the end", say(stop.from_axis), "formula", told)


def _clamps(work: Groundwork, say: Say) -> Iterator[Figure]:
    clamp, way, job = work.job.clamp, work.way, work.job
    first = min(way.layout.clamps, key=lambda one: one.station)
    loose = max(first.station - clamp.pad_width / 2, 0.0)
    told = f"The clamp's place, {say(first.station)}, less half its pad of {say(clamp.pad_width)}: measure yours."
    yield _told("Unclamped at the heel", say(loose), "formula", told)
    low = pad_lower_edge(job, way.sled)
    told = f"The lower of board and sled, less the pad, {say(clamp.pad_height)} high: it bears wholly. Measure yours."
    yield _told("Pads, lower edge", say(low), "formula", told)
    yield _told("Outer jaw, off the board", say.down(clamp.jaw_outer), "yours", "As the job has it: measure yours.")
    told = f"The pads' lower edge and the clamp's throat, {say(clamp.throat)}: measure yours."
    at, high = say.apart(low + clamp.throat, job.saw.fence_height)
    yield _told("Clamp's bar, above the table", at, "formula", told)
    yield _told("Fence, height", high, "yours", "As the job has it: measure yours.")


def _supports(work: Groundwork, say: Say) -> Iterator[Figure]:
    need, saw = work.cut.support, work.job.saw
    start, step = need.balances[0], fine_step(say.units)
    told = "The job gives no length, so a common one is taken." if need.assumed else "The longest board of the job."
    yield _told("Board's length", say(need.board_length), "yours" if need.assumed else "job", told)
    told = "Moments of sled and board about the table's front edge, both of one density, clamps left out."
    out = say(round_to(abs(start.over_front), step))
    yield _told("Balance, from the table's front edge", out, "formula", told)
    if need.stand is not None:
        stand = need.stand
        told = (
            "Nearest: beyond where sled and board balance at the start, and beyond the far hand. Furthest: still under "
            "the board when the table alone carries it. Best: half way."
        )
        for label, far in (("nearest", stand.nearest), ("furthest", stand.furthest), ("best", stand.best)):
            yield _told(f"Infeed support, {label}", say(far), "formula", told)
        told = "Where the board runs over the best place, from the start until the table carries it."
        across = [say(abs(round_to(one, step))) for one in stand.across]
        yield _told("Infeed support, across", " and ".join(across), "formula", told)
    if need.past_back > 0:
        told = f"The end of the cut less the table beyond the blade's centre, {say(saw.table_back)}: measure yours."
        yield _told("Heel past the table's far edge", say.up(need.past_back), "formula", told)
    wide = f"{TAKES_OFF:.0f} mm" if say.units == "mm" else "4 ft"
    yield _told("Table where somebody takes off", wide, "source", "HSE, circular saw bench.")


def _ends(work: Groundwork, say: Say) -> Iterator[Figure]:
    start, margin = work.cut.advice.start, work.job.saw.travel_margin
    yield _end_of_cut(work, say)
    told = f"The table's front edge to the blade's centre, {say(work.job.saw.table_front)} (measure yours), less that."
    yield _told("Start: heel short of the blade's centre", say(start.from_axis), "formula", told)
    for one in work.cut.advice.endings:
        yield from _ending(one, say(margin), say)
    for each in work.cut.advice.bounds:
        who = endings.bound(each, say)
        told = f"Where {who} meets the {each.meets}, by the sled's and the clamp's sizes: measure yours."
        value = say.up(-each.travel) if each.travel <= 0 else say.down(each.travel)
        yield _told(f"Travel at which {who} meets the {each.meets}", value, "formula", told)


def _ending(one: Ending, margin: str, say: Say) -> Iterator[Figure]:
    name = endings.NAMES[one.name]
    yield _told(f"To {name}: the cut is over at", say(one.travel), "formula", "The travel of this way to end the cut.")
    yield _told(f"To {name}: free travel", say.up(one.needed), "formula", f"Its travel and the margin of {margin}.")
    told = "The least place at which the heel clamp stays clear of the blade by the margin, up to a mark."
    yield _told(f"To {name}: heel notch", say.up(one.least_station), "formula", told)
    told = "Of a sled on which that notch, the nose clamp and the hands have room."
    yield _told(f"To {name}: sled, length", say.up(one.least_length), "formula", told)
    if one.first is not None and one.possible:
        told = "What is left of the travel from the end of the cut until the first clamp or the board is in the way."
        yield _told(f"To {name}: to spare", say.down(one.first.travel - one.travel), "formula", told)


def _offcut(work: Groundwork, say: Say) -> Iterator[Figure]:
    advice, joint = work.cut.advice, work.joint
    piece, kerf = advice.offcut, say.fine(work.way.blade.kerf)
    told = f"One kerf, as wide as the teeth: {kerf}. Measure yours."
    yield _told("Lip, thickness", say(advice.lip), "formula", told)
    if piece.thick > 0:
        told = f"What the kerf of {kerf} leaves of the board of {say(joint.thickness)}, and that times the slope."
        yield _told("Offcut, thickness", say(piece.thick), "formula", told)
        yield _told("Offcut, length", say(piece.length), "formula", told)


def _feed(work: Groundwork, say: Say) -> Iterator[Figure]:
    one, saw = work.cut.feed, work.job.saw
    if one.rim_speed is not None:
        told = f"Pi times the blade's diameter, {say(saw.blade_diameter)}, times {saw.rpm or 0:g} turns a minute."
        yield _told("Speed of the teeth", rim_words(one.rim_speed, say), "formula", told)
    told = "The travel to taper complete and the blade's reach at the table."
    yield _told("Path from first touch", say(one.path), "formula", told)
    for end, value in zip(("least", "most"), one.tooth_range, strict=True):
        told = "Range of feed per tooth: common practice, no source."
        yield _told(f"Each tooth cuts, {end}", say.fine(value), "practice" if one.usual_range else "job", told)
    yield _told("Push no faster than", hand_speed(say), "practice", "So that a hand can still stop.")
    told = "Feed over teeth and turns."
    if one.tooth_feed is not None and one.time is not None:
        yield _told("Your time", f"{one.time:g} s", "job", "As the job says.")
        yield _told("Each tooth then cuts", say.fine(one.tooth_feed), "formula", told)
    yield _told("Kerf of your blade", say.fine(one.kerf), "yours", "As the job has it: measure yours across the teeth.")
    yield _told("Thin kerf", say.fine(THIN_KERF), "practice", "Middle of the usual thin kerfs.")
    yield _told(
        "Less wood", f"{100 * (1 - THIN_KERF / one.kerf):.0f} %", "formula", "By which it is thinner than yours."
    )
