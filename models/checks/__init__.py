"""The checks of a worked-out job, by what has to change: joint, sled, clamps, saw."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.checks.clamps import check_clamps
from scarfwright.models.checks.cut import check_cut
from scarfwright.models.checks.feed import check_feed
from scarfwright.models.checks.joint import check_joint
from scarfwright.models.checks.laser import check_laser
from scarfwright.models.checks.notches import check_notches
from scarfwright.models.checks.paper import check_paper
from scarfwright.models.checks.riving import check_riving
from scarfwright.models.checks.router import check_router
from scarfwright.models.checks.saw import check_saw
from scarfwright.models.checks.sled import check_sled
from scarfwright.models.checks.stand import check_stand
from scarfwright.models.findings import Finding, worst_first
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import say_in
from scarfwright.models.wanted.flat import plain_pieces
from scarfwright.models.wanted.wanted import Wanted


def check_all(work: Groundwork, *, unmeasurable: bool = False) -> list[Finding]:
    """Every finding about the joint, the sled, the clamps and the saw, worst first."""
    say = say_in(work.job.units)
    found = [
        *check_joint(work),
        *check_sled(work, say, unmeasurable),
        *check_notches(work, say),
        *check_clamps(work, say),
        *check_saw(work, say),
        *check_cut(work, say),
        *check_riving(work, say),
        *check_stand(work, say),
        *check_feed(work, say),
    ]
    return worst_first(found)


def check_machine(work: Groundwork, parts: Sequence[Wanted]) -> list[Finding]:
    """Findings about the machine and the paper the files are for; asked of a sled that can be built."""
    pieces = plain_pieces(parts)
    checks = {"router": check_router, "laser": check_laser}
    return [*checks[work.job.files.machine](work, pieces), *check_paper(work)]
