"""The checks of a worked-out job, by what has to change: joint, sled, clamps, saw."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.checks.at_the_saw.cut import check_cut
from scarfwright.models.checks.at_the_saw.feed import check_feed
from scarfwright.models.checks.at_the_saw.reach import check_reach
from scarfwright.models.checks.at_the_saw.riving import check_riving
from scarfwright.models.checks.at_the_saw.saw import check_saw
from scarfwright.models.checks.at_the_saw.stand import check_stand
from scarfwright.models.checks.for_machines.laser import check_laser
from scarfwright.models.checks.for_machines.paper import check_paper
from scarfwright.models.checks.for_machines.router import check_router
from scarfwright.models.checks.joint import check_joint
from scarfwright.models.checks.plan import check_plan
from scarfwright.models.checks.the_sled.clamps import check_clamps
from scarfwright.models.checks.the_sled.dividing import check_dividing
from scarfwright.models.checks.the_sled.hands import check_hands
from scarfwright.models.checks.the_sled.margins import check_margins
from scarfwright.models.checks.the_sled.notches import check_notches
from scarfwright.models.checks.the_sled.sled import check_sled
from scarfwright.models.findings import Finding, worst_first
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.shop import cutter
from scarfwright.models.wanted.flat import plain_pieces
from scarfwright.models.wanted.wanted import Wanted


def check_all(work: Groundwork, *, unmeasurable: bool = False) -> list[Finding]:
    """Every finding about the joint, the sled, the clamps and the saw, worst first."""
    found = [
        *check_joint(work),
        *check_sled(work, unmeasurable),
        *check_hands(work),
        *check_notches(work),
        *check_clamps(work),
        *check_reach(work),
        *check_saw(work),
        *check_dividing(work),
        *check_cut(work),
        *check_riving(work),
        *check_margins(work),
        *check_stand(work),
        *check_feed(work),
        *check_plan(work),
    ]
    return worst_first(found)


def check_machine(work: Groundwork, parts: Sequence[Wanted]) -> list[Finding]:
    """Findings about the paper, and about the machine that cuts if there is one; asked of a sled that can be built."""
    machine, found = cutter(work.job), list(check_paper(work))
    if machine is not None:
        checks = {"router": check_router, "laser": check_laser}
        found = [*checks[machine](work, plain_pieces(parts)), *found]
    return found
