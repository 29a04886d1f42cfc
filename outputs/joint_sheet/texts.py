"""The words of the joint's sheets, in the job's unit. The figures come in; nothing is worked out here."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.pair.turns import Cut, Face
from scarfwright.outputs.drawing.panels import Row

TALL = 4  # how many times too steep the second picture is drawn


def tale(ratio: float) -> str:
    """ "12:1", a slope as it is written everywhere."""
    return f"{ratio:.2f}".rstrip("0").rstrip(".") + ":1"


def closing_rows(
    say: Say, overlap: float, tip: float, groove: float, planed: float | None, most: float, slide: float
) -> list[Row]:
    """How to bring the two boards together."""
    finish = (
        f"Plane to {say.down(most)} or less, alike from both faces: that takes the grooves away."
        if planed is None
        else f"Plane to {say(planed)}, alike from both faces. {say.down(most)} or less takes the grooves away."
    )
    return [
        Row("Both boards are cut alike. One lies in the stick as the other does turned half round about the upright."),
        Row(f"Each board has its overlap mark {say(overlap)} from its own tip. The mate's tip must lie there."),
        Row("Lay both dry on something flat, marks met, faces flush. Strike two witness marks across both boards."),
        Row("After the glue is on, the witness marks tell whether a board slid. Thickness does not."),
        Row(
            f"Slid together they still close, and the joint is thicker: at most {say.down(slide)}. Slid apart and held "
            "flush, the glue line opens: never apart."
        ),
        Row(f"Tips are {say(tip)} thick. Past each tip the mate falls away over {say(groove)}: a groove as deep."),
        Row(finish),
    ]


def marking_rows(near_face: Face, say: Say, overlap: float, run: float) -> list[Row]:
    """What to pencil on the boards, in order."""
    far_face = "back" if near_face == "front" else "front"
    return [
        Row("Lay the boards out as the stick will be: best face to you (the front), ends in order.", "1"),
        Row("Number each board on its front. Draw an arrow on it to the right.", "2"),
        Row("Draw a line along every lower edge: the marked edge. It is down for every cut.", "3"),
        Row(f"Right ends: write SLED on the {near_face}. Left ends: write SLED on the {far_face}.", "4"),
        Row(
            f"On the face opposite, square a line {say(overlap)} from the end (overlap), and one at {say(run)} "
            "(where the taper ends). Carry the overlap line round both edges.",
            "5",
        ),
        Row("At the saw: the end leads, SLED against the sled, marked edge on the table.", "6", True),
    ]


def turn_rows() -> list[tuple[str, str]]:
    """Headings and what comes of it, for the pictures of right and wrong turns."""
    return [
        ("Right: turned half round about the upright", "Tips on opposite faces. The joint closes."),
        (
            "Wrong: rolled over, both tips on one face",
            "Only the tips meet. Roll it back: marked edge down.",
        ),
        ("Wrong: turned end for end", "A square end is there. Turn it back, or taper that end."),
    ]


def saw_words(cut: Cut) -> list[str]:
    """What lies where for one cut."""
    down = "marked edge down" if cut.edge_down == "marked" else "marked edge up"
    return [f"{cut.end.capitalize()} end leads", f"{cut.sled_face} on the sled, {down}"]


LEAN_NOTE = (
    "A lean of the cut is no wrong turn: every joint from one set-up twists the same way, however the boards lie. "
    "Cut a test joint and measure it (sheet test-joint)."
)
