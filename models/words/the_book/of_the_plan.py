"""Where the figures come from that the plan of the wood tells."""

from __future__ import annotations

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.plan.data import Plan, Request
from scarfwright.models.words import plan as words
from scarfwright.models.words.the_book.figure import Figure, Origin


def plan_figures(work: Groundwork, request: Request, plan: Plan) -> tuple[Figure, ...]:
    """Each with the very text that tells it."""
    say = say_in(work.job.units)
    told = "Every piece with its saw cuts, end trims and what is too short to keep; bounded by count or search."
    found = [Figure("", "Wood used up", words.wood_line(say, plan), Origin("formula", told))]
    told = f"Placed by the plan. Each joint needs an overlap of {say(work.joint.overlap)}, each saw cut its kerf."
    found.append(Figure("", "Pieces", _places(say, plan), Origin("formula", told)))
    if plan.bound_row is not None:
        told = "Lengths of blanks and boards, their joints counted in."
        found.append(Figure("", "The count", words.row_line(say, request, plan), Origin("formula", told)))
    missing = "; ".join(words.why_missing(one.why) for one in plan.missing)
    ways = "; ".join(words.remedy_line(say, request, one) for one in plan.remedies)
    found.append(Figure("", "Not made", missing, Origin("formula", "Counted from your boards and blanks.")))
    found.append(Figure("", "Ways out", ways, Origin("formula", "Tried: with it the plan was made again.")))
    return tuple(found)


def _places(say: Say, plan: Plan) -> str:
    cuts = [cut for blank in plan.blanks for cut in blank.pieces]
    return "; ".join(f"{say(float(c.start))}; {say(float(c.end))}; {say(float(c.length))}" for c in cuts)
