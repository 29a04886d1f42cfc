"""A stop screwed to the sled's top at the hand line: the hand feels it and goes no further."""

from __future__ import annotations

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import circle, rounded
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.part import Feature, Operation, Part
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind


def hand_stop(
    length: float = 80.0,
    width: float = 24.0,
    height: float = 30.0,
    hole: float = 5.0,
    spacing: float = 50.0,
    corner: float = 6.0,
) -> Part:
    """Build the stop, lying on the face that goes on the sled.

    length: across the sled [mm]
    width: along the sled [mm]
    height: above the sled [mm]
    hole: screw holes, diameter [mm]
    spacing: between the two screw holes [mm]
    corner: radius of the upright corners [mm]
    """
    corners = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]
    ends = ((length - spacing) / 2, (length + spacing) / 2)
    return Part(
        name="hand_stop",
        title="Hand stop",
        outline=rounded(corners, corner),
        thickness=height,
        features=tuple(Feature(Operation.DRILL, circle(x, width / 2, hole / 2), "screw hole") for x in ends),
        colour="#c4924e",
        use="Screwed across the sled's top, its far side on the hand line.",
    )


def _from_job(work: Groundwork) -> Given:
    """As long as the sled is wide at the hand line, within 25 and 80 mm."""
    sled = work.way.sled
    room = sled.width_at(max(sled.length - work.way.layout.hand_line, 0.0)) - 4.0
    length = min(max(room, 25.0), 80.0)
    return {"length": length, "spacing": length - 30.0 if length >= 60 else length / 2}


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    if work is None:
        return []
    sled, line = work.way.sled, work.way.layout.hand_line
    width = sled.width_at(sled.length - line)
    if width >= p["length"] - 1e-6:
        return []
    return [finding("hand_stop.sticks_out", width_mm=width, stop_mm=p["length"])]


KIND = PartKind(
    name="hand_stop",
    summary="stop for the hand, screwed to the sled at the hand line",
    build=hand_stop,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    check=_check,
    ranges={
        "length": (60.0, 160.0),
        "width": (16.0, 50.0),
        "height": (10.0, 60.0),
        "hole": (2.0, 7.0),
        "spacing": (15.0, 50.0),
        "corner": (0.0, 7.5),
    },
)
