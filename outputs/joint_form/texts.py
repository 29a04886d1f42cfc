"""The fields of the form and the words round them, in the job's unit: the figures of the sheet test-joint, by its
letters."""

from __future__ import annotations

from typing import Any

from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.say import Say
from scarfwright.models.tuning.plausible import NO_MARK, ON_TAPER, SPAN
from scarfwright.outputs.test_joint_sheet.texts import HAND, Figure, figures, marks, sticks

TEXTS = {
    "joint": "Test joint {number}",
    "board": "Board {board}",
    "pair": "Both boards put together",
    "add": "Add a test joint",
    "remove": "Remove test joint {number}",
    "clear": "Clear this test joint",
    "back": "Put it back",
    "result": "What the test joint says",
    "empty": "Fill in what you measured, as much as you have; the more, the surer. It stays on this device.",
    "problems": "Nothing is worked out yet. Fields to mend: {count}.",
    "contradicted": "Some readings do not fit the others. Nothing is advised.",
    "to_do": "To correct, in this order: {count}.",
    "more": "Not enough is measured yet to say all.",
    "found": "Found {found}, expected {expected}",
    "missing": "Fill this in too. One tells nothing without the other.",
    "sticks": "a difference smaller than the sticks are long",
    "span": SPAN,
    "no_mark": NO_MARK,
    "on_taper": ON_TAPER,
    "file": "The same as a file for tune",
    "save": "Save this beside the job as joints.toml. Then type: scarfwright tune JOB --measured joints.toml",
    "copy": "Copy",
    "copied": "Copied.",
    "selected": "Marked: copy it with the keys of your machine.",
}
UNSAID = ("", "not noted")
INTRO = (
    "Type what you measured on the test joint, with or without the unit: fractions and decimals both do. Leave out "
    "what you did not measure. The letters are those of the sheet test-joint, which shows where each figure is read."
)
NO_SCRIPT = (
    "This form needs a page that may run its script. Without it, write the figures of the sheet test-joint in a file "
    "joints.toml and type: scarfwright tune JOB --measured joints.toml"
)


def fields(joint: Joint, say: Say) -> dict[str, list[dict[str, Any]]]:
    """Fields of each board and of the pair, in the order of measuring. table: the key in joints.toml."""
    of = {figure.letter: figure for figure in figures(joint, say)}
    near, far = (say(mark) for mark in marks(joint, say))
    end = [UNSAID, ("top", "upper edge"), ("bottom", "lower edge")]
    hand = [UNSAID, ("up", "higher (up)"), ("down", "lower (down)")]
    board = [
        _field(of["A"], "board_thickness"),
        _field(of["B"], "tip"),
        _field(of["C"], "taper_run"),
        _mark(of["D"], "mark-near", near),
        _mark(of["E"], "mark-far", far),
        _field(
            of["F"], "line_skew", parts=[_part("value", "Out by"), _part("nearer", "End nearer the tip", choices=end)]
        ),
    ]
    turn = [
        _part("difference", "Ends differ by"),
        _part("length", "Length of the sticks", value=say(sticks(say))),
        _part("hand", "Far stick, on the other side", choices=hand),
    ]
    pair = [
        _field(of["G"], "gap_top"),
        _field(of["H"], "gap_bottom"),
        _field(of["I"], "twist", parts=turn, more=HAND[3].upper() + HAND[4:]),
        _field(of["J"], "tip_to_tip"),
        _field(of["K"], "joint_thickness"),
    ]
    return {"board": board, "pair": pair}


def _mark(figure: Figure, key: str, at: str) -> dict[str, Any]:
    parts = [
        _part("at", "From the tip", value=at),
        _part("thickness", "Halfway up"),
        _part("top", "Upper edge"),
        _part("bottom", "Lower edge"),
    ]
    return {**_field(figure, "thickness_at", parts=parts), "key": key, "label": "Thickness at a mark"}


def _field(figure: Figure, key: str, *, parts: list[dict[str, Any]] | None = None, more: str = "") -> dict[str, Any]:
    planned = "" if figure.planned == "0" else f" Planned: {figure.planned}."
    return {
        "key": key,
        "table": key,
        "letter": figure.letter,
        "label": figure.name,
        "help": f"{figure.how}{planned}{' ' if more else ''}{more}",
        "parts": parts or [_part("value", figure.name)],
    }


def _part(name: str, label: str, **more: Any) -> dict[str, Any]:
    """value: what stands there to begin with; choices: (value, text) each."""
    return {"name": name, "label": label, **more}
