"""A riser: lifts the work off the bench while the joint is glued. Its outline is its side; it is printed lying so.

    ____        ____
   /    |______|    \\    rounded top edges; a groove for packing tape, to which squeezed-out glue does not stick
  |                  |
  |__________________|    along the board ->

Heights of two neighbours, each out by `tolerance`: ± 2 sqrt(2 / 3) tolerance. A step d between risers `apart` under
each board opens a stiff joint by 2 d X_o / apart, which may be the gap limit.
"""

from __future__ import annotations

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import Loop, Point, rounded_each
from scarfwright.models.gluing.places import CLEAR, LONGEST_SPAN, GlueUp
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.shop import prints_gauges
from scarfwright.models.part import label as labels
from scarfwright.models.part.part import Part, Place
from scarfwright.models.part.reading import FEELER, expanded
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind

ROUND, TAPE, GROOVE = 3.0, 19.0, 1.5  # 19 mm: a common width of packing tape, common practice, no source
LEAST_SHAPE = 0.2  # of groove and rounding [mm]
DEEPEST_GROOVE = 5.0
LEAST_LAND = 1.0  # of flat top beside the groove


def riser(
    length: float = 60.0,
    width: float = 40.0,
    height: float = 37.0,
    edge: float = ROUND,
    tape: float = TAPE,
    groove: float = GROOVE,
    label: str = "",
) -> Part:
    """Build a riser, lying on its side.

    length: across the board [mm]
    width: along the board [mm]
    height: bench to work [mm]
    edge: radius of the two top edges [mm]
    tape: width of the groove that takes the tape [mm]
    groove: its depth [mm]
    label: text cut into the side
    """
    part = Part(
        name="riser",
        title="Riser for the glue-up",
        outline=side(width, height, edge, tape, groove),
        thickness=length,
        colour="#8aa0b8",
        use="Under the boards, clear of every clamp, so that the lower jaws pass. Packing tape in the groove and over "
        "the top: glue does not hold on it.",
    )
    return labels.engraved(part, label, place(width, height))


def side(width: float, height: float, edge: float, tape: float, groove: float) -> Loop:
    """The side of a riser, counter-clockwise from the foot; what is too small to print is left out."""
    corners: list[Point] = [(0.0, 0.0), (width, 0.0), (width, height)]
    left = (width - tape) / 2
    if groove >= LEAST_SHAPE and tape >= LEAST_SHAPE:
        corners += [(x, y) for x, y in ((width - left, height), (width - left, height - groove))]
        corners += [(left, height - groove), (left, height)]
    corners.append((0.0, height))
    radius = edge if edge >= LEAST_SHAPE else 0.0
    radii = [radius if p in ((width, height), (0.0, height)) else 0.0 for p in corners]
    return rounded_each(corners, radii)


def place(width: float, height: float) -> Place:
    """Where the label stands on the side, below any groove."""
    room = height - DEEPEST_GROOVE
    high = min(8.0, room - 3.0)
    return Place(2.0, (room - high) / 2, width - 4.0, high)


def top_findings(p: Values) -> list[Finding]:
    """A top that has no room for rounding, groove and flat."""
    needed = p["tape"] + 2 * (p["edge"] + LEAST_LAND)
    high = max(p["edge"], p["groove"]) + LEAST_LAND
    if p["width"] >= needed and p["height"] > high:
        return []
    return [
        finding(
            "riser.top_too_small",
            width_mm=p["width"],
            needed_width_mm=needed,
            height_mm=p["height"],
            needed_height_mm=high,
            tape_mm=p["tape"],
            edge_mm=p["edge"],
        )
    ]


def shape(work: Groundwork, glue: GlueUp, width: float) -> Values:
    """Sizes both kinds of riser take from the job: tape as wide as the top allows."""
    high = glue.riser_height
    own = {
        "length": float(work.job.stock.height),
        "width": width,
        "height": high,
        "tape": min(TAPE, width - 2 * (ROUND + LEAST_LAND)),
    }
    return Values({**own, "label": labels.job_label(work.job, work.planned, place(width, high))})


def level(work: Groundwork) -> dict[str, float]:
    """How level printed risers are, what the joint wants."""
    glue, tolerance = work.glue, float(work.job.printer.tolerance)
    mine = sorted(s.place for s in glue.supports if s.place < 0)
    apart = mine[-1] - mine[0]
    gap, overlap = work.job.adhesive.gap_limit, max(work.joint.overlap, 1.0)
    return {
        "resolution_mm": expanded((1.0, tolerance), (1.0, tolerance)),
        "needed_mm": gap * apart / (2 * overlap) if apart > 0 else gap,
        "by_feeler_mm": expanded((1.0, FEELER), (1.0, FEELER)),
    }


def places(work: Groundwork) -> tuple[float, ...]:
    """Where the risers stand, from the first tip [mm]."""
    return tuple(s.place for s in work.glue.supports)


def _from_job(work: Groundwork) -> Given | None:
    glue = work.glue
    if not any(not s.lip for s in glue.supports):
        return None
    return shape(work, glue, glue.riser_width)


def _count(work: Groundwork) -> int:
    return sum(not s.lip for s in work.glue.supports)


def _resolution(work: Groundwork, _parameters: Values) -> Given:
    return {"count": _count(work), **level(work), "places_mm": places(work)}


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    found = top_findings(p)
    if work is None or found:
        return found
    return [*(_uneven(work) if prints_gauges(work.job) else []), *_span(work)]


def _uneven(work: Groundwork) -> list[Finding]:
    r = level(work)
    if r["resolution_mm"] <= r["needed_mm"]:
        return []
    return [finding("riser.uneven", **{key: r[key] for key in ("resolution_mm", "needed_mm", "by_feeler_mm")})]


def _span(work: Groundwork) -> list[Finding]:
    glue = work.glue
    most = LONGEST_SPAN * work.joint.thickness
    if glue.span <= most:
        return []
    return [finding("riser.long_span", span_mm=glue.span, most_mm=most, clear_mm=CLEAR, thicknesses=LONGEST_SPAN)]


RANGES: dict[str, tuple[float, float]] = {
    "length": (10, 200),
    "width": (32, 100),
    "height": (8, 120),
    "edge": (0, 5),
    "tape": (0, 19),
    "groove": (0, DEEPEST_GROOVE),
}
KIND = PartKind(
    name="riser",
    summary="block that lifts the work for gluing, rounded above, with a groove for tape",
    build=riser,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    any_shop=True,
    check=_check,
    count=_count,
    ranges=RANGES,
    resolution=_resolution,
    label_place=lambda p: place(p["width"], p["height"]),
)
