"""What the page shows of a job a moment later: which board goes where, and the whole sheets."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from scarfwright.models.findings import Level, faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.problems import JobError
from scarfwright.models.planning.planned import Planned, plan_job
from scarfwright.models.planning.request import wants_plan
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.formats.svg import write_svg
from scarfwright.outputs.page.answer import TYPED, ticket
from scarfwright.outputs.page.pieces import PLANNED, pieces


def look(tables: Mapping[str, Any], stop: Callable[[], bool]) -> dict[str, Any]:
    """The sheets and, for a job with boards and blanks, the pieces with the plan. `stop`: nobody waits any more.

    Never raises for what was typed: a job that can't be used, or has faults, has nothing to look at.
    """
    try:
        job = job_from_dict(dict(tables), TYPED)
    except JobError:
        return {"ticket": None, "sheets": [], "pieces": []}
    work = work_up(job)
    if faults(list(work.findings)) or stop():
        return {"ticket": ticket(job), "sheets": [], "pieces": []}
    planned = _planned(work, stop)
    shown = [one for one in pieces(work, planned) if one.key in PLANNED] if planned else []
    return {
        "ticket": ticket(job),
        "sheets": sheets(work) if not stop() else [],
        "pieces": [{"key": one.key, "title": one.title, "html": one.piece.html} for one in shown],
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
