"""The thickness fork for the glue-up: one slot goes over the board, the other over a joint slid together no further
than planes away.

Mated pieces slid together by dx make the joint thicker by dx / N and stay closed: what is thicker than the board is
planed off with the rest, so it may be t - t_f. Slid apart and held flush they keep the board's thickness and the glue
line opens by (dx / N) cos(theta): no fork tells that, only overlap marks on both boards, and a feeler at the edge. Both
limits are given as how far the tips may lie from those marks. A job without a finished thickness has no use for the
fork.

A slot out by `tolerance`: ± 2 tolerance / sqrt(3). Slots are drawn wider by `compensation`, because printed ones come
out narrower. Source: plane geometry, the project's own derivation.
"""

from __future__ import annotations

import math

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part import label as labels
from scarfwright.models.part.comb import comb, comb_width, slot_middles
from scarfwright.models.part.part import Part, Place
from scarfwright.models.part.reading import CALLIPER, FEELER, expanded
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind

BACK, WALL, NAME_HEIGHT = 19.0, 12.0, 5.0
DEPTH = 25.0


def thickness_fork(
    thickness: float = 22.0,
    allowed: float = 0.5,
    depth: float = DEPTH,
    wall: float = WALL,
    plate: float = 6.0,
    compensation: float = 0.2,
    label: str = "",
) -> Part:
    """Build the fork, lying flat: the go slot on the left, the no-go slot on the right.

    thickness: of the board [mm]
    allowed: how much thicker the joint may be [mm]
    depth: of the slots [mm]
    wall: beside and between the slots [mm]
    plate: thickness of the fork [mm]
    compensation: what printed slots come out narrower by, added to each [mm]
    label: text cut into the back
    """
    slots = _slots(thickness, allowed, compensation)
    part = Part(
        name="thickness_fork",
        title="Thickness fork",
        outline=comb(slots, depth, wall, BACK),
        thickness=plate,
        colour="#6f9fb0",
        use="Over the joint's edge before the glue sets. GO or LIMIT goes on: not slid together too far. Slid apart it "
        "looks right and gapes: keep the tips on their overlap marks, and try a feeler at the edge.",
    )
    room = min(wall + slots[0] - 1.0, 24.0)
    for middle, name in zip(slot_middles(slots, wall), ("GO", "LIMIT"), strict=True):
        part = labels.engraved(part, name, Place(middle - room / 2, depth + 2.0, room, NAME_HEIGHT))
    return labels.engraved(part, label, _place(thickness, allowed, depth, wall, compensation))


def _slots(thickness: float, allowed: float, compensation: float) -> list[float]:
    return [thickness + compensation, thickness + allowed + compensation]


def _place(thickness: float, allowed: float, depth: float, wall: float, compensation: float) -> Place:
    width = comb_width(_slots(thickness, allowed, compensation), wall)
    return Place(3.0, depth + NAME_HEIGHT + 4.0, width - 6.0, BACK - NAME_HEIGHT - 6.0)


def _from_job(work: Groundwork) -> Given | None:
    stock = work.job.stock
    if stock.finished_thickness is None:
        return None
    own = {
        "thickness": float(stock.thickness),
        "allowed": stock.thickness - stock.finished_thickness,
        "depth": min(DEPTH, float(stock.height)),
        "compensation": float(work.job.printer.tolerance),
    }
    return {**own, "label": labels.job_label(work.job, work.planned, _place(wall=WALL, **own))}


def _resolution(work: Groundwork, p: Values) -> Given:
    return {
        "slots_mm": tuple(_slots(p["thickness"], p["allowed"], 0.0)),
        "slots_drawn_mm": tuple(_slots(p["thickness"], p["allowed"], p["compensation"])),
        **_reads(work, p),
    }


def _reads(work: Groundwork, p: Values) -> dict[str, float]:
    return {
        "overlap_mm": work.joint.overlap,
        "together_mm": p["allowed"] * work.joint.ratio,
        "apart_mm": work.job.adhesive.gap_limit / math.cos(work.joint.angle) * work.joint.ratio,
        "resolution_mm": expanded((1.0, float(work.job.printer.tolerance))),
        "needed_mm": p["allowed"],
        "by_calliper_mm": expanded((1.0, CALLIPER)),
        "by_feeler_mm": expanded((1.0, FEELER)),
    }


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    if work is None:
        return []
    r, tolerance = _reads(work, p), float(work.job.printer.tolerance)
    alike = tolerance >= p["allowed"]
    if not alike and r["resolution_mm"] <= p["allowed"]:
        return []
    return [
        finding(
            "thickness_fork.slots_alike" if alike else "thickness_fork.coarse",
            allowed_mm=p["allowed"],
            together_mm=r["together_mm"],
            tolerance_mm=tolerance,
            resolution_mm=r["resolution_mm"],
            by_calliper_mm=r["by_calliper_mm"],
            by_feeler_mm=r["by_feeler_mm"],
        )
    ]


KIND = PartKind(
    name="thickness_fork",
    summary="slots for the board, and for a joint slid together no further than planes away",
    build=thickness_fork,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print", "flat"}),
    check=_check,
    ranges={
        "thickness": (3, 150),
        "allowed": (0.05, 20),
        "depth": (5, 80),
        "wall": (3, 30),
        "plate": (2, 20),
        "compensation": (0, 1),
    },
    resolution=_resolution,
    label_place=lambda p: _place(p["thickness"], p["allowed"], p["depth"], p["wall"], p["compensation"]),
)
