"""Planning a job: the request, the plan, and where it falls short what would mend it."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from scarfwright.models.bending.members import Member
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.plan.data import Plan, Progress, Request
from scarfwright.models.plan.planner import plan
from scarfwright.models.plan.remedies import remedies
from scarfwright.models.planning.bends import bent
from scarfwright.models.planning.request import request_of

GRACE = 1.2  # [s] for ways out after a search that the clock has ended


@dataclass(frozen=True)
class Planned:
    """A request and its plan."""

    request: Request
    plan: Plan


def plan_job(
    work: Groundwork,
    members: Sequence[Member] = (),
    *,
    seconds: float | None = None,
    stop: Callable[[], bool] = lambda: False,
    tell: Callable[[Progress], None] = lambda _: None,
) -> Planned:
    """Plan a job that has boards and blanks and no faults in them.

    members: the bent blanks, for where joints may stand; seconds: instead of the job's own [plan] seconds or effort;
    stop and tell as in plan().
    """
    request = bent(request_of(work), work.job.blank, members)
    limit = seconds if seconds is not None else work.job.plan.seconds
    until = None if limit is None else time.monotonic() + limit + GRACE
    found = plan(request, seconds=limit, stop=stop, tell=tell)
    if found.verdict != "made" and not found.stopped:
        found = replace(found, remedies=remedies(request, found, until=until, stop=stop))
    return Planned(request, found)
