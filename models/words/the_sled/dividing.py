"""What is said about dividing a plank: marking it, the carrier at the table saw, the guide rail, the cautions."""

from __future__ import annotations

from dataclasses import replace

from scarfwright.models.cut.knife_and_guard import BELOW_TOP
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.drawn import Drawn, drawn_in, slope_mark, with_mark
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.sled.dividing import HANDLE, STICK_FROM, Dividing
from scarfwright.models.sled.rail import PAST_END, RAIL_WIDTH, Rail, RailPiece
from scarfwright.models.sled.screws import CLEAR
from scarfwright.models.words.at_the_saw.at_every_cut import DUST, STOPPED, at_every_cut, push_stick
from scarfwright.models.words.sentence import Sentence
from scarfwright.models.words.the_joint.entry import Entry
from scarfwright.models.words.the_sled.material import screws, size


def marking(work: Groundwork) -> tuple[Entry, ...]:
    """From the rough plank to the line, in order."""
    say, nominal = drawn_in(work.job.units), work.way.nominal
    mark = say(float(nominal.mark or 0.0))
    return (
        Entry(
            "1. Joint both edges straight and parallel. Measure the width: these sizes are right for "
            f"{say(float(nominal.plank_width or 0.0))}. If yours differs, put it into the job first and make the "
            "sheets again."
        ),
        Entry(f"2. Cut both ends square, {say(nominal.length)} apart."),
        Entry(
            f"3. Mark M = {mark} from one edge at one end, and from the opposite edge at the other end.", strong=True
        ),
        Entry("4. Join the marks. The middle of the cut runs along this line, and the halves come out equal."),
        Entry("5. Divide it on the carrier or along the guide rail. Cut notches, nose flat and holes only after that."),
    )


def measuring(work: Groundwork) -> tuple[Entry, ...]:
    """Which sizes of the sled as made go back into the job, and when."""
    say, nominal = drawn_in(work.job.units), work.way.nominal
    return (
        Entry(f"{slope_mark(nominal.ratio)}", "Slope", True),
        Entry(say(nominal.heel), "Heel", True),
        Entry(say(nominal.nose), "Nose", True),
        Entry(say(nominal.length), "Length", True),
        Entry(
            "Measure heel, nose and length on the half you will use, as soon as it is cut and trued, before the "
            "notches or after: notches, flat and holes stay where these sheets put them. Put the three into the job "
            "file as the sizes as made: slope, fence and travels then follow your sled."
        ),
    )


def rail_way(work: Groundwork, cut: Dividing) -> tuple[Entry, ...]:
    """The other way to divide it: a hand-held saw along a guide rail."""
    say, rail, saw = drawn_in(work.job.units), cut.rail, work.job.saw
    return (
        Entry(f"{say(rail.offset)} from the line to the rail's edge, square to the line, at both ends", "Rail", True),
        Entry(
            f"{say(saw.base_to_blade)}, base's edge to blade, and half the kerf of {say(rail.kerf)} (measure yours)",
            "That is",
        ),
        Entry(f"straight, {size(say, (rail.length, RAIL_WIDTH), by_rule=True)}, {say.rule(PAST_END)} past each end",
              "Board"),
        Entry(_carried(rail, work, say), "Carried"),
        Entry(
            "Clamp plank, pieces and rail to the bench, clear of the saw, the plank carried on both sides of the cut."
        ),
        Entry(
            f"Blade {say.rule_up(rail.saw_depth)} deep, scrap below it. Guard free to close; saw at full speed before "
            "it touches; hold it until the blade has STOPPED. Halves then: "
            f"heel {say(rail.heel)}, nose {say(rail.nose)}."
        ),
    )  # fmt: skip


def _carried(rail: Rail, work: Groundwork, say: Drawn) -> str:
    if not rail.pieces:
        return "by the plank itself: it lies on the plank at both ends"
    thick = say(work.way.nominal.thickness)
    told = " and ".join(_piece(piece, say) for piece in rail.pieces)
    count = "one piece" if len(rail.pieces) == 1 else "two pieces"
    return f"by {count} {thick} thick like the plank, tight against its edge: {told}"


def _piece(piece: RailPiece, say: Drawn) -> str:
    end = "heel" if piece.start == 0 else "nose"
    return f"{size(say, (piece.end - piece.start, piece.width), by_rule=True)} flush with the {end} end"


def settings(work: Groundwork, cut: Dividing) -> tuple[Entry, ...]:
    """How saw and carrier are set for the cut."""
    say, gap = drawn_in(work.job.units), work.way.blade.gap
    return (
        Entry(f"carrier as measured + {say(gap)}, to a tooth set towards it", "Rip fence", True),
        Entry(
            f"{say(cut.fence)} if the carrier is {say(cut.carrier_width)}. To the plate: "
            f"{say.fine(cut.fence_to_plate) if say.units == 'in' else say(cut.fence_to_plate)}",
            "That is",
        ),
        Entry(f"{say.rule_up(cut.blade_height)} above the table", "Blade", True),
        Entry(f"on, just over {say.rule_up(cut.run.guard_at)}; riving knife fitted", "Guard", True),
        Entry(
            f"against the batten, its line {say(cut.line_beyond)} outside the carrier's blade edge at both ends",
            "Plank",
        ),
    )


def order(work: Groundwork, cut: Dividing) -> tuple[Entry, ...]:
    """The dividing cut, step by step."""
    say, run = drawn_in(work.job.units), cut.run
    stick = f"push stick ({with_mark(push_stick(say.units))} or longer)"
    hand = (
        (
            "Push on the handle, down and against the fence.",
            f"Take the {stick} when the carrier's trailing end is {say.rule_up(run.stick_from)} from the blade's "
            "centre, and push against the handle with it.",
        )
        if cut.handle is not None
        else (
            f"Push with a {stick} against the carrier's trailing end. No hand nearer the blade than "
            f"{say.rule_up(STICK_FROM)}.",
        )
    )
    texts = (
        _supports(say, cut),
        f"Start with the carrier's leading end {say.rule_up(run.start)} short of the blade's centre, blade at full "
        "speed.",
        *hand,
        f"Push until the whole carrier is past the blade: its trailing end {say.rule_up(run.end)} beyond the blade's "
        "centre.",
        "Switch off, stay, and wait until the blade has STOPPED. Only then take the halves off.",
        # its heel went first and it lay between fence and blade: accuracy/halves.py
        "Mark the half that lay on the carrier, and its upper face. Make that one the sled, the same face up: a "
        "tilt of the blade cancels in it and doubles in the free half.",
    )
    return tuple(Entry(f"{i}. {text}") for i, text in enumerate(texts, 1))


def _supports(say: Drawn, cut: Dividing) -> str:
    places = [
        f"{say.rule_up(far)} out from its edge on {side}"
        for far, side in ((cut.run.infeed, "your side"), (cut.run.outfeed, "the far side"))
        if far > 0
    ]
    if not places:
        return "Clear the table: it carries the whole run."
    return f"Set stands level with the table, up to {' and '.join(places)}."


def material(work: Groundwork, cut: Dividing) -> tuple[Entry, ...]:
    """What the carrier is made of."""
    say = drawn_in(work.job.units)
    thick = cut.carrier_thickness
    found = [
        Entry(f"{size(say, (cut.carrier_length, cut.carrier_width, thick))} sheet", "Carrier"),
        Entry(f"{size(say, (cut.free.length, cut.free.width, thick))}, thick as the carrier", "Strip", True),
        Entry(size(say, (work.way.nominal.length, _batten_width(cut), cut.batten_height), by_rule=True), "Batten"),
    ]
    groups = [
        (2 * len(cut.screws), cut.screw, "carrier and strip into the plank"),
        (len(cut.batten_screws), cut.batten_screw, "into the batten"),
    ]
    told = [f"{screws(say, count, long)}, {what}" for count, long, what in groups if count and long is not None]
    found.append(Entry("; ".join(told), "Screws"))
    if cut.batten_screw is None:
        found.append(Entry("glued to the carrier", "Batten"))
    if cut.handle is not None:
        long = thick + HANDLE[2] / 2
        found.append(
            Entry(f"{size(say, HANDLE, by_rule=True)}; 2 screws {say.rule(long)}, from below, heads let in", "Handle")
        )
    return tuple(e for e in found if e.text)


def _batten_width(cut: Dividing) -> float:
    (x0, y0), (x1, y1) = (cut.batten.vertices[i].point for i in (1, 2))
    return float(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)


def screwing(work: Groundwork) -> str:
    """How screws are put in."""
    say = drawn_in(work.job.units)
    return (
        "From below, heads let in: carrier into the first half, strip into the second. "
        f"{say.rule_up(CLEAR)} or more clear of kerf, edges and notches."
    )


def carrier_cautions(work: Groundwork, cut: Dividing) -> tuple[Entry, ...]:
    """For the cut at the table saw."""
    knife = replace(work.cut.knife, top=max(cut.blade_height - BELOW_TOP, 0.0))  # the blade is lower than in the sled
    return _cautions(
        "Never freehand, and never the bare plank along the fence: on the carrier or along a rail, or not at all.",
        "KICKBACK: a half that closes on the blade is thrown back. Stand out of its line.",
        "The free half drops at the end of the cut unless its strip carries it. Screw the strip on first.",
        "Screws outside the kerf and shorter than the plank: look again before the saw is switched on.",
        "Eyes and ears protected; no gloves, no loose sleeves.",
        *at_every_cut(knife, say_in(work.job.units)),
        "No hand over, beside or beyond a turning blade. Unplug the saw for every change.",
    )


def rail_cautions() -> tuple[Entry, ...]:
    """For the cut along the rail, and for any cut in this plank."""
    return _cautions(
        "The riskiest cut of all. Never freehand: on the carrier or along the rail, or not at all.",
        "KICKBACK: support both halves, so that the cut can't close on the blade.",
        "Eyes and ears protected; cable and hands clear of the line, above and below.",
        DUST,
        STOPPED,
        "Unplug the saw for every change of blade or depth.",
    )


def _cautions(*texts: str) -> tuple[Entry, ...]:
    return tuple(Entry(text, strong=number == 0) for number, text in enumerate(texts))


def _no_screws(say: Say, *, thickness_mm: float, screws: float, rail_offset_mm: float) -> str:
    why = (
        f"The plank ({say(thickness_mm)}) is too thin for screws that hold"
        if screws >= 2
        else f"The half of the plank has wood for {'one screw only' if screws else 'no screw'}"
    )
    return (
        f"{why}, so it can't be fixed to the carrier. Divide it along a guide rail, its edge {say(rail_offset_mm)} "
        "from the line."
    )


SENTENCES: dict[str, Sentence] = {"dividing.no_screws": _no_screws}
