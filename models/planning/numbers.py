"""The plan as plain data for numbers.json and plan.csv: mm, names instead of places in a list."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from scarfwright.models.plan.data import BlankPlan, Cut, Plan, Remedy, Request, Row


def plan_numbers(request: Request, plan: Plan) -> dict[str, Any]:
    """All of a plan; null where a figure makes no sense for its verdict."""
    return {
        "verdict": plan.verdict,
        "impossible_proved": plan.impossible,
        "joints": plan.joints,
        "boards_used": plan.boards_used,
        "consumed_mm": _mm(plan.consumed),
        "price": None if plan.price is None else float(plan.price),
        "joints_proved": plan.joints_proved,
        "bound_joints": plan.bound_joints,
        "bound_row": None if plan.bound_row is None else _row(request, plan.bound_row),
        "bound_consumed_mm": _mm(plan.bound_consumed),
        "bound_price": None if plan.bound_price is None else float(plan.bound_price),
        "wood_proved": plan.wood_proved,
        "work": round(plan.work, 3),
        "repeatable": plan.repeatable,
        "stopped": plan.stopped,
        "least_piece_mm": float(request.rules.least),
        "shortfall": [{"blank": request.blanks[m.blank].name, "copy": m.copy, "why": m.why} for m in plan.missing],
        "remedies": [_remedy(request, r) for r in plan.remedies],
        "spare": [_place(request, c) for c in plan.spare],
        "spare_short": plan.spare_short,
        "leftovers": [_place(request, c) for c in plan.leftovers],
        "not_needed": [{"board": request.boards[b].name, "copy": copy} for b, copy in plan.unused],
        "blanks": [_blank(request, b) for b in plan.blanks],
    }


def _mm(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


def _place(request: Request, cut: Cut) -> dict[str, Any]:
    return {
        "board": request.boards[cut.board].name,
        "copy": cut.copy,
        "strip": cut.strip,
        "from_mm": float(cut.start),
        "to_mm": float(cut.end),
    }


def tapered(place: int, pieces: int) -> str | None:
    """Which ends of a piece get a taper: "bow", "far" (from the bow), "both"; None for a blank in one piece."""
    if pieces == 1:
        return None
    return "far" if place == 0 else "bow" if place == pieces - 1 else "both"


def face(ends: str | None) -> str | None:
    """Which face lies on the sled. Every piece has its face A marked, the same side of the blank on all of them.

    The face on the sled keeps the tip. With A on the sled for an end towards the bow and B for an end away from it,
    the glue lines of a blank all lean one way: from face A at the bow's side to face B.
    """
    return {None: None, "bow": "A", "far": "B", "both": "A at the bow end, B at the far end"}[ends]


def _blank(request: Request, blank: BlankPlan) -> dict[str, Any]:
    many = len(blank.pieces)
    return {
        "name": request.blanks[blank.blank].name,
        "copy": blank.copy,
        "length_mm": float(blank.length),
        "pieces": [
            {**_place(request, cut), "face": face(tapered(place, many)), "tapered": tapered(place, many)}
            for place, cut in enumerate(blank.pieces)
        ],
        "joints": [{"station_mm": float(j.station), "use": j.use} for j in blank.joints],
    }


def _row(request: Request, row: Row) -> dict[str, Any]:
    return {
        "kind": row.kind,
        "tau_mm": _mm(row.tau),
        "pieces": row.pieces,
        "need": _mm(row.need),
        "have": _mm(row.have),
        "blanks": [request.blanks[b].name for b in row.blanks],
    }


def _remedy(request: Request, remedy: Remedy) -> dict[str, Any]:
    return {
        "kind": remedy.kind,
        "boards": [
            {"length_mm": float(request.buy[k].length), "count": many, "price": request.buy[k].price}
            for k, many in remedy.boards
        ],
        "value": _mm(remedy.value),
        "was": _mm(remedy.was),
        "price": None if remedy.price is None else float(remedy.price),
        "blank": None if remedy.blank is None else request.blanks[remedy.blank].name,
        "copy": remedy.copy,
        "joints": remedy.joints,
        "fewest": remedy.fewest,
    }
