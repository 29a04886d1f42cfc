"""plan.csv: one line a piece in cutting order, then what is left over; lengths in mm."""

from __future__ import annotations

import csv
import io

from scarfwright.models.plan.data import Cut, Plan, Request
from scarfwright.models.planning.numbers import face, tapered
from scarfwright.outputs.plan_sheet.codes import pieces

COLUMNS = (
    "what", "code", "board", "board_copy", "strip", "from_mm", "to_mm", "length_mm", "blank", "blank_copy", "piece",
    "pieces", "tapered", "face_on_sled",
)  # fmt: skip


def plan_csv(request: Request, plan: Plan) -> str:
    """The plan as comma-separated text with a heading line (RFC 4180, but line feeds alone)."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(COLUMNS)
    for p in pieces(request, plan):
        ends = tapered(p.place, p.of)
        names = (request.blanks[p.blank].name, p.copy, p.place + 1, p.of, ends or "", face(ends) or "")
        writer.writerow(("piece", p.code, *_place(request, p.cut), *names))
    for what, cuts in (("leftover", plan.leftovers), ("spare", plan.spare)):
        for cut in cuts:
            writer.writerow((what, "", *_place(request, cut), *[""] * 6))
    for board, copy in plan.unused:
        writer.writerow(("not needed", "", request.boards[board].name, copy, *[""] * 10))
    for one in plan.missing:
        writer.writerow(("not made", *[""] * 7, request.blanks[one.blank].name, one.copy, *[""] * 4))
    return stream.getvalue()


def _place(request: Request, cut: Cut) -> tuple[object, ...]:
    figures = [f"{float(v):.6f}".rstrip("0").rstrip(".") for v in (cut.start, cut.end, cut.end - cut.start)]
    return (request.boards[cut.board].name, cut.copy, cut.strip, *figures)
