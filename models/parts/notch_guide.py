"""The notch guide: hooks over the work edge and guides the drill for both end holes of a notch.

   ______ v ______   far edge, with a nick at the notch's middle
  |  (o)      (o)  | hole centres `web` + half the notch's width from the work edge
  |     window     | through which the station line on the sled shows
  |________________| y = 0: against the work edge
  |______hook______| stands up in print, hangs down over the work edge in use

A hole out by `tolerance` and a drill with half of `PLAY` to every side: ± 2 sqrt((tolerance^2 + (PLAY / 2)^2) / 3).
The clamp's jaw wants half of what the notch is wider than it.
"""

from __future__ import annotations

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import Point, circle, polygon, rectangle, slot
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part import label as labels
from scarfwright.models.part.part import Feature, Operation, Part, Place, Raised
from scarfwright.models.part.reading import RULE, expanded
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind

PLAY = 0.2  # of the drill in its hole [mm]
BORDER, WALL = 10.0, 3.0
WINDOW, NICK = 5.0, 3.0
LABEL_HEIGHT = 7.0


def notch_guide(
    web: float = 25.0,
    notch_length: float = 50.0,
    notch_width: float = 16.0,
    drill: float = 4.0,
    thickness: float = 10.0,
    hook: float = 5.0,
    drop: float = 12.0,
    compensation: float = 0.2,
    label: str = "",
) -> Part:
    """Build the guide, lying on the face that is up in use, its hook standing up.

    web: wood between notch and work edge [mm]
    notch_length, notch_width: of the notch, over all [mm]
    drill: of the pilot holes for the notch's end holes, diameter [mm]
    thickness: of the plate [mm]
    hook, drop: thickness of the hook and how far it reaches down the work edge [mm]
    compensation: what printed holes come out narrower by, added to the drill's [mm]
    label: text cut into the plate
    """
    length, depth = notch_length + 2 * BORDER, web + notch_width + BORDER
    middle, hole = length / 2, drill + compensation
    holes = [
        Feature(Operation.DRILL, circle(x, web + notch_width / 2, hole / 2), "drill guide")
        for x in _centres(notch_length, notch_width, hole, middle)
    ]
    part = Part(
        name="notch_guide",
        title="Notch guide",
        outline=polygon(_outline(length, depth, hook, middle)),
        thickness=thickness,
        features=(*holes, *_window(web, notch_width, hole, middle)),
        raised=(Raised(rectangle(0.0, -hook, length, hook), thickness, thickness + drop, "hook"),),
        colour="#a88fb0",
        use="Clamped on with its hook against the work edge, nick and window over the notch's station line: drill both "
        f"pilot holes, then bore them out to {notch_width:g} mm and saw between.",
    )
    return labels.engraved(part, label, _place(notch_length, web, notch_width, drill))


def _outline(length: float, depth: float, hook: float, middle: float) -> list[Point]:
    nick: list[Point] = [(middle + NICK, depth), (middle, depth - NICK), (middle - NICK, depth)]
    return [(0.0, -hook), (length, -hook), (length, depth), *nick, (0.0, depth)]


def _centres(notch_length: float, notch_width: float, hole: float, middle: float) -> list[float]:
    """Both ends of the notch, or its middle where they lie too near each other for two guides."""
    half = (notch_length - notch_width) / 2
    return [middle - half, middle + half] if 2 * half >= hole + WALL else [middle]


def _window(web: float, notch_width: float, hole: float, middle: float) -> list[Feature]:
    """A slot over the station line, between the label and the line of the holes; none where there is no room."""
    low = 2.0 + LABEL_HEIGHT + 2.0 + WINDOW / 2
    high = web + notch_width / 2 - hole / 2 - WALL - WINDOW / 2
    if high <= low:
        return []
    return [Feature(Operation.CUT_INSIDE, slot((middle, low), (middle, high), WINDOW), "window")]


def _place(notch_length: float, web: float, notch_width: float, drill: float) -> Place:
    below = web + notch_width / 2 - drill / 2 - WALL - 2.0
    return Place(3.0, 2.0, notch_length + 2 * BORDER - 6.0, max(min(LABEL_HEIGHT, below), 0.0))


def _from_job(work: Groundwork) -> Given:
    sled = work.job.sled
    own = {
        "web": float(sled.web),
        "notch_length": float(sled.notch_length),
        "notch_width": float(sled.notch_width),
        "drill": min(4.0, float(sled.notch_width) / 2),
    }
    text = labels.job_label(work.job, work.planned, _place(**own))
    return {**own, "compensation": float(work.job.printer.tolerance), "label": text}


def _resolution(work: Groundwork, p: Values) -> dict[str, float]:
    return {
        "centres_apart_mm": max(p["notch_length"] - p["notch_width"], 0.0),
        "centre_from_edge_mm": p["web"] + p["notch_width"] / 2,
        "hole_drawn_mm": p["drill"] + p["compensation"],
        "resolution_mm": expanded((1.0, float(work.job.printer.tolerance)), (1.0, PLAY / 2)),
        "needed_mm": max(p["notch_width"] - work.job.clamp.jaw_inner, 0.0) / 2,
        "by_rule_mm": expanded((1.0, RULE)),
    }


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    hole = p["drill"] + p["compensation"]
    if hole > p["notch_width"]:
        return [finding("notch_guide.drill_wide", hole_mm=hole, notch_width_mm=p["notch_width"])]
    found = []
    apart = p["notch_length"] - p["notch_width"]
    if apart < hole + WALL:
        found.append(finding("notch_guide.one_hole", apart_mm=max(apart, 0.0), needed_mm=hole + WALL))
    return found if work is None else [*found, *_coarse(work, p)]


def _coarse(work: Groundwork, p: Values) -> list[Finding]:
    r = _resolution(work, p)
    if r["resolution_mm"] <= r["needed_mm"]:
        return []
    told = {key: r[key] for key in ("resolution_mm", "needed_mm", "by_rule_mm")}
    return [finding("notch_guide.coarse", **told, jaw_mm=work.job.clamp.jaw_inner)]


KIND = PartKind(
    name="notch_guide",
    summary="drilling guide that hooks on the work edge and sets both hole centres of a notch",
    build=notch_guide,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    check=_check,
    ranges={
        "web": (5, 80),
        "notch_length": (5, 200),
        "notch_width": (6.5, 60),
        "drill": (1, 5),
        "thickness": (3, 30),
        "hook": (2, 12),
        "drop": (2, 40),
        "compensation": (0, 1),
    },
    resolution=_resolution,
    label_place=lambda p: _place(p["notch_length"], p["web"], p["notch_width"], p["drill"]),
)
