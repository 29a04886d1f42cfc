"""Findings about boards and blanks: what can't be planned as it stands. Light: nothing is searched here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from scarfwright.models.findings import Finding, Level, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.plan.data import Request
from scarfwright.models.plan.troubles import Trouble, troubles
from scarfwright.models.planning.request import request_of, wants_plan

PART = "plan"


def check_plan(work: Groundwork) -> Iterator[Finding]:
    """Faults stop the plan alone; the sled is made without it."""
    if not wants_plan(work):
        if work.job.board and not work.job.blank:
            yield finding("plan.no_blanks", boards=float(sum(b.count for b in work.job.board)))
        return
    request = request_of(work)
    for trouble in troubles(request):
        numbers = {k: float(v) for k, v in trouble.numbers.items()}
        found = finding(trouble.code, "", name=_name(request, trouble), **numbers)
        yield replace(found, part=PART) if found.level is Level.FAULT else found


def _name(request: Request, trouble: Trouble) -> str | None:
    if trouble.owner == "board":
        return request.boards[trouble.index].name
    if trouble.owner == "blank":
        return request.blanks[trouble.index].name
    return f"buy {trouble.index + 1}" if trouble.owner == "buy" else None
