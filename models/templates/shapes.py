"""The templates themselves, nominal: of the sled, and of the taper on the board's edge.

The sled's template lies on the plank with its ends and its fence edge flush. For a plank its sloping edge is the
dividing line, so that its corners are both marks M; turned half round it marks the other half.

  M at the nose's end                                   M at the heel's end
        ______________________________________________
  nose |        o=== notch ===o      | hand line       |  heel
       |_   __________________________|________________|
                     fence edge
"""

from __future__ import annotations

import math
from dataclasses import replace

from scarfwright.models.flat.loop import Point, circle, polygon, slot
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say, say_in, slope
from scarfwright.models.part.part import Feature, Mark, Operation, Part
from scarfwright.models.sled.shape import holes, layout_on
from scarfwright.models.sled.sled import Sled

CENTRE_HOLE = 2.0  # takes a scriber or a pencil's lead; common practice, no source
BIG, SMALL = 5.0, 4.0  # heights of the texts [mm]
LETTER = 0.75  # width of a capital by its height, generously: only for finding room


def sled_template(work: Groundwork) -> Part:
    """The template of the nominal sled, on the user's side of the blade.

    Through holes are drill centres; scored are the openings' outlines, the hand line and, on a plank, the work edge.
    """
    shape = work.way.nominal
    say = say_in(work.job.units)
    features, marks = [], _marks(work, shape, say)
    for notch in work.way.layout.notches:
        capsule = notch.capsule(shape)
        name = f"{notch.where} notch at {say(notch.station)}"
        features.append(Feature(Operation.SCORE, slot(capsule.start, capsule.end, notch.width), name))
        ends = {capsule.start, capsule.end}
        features += [_centre(end, f"{name}, centre of an end hole {say(notch.width)}") for end in sorted(ends)]
    for x, y, diameter in holes(layout_on(work.way, shape)):
        name = f"hole {say(diameter)}"
        if diameter > CENTRE_HOLE:
            features.append(Feature(Operation.SCORE, circle(x, y, diameter / 2), name))
        features.append(_centre((x, y), f"{name}, centre"))
    part = Part(
        name="template-sled",
        title="Template of the sled",
        outline=polygon(_outline(shape)),
        thickness=float(work.job.laser.thickness),
        features=tuple(features),
        marks=tuple(marks),
        colour="#d8c8a0",
        use="Ends and fence edge flush with the wood; draw along the sloping edge, prick through the holes.",
    )
    return _other_side(part) if work.job.saw.fence_side == "left" else part


def taper_template(work: Groundwork) -> Part:
    """The template of the taper on the board's edge: as long as the taper runs, as wide as the stock is thick.

    x from the tip, y from the face that lies on the sled. The tip is left as thick as the fence gap leaves it.
    """
    joint = work.joint
    run, thick, tip = joint.taper_run, joint.thickness, joint.tip
    corners: list[Point] = [(0.0, 0.0), (run, 0.0), (run, thick), (0.0, tip)]
    height = min(SMALL, thick / 4)
    text = f"TAPER {slope(joint.ratio)}, {say_in(work.job.units)(run)} LONG"
    room = run - 6.0
    height = min(height, room / (LETTER * len(text)))
    start = run - 3.0 - LETTER * height * len(text)
    return Part(
        name="template-taper",
        title="Template of the taper on the board's edge",
        outline=polygon(corners if tip > 0 else corners[:3]),
        thickness=float(work.job.laser.thickness),
        marks=(Mark(((start, thick / 8),), text, height, 0.0, "taper"),),
        colour="#d8c8a0",
        use="On the board's edge, flush with its end and with the face that lies on the sled; the slope is the cut.",
    )


def _other_side(part: Part) -> Part:
    """Mirrored, each text in the mirror image of its place: it grows to the other side of its base line."""
    flipped = part.mirrored_y()
    return replace(flipped, marks=tuple(_hung(mark) if mark.text else mark for mark in flipped.marks))


def _hung(mark: Mark) -> Mark:
    (x, y), *rest = mark.points
    at = (x + mark.height * math.sin(mark.angle), y - mark.height * math.cos(mark.angle))
    return replace(mark, points=(at, *rest))


def _outline(shape: Sled) -> list[Point]:
    """The sled's corners; on a plank the sloping edge runs from mark to mark, in the middle of the kerf."""
    corners = shape.corners()
    if shape.mark is None or shape.plank_width is None:
        return corners
    return [*corners[:-2], (shape.length, shape.mark), (0.0, shape.plank_width - shape.mark)]


def _centre(at: Point, name: str) -> Feature:
    return Feature(Operation.CUT_INSIDE, circle(*at, CENTRE_HOLE / 2), name)


def _marks(work: Groundwork, shape: Sled, say: Say) -> list[Mark]:
    """Lines and words on the template, in the frame of a fence on the right."""
    length, tilt = shape.length, shape.angle
    edge = shape.mark if shape.mark is not None else shape.heel

    def along(station: float, depth: float, text: str, height: float) -> Mark:
        """A text along the sloping edge that begins `station` from the heel and stands `depth` below the edge."""
        c, s = math.cos(tilt), math.sin(tilt)
        return Mark(((length - station * c + depth * s, edge - station * s - depth * c),), text, height, tilt, text)

    marks = []
    hand = work.way.layout.hand_line
    if 0 < hand < length:
        x = length - hand
        line: tuple[Point, ...] = ((x, 0.0), (x, shape.width_at(x)))
        marks.append(Mark(line, name="hand line", scored=True))
        marks.append(Mark(((x + 3.0 + SMALL, 8.0),), "HAND LINE", SMALL, math.pi / 2, "hand line text"))
    marks.append(Mark(((length - 8.0, 12.0),), "HEEL", BIG, math.pi / 2, "heel"))
    marks.append(Mark(((shape.nose_flat + 60.0, 4.0),), "FENCE EDGE, FLUSH WITH THE WOOD", SMALL, 0.0, "fence edge"))
    if shape.mark is None:
        marks.append(along(length * 0.55, 8.0, "WORK EDGE", BIG))
        return marks
    marks.append(Mark(((0.0, shape.nose), (length, shape.heel)), name="work edge", scored=True))
    marks.append(along(length * 0.55, 10.0, "DIVIDING LINE, THE MIDDLE OF THE KERF", BIG))
    text = f"MARK M, {say(shape.mark)} FROM THE FENCE EDGE"
    marks.append(along(12.0 + LETTER * SMALL * len(text), 10.0, text, SMALL))
    marks.append(along(length / math.cos(tilt) - 4.0, 10.0, "MARK M FROM THE OPPOSITE EDGE", SMALL))
    return marks
