"""The carrier for the dividing cut: a straight board with a batten at the slope's angle.

  blade passes beyond this edge
 ______________________________________
|  o plank lies here    o          o   |   o screws from below into the plank
|=== batten at theta ==================|   y
|______________________________________|   | runs along the saw's fence (y = 0)
"""

from __future__ import annotations

from scarfwright.models.flat.loop import Point, circle, polygon, rectangle
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.part import Feature, Mark, Operation, Part, Raised
from scarfwright.models.part.values import Given
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.sled.dividing import BATTEN_HEIGHT

SCREW_HOLE = 5.0  # clearance for a 4.5 mm wood screw; common practice, no source


def carrier(
    length: float = 1560.0,
    width: float = 210.0,
    thickness: float = 18.0,
    batten: tuple[Point, ...] = ((12.0, 142.0), (1506.0, 18.0), (1510.0, 58.0), (15.0, 182.0)),
    batten_height: float = BATTEN_HEIGHT,
    screws: tuple[Point, ...] = ((1456.0, 136.0), (766.0, 165.0), (76.0, 194.0)),
    batten_screws: tuple[Point, ...] = ((73.0, 157.0), (761.0, 100.0), (1448.0, 43.0)),
    screw_hole: float = SCREW_HOLE,
) -> Part:
    """Build the carrier with its batten.

    length, width, thickness: of the board [mm]
    batten: its four corners, counter-clockwise [mm]
    batten_height: above the board [mm]
    screws: into the plank, from below [mm]
    batten_screws: into the batten [mm]
    screw_hole: diameter [mm]
    """
    strip = polygon(batten)
    names = [("plank screw", p) for p in screws] + [("batten screw", p) for p in batten_screws]
    holes = tuple(Feature(Operation.DRILL, circle(x, y, screw_hole / 2), name) for name, (x, y) in names)
    return Part(
        name="carrier",
        title="Carrier for the dividing cut",
        outline=rectangle(0, 0, length, width),
        thickness=thickness,
        features=holes,
        raised=(Raised(strip, thickness, thickness + batten_height, "batten"),),
        marks=(
            Mark((*batten, batten[0]), name="batten", scored=True),
            Mark(((length * 0.3, 8.0),), "ALONG THE FENCE", 8.0, 0.0, "fence edge"),
            Mark(((length * 0.3, width - 14.0),), "BLADE PASSES BEYOND THIS EDGE", 6.0, 0.0, "blade edge"),
        ),
        colour="#9fb3a5",
        guides=(((0.0, 0.0), (length, 0.0)), ((0.0, width), (length, width))),
        use="Plank against the batten, screwed from below with heads let in; a strip as thick under the free half.",
    )


def _from_job(work: Groundwork) -> Given | None:
    cut = work.way.dividing
    if cut is None:
        return None
    return {
        "length": cut.carrier_length,
        "width": cut.carrier_width,
        "thickness": cut.carrier_thickness,
        "batten": tuple(v.point for v in cut.batten.vertices),
        "batten_height": cut.batten_height,
        "screws": cut.screws,
        "batten_screws": cut.batten_screws,
    }


KIND = PartKind(
    name="carrier",
    summary="board and batten that carry the plank through the dividing cut",
    build=carrier,
    from_job=_from_job,
    goes_to=frozenset({"cad", "cut", "flat"}),
    handed=True,
    ranges={
        "length": (1515.0, 3000.0),
        "width": (200.0, 400.0),
        "thickness": (9.0, 30.0),
        "batten_height": (6.0, 60.0),
        "screw_hole": (2.0, 8.0),
    },
    along_grain=True,
)
