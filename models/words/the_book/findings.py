"""Findings as the book groups them, and the chapter where each matters."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from scarfwright.models.findings import Finding, Level

GROUPS = ("Stops the job", "Left out", "Needs care", "Good to know")
_GRAVEST = ("Stops the job", "Needs care", "Left out", "Good to know")
_CHAPTERS: Mapping[str, str] = {
    "accuracy": "testing",
    "backing": "sled",
    "bending": "bending",
    "blade": "saw",
    "board": "saw",
    "clamp": "sled",
    "dividing": "sled",
    "dowel": "sled",
    "feed": "cut",
    "fence": "saw",
    "gluing": "gluing",
    "guard": "saw",
    "hand_stop": "sled",
    "hands": "cut",
    "handle": "sled",
    "joint": "joint",
    "knife": "saw",
    "label": "checking",
    "margin": "cut",
    "nose": "sled",
    "nose_wedge": "sled",
    "notch": "sled",
    "paper": "files",
    "plan": "wood",
    "plank": "sled",
    "riser": "gluing",
    "riser_lip": "gluing",
    "router": "sled",
    "sled": "sled",
    "split": "sled",
    "stock": "joint",
    "stop": "saw",
    "support": "saw",
    "table": "saw",
    "template": "sled",
    "wood": "bending",
}  # fmt: skip
_CODES: Mapping[str, str] = {
    "blade.not_for_ripping": "cut",
    "joint.finish_too_thick": "planing",
    "joint.tips_stay": "planing",
}
ELSEWHERE = "checking"  # gauges, and what a printer makes of them


def group_of(found: Finding) -> str:
    """One of GROUPS. A fault of an optional part leaves that part out and stops nothing else."""
    if found.level is Level.FAULT:
        return GROUPS[0] if found.stops else GROUPS[1]
    if found.code == "gauges.left_out":
        return GROUPS[1]
    return GROUPS[2] if found.level is Level.CAUTION else GROUPS[3]


def chapter_of(found: Finding) -> str:
    """The key of the chapter where it matters."""
    return _CODES.get(found.code) or _CHAPTERS.get(found.code.partition(".")[0], ELSEWHERE)


def grouped(found: Iterable[Finding]) -> list[tuple[str, list[Finding]]]:
    """By group, worst first, as they come within one; groups without any are left out."""
    sorted_in: dict[str, list[Finding]] = {group: [] for group in GROUPS}
    for one in found:
        sorted_in[group_of(one)].append(one)
    return [(group, those) for group, those in sorted_in.items() if those]


def worst(found: Sequence[Finding]) -> tuple[str, Finding] | None:
    """The finding that a maker must not lose sight of, and its group: a danger goes before a part that is not made."""
    groups = dict(grouped(found))
    return next(((group, groups[group][0]) for group in _GRAVEST if group in groups), None)


def in_short(text: str) -> str:
    """The first sentence, for a line that is always in sight."""
    head, stop, _ = text.partition(". ")
    return head + stop.strip()
