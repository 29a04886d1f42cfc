"""What the page shows of a job a moment later: ways out of findings, the other pieces, the whole sheets."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from scarfwright.models.findings import Level, faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.problems import JobError
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.planning.planned import Planned, plan_job
from scarfwright.models.planning.request import wants_plan
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.formats.svg import write_svg
from scarfwright.outputs.page.answer import TYPED, as_data, findings, ticket
from scarfwright.outputs.page.order import REST
from scarfwright.outputs.page.pieces import pieces


def in_full(tables: Mapping[str, Any], stop: Callable[[], bool], *, whole_sheets: bool) -> dict[str, Any]:
    """Numbers, findings with their ways out, the other pieces with the plan of the wood, and the sheets if asked for.

    `stop`: nobody waits any more. Never raises for what was typed: of a job that can't be used there is nothing.
    """
    try:
        job = job_from_dict(dict(tables), TYPED)
    except JobError:
        return {"ticket": None}
    work = work_up(job)
    good = not faults(list(work.findings))
    planned = _planned(work, stop) if good else None
    return {
        "ticket": ticket(job),
        "stops": not good,
        "numbers": numbers(work),
        "findings": findings(work),
        **as_data(pieces(work, REST, planned)),
        "sheets": sheets(work) if good and whole_sheets and not stop() else [],
    }


def _planned(work: Workup, stop: Callable[[], bool]) -> Planned | None:
    bad = any(one.part == "plan" and one.level is Level.FAULT for one in work.findings)
    if bad or not wants_plan(work):
        return None
    members = () if work.craft is None else work.craft.members
    found = plan_job(work, members, stop=stop)
    return None if found.plan.stopped else found


def sheets(work: Workup) -> list[dict[str, str]]:
    """The sheets that are printed, as pictures."""
    from scarfwright.outputs.setup_card.card import setup_card
    from scarfwright.outputs.shop_drawings.sled_sheet import sled_drawings

    named = [*sled_drawings(work).items(), *((f"setup-card-{n}", one) for n, one in enumerate(setup_card(work), 1))]
    return [{"name": name.replace("-", " "), "svg": write_svg(sheet)} for name, sheet in named]
