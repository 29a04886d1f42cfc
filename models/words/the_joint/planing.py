"""Planing and choosing boards in words."""

from __future__ import annotations

from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.planing.boards import MOISTURE, BoardNeeds
from scarfwright.models.planing.planing import Planing
from scarfwright.models.strength.grain import MOST_RUN_OUT
from scarfwright.models.words.the_joint.figures import percent


def planing_rows(joint: Joint, plane: Planing, units: Unit) -> list[tuple[str, str]]:
    """Label and figure: how much a face, and the joint after it."""
    say = drawn_in(units)
    return [
        ("Off each face", f"{say(plane.each)}, alike, at least the tip's {say.up(joint.tip)}"),
        ("Thickness", f"from {say(joint.thickness)} to {say(plane.thickness)}"),
        ("Glue line", f"{say(plane.run)} from face to face, the slope unchanged"),
        ("Upper feather", f"{say(plane.upper_feather)} from the first tip"),
        ("Lower feather", f"{say(plane.lower_feather)} from the first tip"),
        ("Stiffness", f"{percent(plane.stiffness)} of the unplaned stick's: it goes with the cube of the thickness"),
    ]


def planing_steps(plane: Planing, units: Unit) -> list[str]:
    """How to plane over a scarf."""
    say = drawn_in(units)
    return [
        "Wait until the glue is hard through. Scrape off what squeezed out first: it takes the edge off a blade.",
        "By hand: on each face plane towards the tip that shows there, so that the blade runs off the feather. The "
        "arrows "
        "show it; the two faces go opposite ways.",
        "By thickness planer: its knives cut against the feed. Feed each face so that the tip's point trails.",
        f"Take the same off both faces, {say(plane.each)} each, turning the stick over after every pass or two: all "
        "from one "
        "face moves the feather lines and may leave a tip.",
        "Stop when both grooves beside the tips are gone and both glue lines are one clean line.",
    ]


PLANER_CAUTION = (
    "Planers pull and kick: the shortest piece your machine's manual allows counts; stand aside, no gloves, hearing "
    "and "
    "eyes protected, dust drawn off."
)


def moisture_source(needs: BoardNeeds) -> str:
    """Where the range of moisture comes from."""
    return "FAA-H-8083-31" if needs.moisture == MOISTURE else "the job's kind of glue"


def board_words(joint: Joint, needs: BoardNeeds, units: Unit) -> list[str]:
    """What to look for when choosing boards, one a line."""
    say = drawn_in(units)
    low, high = needs.moisture
    return [
        f"Grain: runs out at most {say.rule_down(needs.run_out)} in {say(needs.run_out_length)} (1 in "
        f"{MOST_RUN_OUT:.0f}, FAA "
        "AC 43.13-1B); "
        f"even that leaves {percent(needs.grain_share)} of the strength (Hankinson). Look at edge and face; splits and "
        "pores tell better than the stripes of the year rings.",
        "Taper so that the grain runs out the same way as the taper: then the tip's fibres are long, and the plane "
        "runs off "
        "the feather with the grain.",
        f"No knot, shake or pith in the last {say.rule_up(needs.clear)} of an end to be tapered (taper "
        f"{say.rule(joint.taper_run)} and "
        "a thickness beyond).",
        f"Moisture {low:g} to {high:g} % (from {moisture_source(needs)}), mates within {needs.alike:g} % of each other "
        "(common "
        "practice, no source): store them together for two weeks.",
        "Straight and square before the cut: the face that lies on the sled is jointed flat, edges square to it, "
        "both boards "
        "planed to one thickness in one setting.",
        "Mates alike: same species, like weight, rings lying alike, so that they move together.",
    ]
