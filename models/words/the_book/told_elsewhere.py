"""Where the numbers come from that stand only in the sentences of making the sled, of testing and of what follows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from scarfwright.models.bending.use import Bend
from scarfwright.models.craft import Craft
from scarfwright.models.cut.knife_and_guard import BELOW_TOP
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.lengths.say import say_in
from scarfwright.models.sled.dividing import HANDLE_FROM_END, STICK_FROM, Dividing
from scarfwright.models.sled.screws import CLEAR
from scarfwright.models.words.at_the_saw.at_every_cut import push_stick
from scarfwright.models.words.the_book.figure import Figure, Kind, Origin
from scarfwright.models.words.the_book.of_the_glue import gluing_figures
from scarfwright.models.words.the_book.of_the_joint import joint_figures
from scarfwright.models.words.the_book.of_the_sled import dividing_figures, sled_figures
from scarfwright.models.words.the_book.told_at_the_saw import knife_figures, run_down
from scarfwright.models.words.the_joint.bending import bend_rows
from scarfwright.models.words.the_joint.entry import Entry
from scarfwright.models.words.the_sled import dividing as dividing_words
from scarfwright.models.words.the_sled.material import sled_list

CHOSEN = "common practice, no source"
HAVE_AT_HAND: Mapping[str, Origin] = {
    "Plank": Origin("job", "Width and thickness as the job says; length of the sled and a little to square the ends."),
    "Sheet": Origin("job", "Length and heel of the sled, in the sheet that the job names."),
    "Dowels": Origin("job", "Their diameter is the job's; as long as the sled is thick."),
    "Handle": Origin("chosen", f"A hand's size over the holes that the job spaces ({CHOSEN}); bolts half way into it."),
    "Hand stop": Origin("chosen", f"A hand's size ({CHOSEN}); screws bite into the sled and stay under its face."),
    "Stop block": Origin("chosen", f"Long enough for a clamp, at most half as wide as the heel ({CHOSEN})."),
    "Clamps": Origin("formula", "Web, board and, at the nose, the sled's width: what the widest of them closes on."),
}
CARRIER: Mapping[str, Origin] = {
    "Carrier": Origin("formula", f"The half as it lies on it, batten and room at the edges ({CHOSEN}); sheet's size."),
    "Strip": Origin("formula", "As long as the free half, and past its centre of mass: two thirds of the heel or so."),
    "Batten": Origin("chosen", f"As long as the sled; its section is {CHOSEN}, never higher than the plank."),
    "Screws": Origin("chosen", f"They bite into the second piece and stay under its far face ({CHOSEN})."),
    "Handle": Origin("chosen", f"A hand's size ({CHOSEN}); screws half way into it."),
}


def told_of_the_sled(work: Groundwork) -> tuple[Figure, ...]:
    """For the chapter on making the sled."""
    say, cut = drawn_in(work.job.units), work.way.dividing
    found = [*sled_figures(work), *dividing_figures(work), *_of(sled_list(work), HAVE_AT_HAND)]
    if cut is not None:
        found += _of(dividing_words.material(work, cut), CARRIER, "For dividing: {}")
        found += [*_plank(work, say), *_run(work, cut, say), *_rail(work, cut, say)]
    return (*found, *knife_figures(work, say_in(work.job.units)), run_down())


def _told(label: str, value: str, kind: Kind, text: str) -> Figure:
    return Figure("", label, value, Origin(kind, text))


def _of(entries: Iterable[Entry], origins: Mapping[str, Origin], of: str = "{}") -> Iterator[Figure]:
    return (Figure("", of.format(one.label), one.text, origins[one.label]) for one in entries if one.label in origins)


def _plank(work: Groundwork, say: Drawn) -> Iterator[Figure]:
    nominal, saw = work.way.nominal, work.job.saw
    wide = say(float(nominal.plank_width or 0.0))
    yield _told("Plank, width", wide, "yours", "As the job has it: measure yours.")
    told = "The sled's length, as planned."
    yield _told("Plank, squared", say(nominal.length), "chosen", told)
    told = "Half of the plank's width and the rise of the slope, (P + L / N) / 2, to a mark of the rule."
    yield _told("Mark M", say(float(nominal.mark or 0.0)), "formula", told)
    yield _told("Gap to the blade", say(saw.fence_gap), "job", "It keeps the blade off the carrier.")


def _run(work: Groundwork, cut: Dividing, say: Drawn) -> Iterator[Figure]:
    run, saw = cut.run, work.job.saw
    yield _told("Carrier, width", say(cut.carrier_width), "yours", "As planned: measure your carrier.")
    plate = say.fine(cut.fence_to_plate) if say.units == "in" else say(cut.fence_to_plate)
    told = f"The fence, and half of kerf {say.fine(saw.kerf)} less plate {say.fine(saw.plate)}. Measure both."
    yield _told("Fence, to the blade's plate", plate, "formula", told)
    told = "Carrier and plank, and as much over them as over the work at the saw."
    yield _told("Blade, above the table", say.rule_up(cut.blade_height), "formula", told)
    yield _told("Guard, just over", say.rule_up(run.guard_at), "formula", "Carrier and plank together.")
    told = "2 mm or more below the blade's top, EN 1870 series."
    below = say_in(say.units).down(max(cut.blade_height - BELOW_TOP, 0.0))
    yield _told("Riving knife, top at most", below, "source", told)
    told = "Wood from a screw to any edge, notch, hole or kerf."
    yield _told("Screws, clear of edges", say.rule_up(CLEAR), "practice", told)
    for name, far in (("your side", run.infeed), ("the far side", run.outfeed)):
        told = "What of the carrier hangs past the table at that end of its run. Measure your table."
        yield _told(f"Stands on {name}", say.rule_up(far), "formula", told)
    told = "The blade's reach at the table, and room before it."
    yield _told("Carrier at the start", say.rule_up(run.start), "formula", told)
    told = "The blade's reach at the table, and a gap to the finished cut."
    yield _told("Carrier at the end", say.rule_up(run.end), "formula", told)
    told = (
        f"HSE, circular saw bench: the last {say.rule(STICK_FROM)} with a push stick; and the blade's reach, and where "
        f"the handle stands: {say.rule(HANDLE_FROM_END)} from the end."
    )
    yield _told("Push stick from there", say.rule_up(run.stick_from), "source", told)
    told = "HSE, circular saw bench: the last of the cut with a push stick."
    yield _told("No hand nearer than", say.rule_up(STICK_FROM), "source", told)
    yield _told("Push stick, length", push_stick(work.job.units), "source", "HSE, circular saw bench.")


def _rail(work: Groundwork, cut: Dividing, say: Drawn) -> Iterator[Figure]:
    rail, saw = cut.rail, work.job.saw
    told = "Your hand-held saw: measure yours."
    yield _told("Saw's base, edge to blade", say(saw.base_to_blade), "yours", told)
    yield _told("Kerf of the hand-held saw", say(rail.kerf), "yours", told)
    by_label = {entry.label: entry for entry in dividing_words.rail_way(work, cut)}
    told = f"As long as the plank and past both ends, for the saw's base; its width is {CHOSEN}."
    yield _told("Board to guide the saw", by_label["Board"].text, "chosen", told)
    told = f"From the plank's edge to the rail's far edge, up; their length is {CHOSEN}."
    yield _told("Pieces that carry it", by_label["Carried"].text, "formula", told)
    told = f"The plank's thickness and a little below it ({CHOSEN})."
    yield _told("Depth of the hand-held saw", say.rule_up(rail.saw_depth), "formula", told)
    told = "The plank at each end less the hand-held saw's kerf, halved by the line."
    for label, value in (("Heel", rail.heel), ("Nose", rail.nose)):
        yield _told(f"{label} after that saw", say(value), "formula", told)


def told_of_checking(work: Groundwork) -> tuple[Figure, ...]:
    """For the chapter on checking the sled and marking the boards."""
    return (*joint_figures(work), *sled_figures(work))


def told_of_the_test(work: Groundwork, marks: Iterable[tuple[float, float]], sticks: float) -> tuple[Figure, ...]:
    """For the chapter on the test joint. `marks`: distance from the tip and thickness there [mm]; `sticks`: length of
    the winding sticks [mm]."""
    say = say_in(work.job.units)
    found = list(joint_figures(work))
    told = "A fifth and four fifths of the taper or so, on marks of a rule: far apart, and off its ends."
    for number, (at, thick) in enumerate(marks, 1):
        found.append(_told(f"Mark {number}, from the tip", say(at), "chosen", told))
        how = f"The tip, and the distance over the slope: {say(work.joint.tip)} + {say(at)} / {work.joint.ratio:.2f}."
        found.append(_told(f"Thickness at mark {number}", say(thick), "formula", how))
    how = "Any two straight sticks of one length: the form counts with this one."
    return (*found, _told("Winding sticks, length", say(sticks), "chosen", how))


def told_of_gluing(work: Groundwork, craft: Craft) -> tuple[Figure, ...]:
    """For the chapter on gluing."""
    say, joint = drawn_in(work.job.units), work.joint
    plan, thicker = craft.gluing, 1.0 if say.units == "mm" else 25.4 / 32
    clamp, middle = plan.clamp, plan.places.clamps[len(plan.places.clamps) // 2]
    told = "The clamp's jaw below the board, and room for a finger under it (common practice, no source)."
    high = say.rule_up(plan.places.riser_height)
    found = [*joint_figures(work), *gluing_figures(work, craft), _told("Risers", high, "formula", told)]
    found.append(_told("Clamps, throat", say(clamp.throat), "yours", "As the job has it: measure yours."))
    on_edge = say.rule_up(clamp.pad_height + clamp.jaw_outer + 25.0)
    found.append(_told("Blocks, height", on_edge, "formula", f"Pad, jaw and room for a finger ({CHOSEN})."))
    found.append(_told("Battens, length", say(plan.lay.batten), "formula", "The board's height and both clamps' pads."))
    told = f"Stiff enough to spread the pressure between two clamps ({CHOSEN})."
    found.append(_told("Strip under the pads", say(plan.lay.between), "practice", told))
    told = "The middle one of the places that the picture shows."
    found.append(_told("First clamp", say.rule(middle), "formula", told))
    found.append(_told("Thicker by", say(thicker), "chosen", "An example of what callipers show."))
    told = f"That thickness times the slope of {joint.ratio:.2f}."
    return (*found, _told("Slid together by", say(joint.ratio * thicker), "formula", told))


BENT: Mapping[str, Origin] = {
    "Wood": Origin("source", "The wood's table names it; mean of clear wood. Your own figures come first."),
    "Sharpest": Origin("formula", "Of a smooth line through the offsets that the job gives."),
    "Stress there": Origin("formula", "Modulus times half the depth over the radius."),
    "Use": Origin("formula", "That stress times the factor over rupture; in a joint over the joint's share of it. The "
                             "factor is the job's (common practice, no source)."),
    "Least radius": Origin("formula", "At which the use is 100 %."),
    "Joints may stand": Origin("formula", "Where a whole joint stays under 100 %, inwards to marks of a rule."),
}  # fmt: skip
LAMINATED = Origin(
    "formula", "As thin as the radius asks. Radius to thickness: National Design Specification 5.3.8, from memory."
)


def told_of_a_bend(bend: Bend, advice: Iterable[str], work: Groundwork) -> tuple[Figure, ...]:
    """For the rows of one bent member and what is advised."""
    rows = [Figure("", label, text, BENT[label]) for label, text in bend_rows(bend, work.job.units)]
    return (*rows, *(Figure("", "Laminations", text, LAMINATED) for text in advice if "laminations" in text))
