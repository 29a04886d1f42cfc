"""Short of wood: what would mend it. Every remedy is a request that was planned, and its plan makes every blank."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

from scarfwright.models.plan.clear import strips
from scarfwright.models.plan.counting.rows import bound_by_count
from scarfwright.models.plan.data import Board, Plan, Remedy, Request, exact
from scarfwright.models.plan.hunting.search import Budget, Search, joints_round
from scarfwright.models.plan.problem import build

TRY = 0.15  # points of effort for one trial
MOST_BOUGHT = 60
STEPS = 10  # halvings when a figure is relaxed


class Trials:
    """Trial plans within the time there is."""

    def __init__(self, until: float | None, stop: Callable[[], bool]) -> None:
        self.until, self.stop = until, stop
        self.work = 0.0

    def over(self) -> bool:
        return self.stop() or (self.until is not None and time.monotonic() >= self.until)

    def ruled_out(self, request: Request) -> bool:
        """Whether a count shows at once that there is no plan."""
        return bound_by_count(build(request)).pieces is None

    def joints(self, request: Request) -> int | None:
        """Joints of a plan that makes every blank; None where none was found."""
        problem = build(request)
        bound = bound_by_count(problem)
        if bound.pieces is None or self.over():
            return None
        budget = Budget(TRY, self.until, self.stop)
        budget.stage(0.3)
        hunt = Search(problem, budget, request.rules.seed)
        if hunt.best[0]:
            hunt.run(joints_round(problem, 10**6, TRY, bound.row))
        self.work += budget.work
        return hunt.best[1] if hunt.best[0] == 0 else None


def remedies(
    request: Request, plan: Plan, *, until: float | None = None, stop: Callable[[], bool] = lambda: False
) -> tuple[Remedy, ...]:
    """Ways out of a shortage, surest first: boards to buy, a shorter overlap or allowance, less spacing, joints
    beside one another, a blank less.

    until: a moment of time.monotonic() after which no more is tried.
    """
    if plan.verdict == "made":
        return ()
    trials = Trials(until, stop)
    found = [buying(request, trials)]
    for way in (_overlap, _allowance, _spacing):
        found.append(_relaxed(request, trials, *way(request)))
    found += [_opposite(request, trials), _beside(request, trials), _shorter(request, plan, trials), _without(plan)]
    return tuple(r for r in found if r is not None)


def buying(request: Request, trials: Trials) -> Remedy | None:
    """Fewest boards to buy, or the cheapest where all have prices; each set is tried in order of its price.

    `fewest` says that all smaller or cheaper sets were ruled out by count; else they were only tried.
    """
    useful = [k for k, b in enumerate(request.buy) if strips(Board("", b.length, b.width, b.thickness), request.rules)]
    if not useful:
        return None
    sure = True
    for bought in _sets(request, useful):
        if trials.over():
            return None
        wanted = _with(request, bought)
        if trials.ruled_out(wanted):
            continue
        joints = trials.joints(wanted)
        if joints is not None:
            return _bought(request, bought, joints, sure)
        sure = False
    return None


def _sets(request: Request, useful: list[int]) -> Iterator[tuple[tuple[int, int], ...]]:
    """Sets of boards, cheapest first: by price where every board has one, else by number, the shortest first."""
    import heapq

    priced = all(request.buy[k].price is not None for k in useful)

    def cost(many: tuple[int, ...]) -> tuple[Fraction, Fraction]:
        price = sum((exact(request.buy[k].price or 0) * m for k, m in zip(useful, many, strict=True)), Fraction(0))
        length = sum((exact(request.buy[k].length) * m for k, m in zip(useful, many, strict=True)), Fraction(0))
        return (price if priced else Fraction(sum(many)), length)

    start = tuple(0 for _ in useful)
    heap = [(cost(start), start)]
    seen = {start}
    tried = 0
    while heap and tried < 400:
        _, many = heapq.heappop(heap)
        if any(many):
            tried += 1
            yield tuple((k, m) for k, m in zip(useful, many, strict=True) if m)
        for at in range(len(useful)):
            more = (*many[:at], many[at] + 1, *many[at + 1 :])
            if more not in seen and sum(more) <= MOST_BOUGHT:
                seen.add(more)
                heapq.heappush(heap, (cost(more), more))


def _with(request: Request, bought: tuple[tuple[int, int], ...]) -> Request:
    more = tuple(
        Board(f"bought {k + 1}", b.length, b.width, b.thickness, many, b.price)
        for k, many in bought
        for b in (request.buy[k],)
    )
    return replace(request, boards=request.boards + more)


def _bought(request: Request, bought: tuple[tuple[int, int], ...], joints: int, sure: bool) -> Remedy:
    price = None
    if all(request.buy[k].price is not None for k, _ in bought):
        price = sum((exact(request.buy[k].price or 0) * many for k, many in bought), Fraction(0))
    return Remedy("buy", boards=bought, price=price, joints=joints, fewest=sure)


Way = tuple[str, Fraction, Callable[[Fraction], Request]]


def _overlap(request: Request) -> Way:
    return "overlap", exact(request.rules.overlap), lambda x: replace(request, rules=replace(request.rules, overlap=x))


def _spacing(request: Request) -> Way:
    return "spacing", exact(request.rules.spacing), lambda x: replace(request, rules=replace(request.rules, spacing=x))


def _allowance(request: Request) -> Way:
    most = max((exact(b.allowance) for b in request.blanks), default=Fraction(0))

    def less(x: Fraction) -> Request:
        return replace(request, blanks=tuple(replace(b, allowance=min(exact(b.allowance), x)) for b in request.blanks))

    return "allowance", most, less


def _relaxed(
    request: Request, trials: Trials, kind: str, was: Fraction, made: Callable[[Fraction], Request]
) -> Remedy | None:
    """The greatest value under `was`, in marks (spacing in tenths), for which a plan was found."""
    step = Fraction(1, 10) if kind == "spacing" else exact(request.rules.mark)
    low, high = Fraction(0), was
    if kind == "overlap":
        low = was * Fraction(2, 3)
    joints = trials.joints(made(low)) if was > 0 and not trials.over() else None
    if joints is None:
        return None
    for _ in range(STEPS):
        middle = (low + high) / 2 // step * step
        if middle <= low or trials.over():
            break
        fresh = trials.joints(made(middle))
        if fresh is None:
            high = middle
        else:
            low, joints = middle, fresh
    return Remedy(kind, value=low, was=was, joints=joints)  # type: ignore[arg-type]


def _opposite(request: Request, trials: Trials) -> Remedy | None:
    """The joints of a pair opposite each other."""
    if not any(blank.mirrored for blank in request.blanks):
        return None
    freed = replace(request, blanks=tuple(replace(blank, mirrored=False) for blank in request.blanks))
    joints = None if trials.over() else trials.joints(freed)
    return None if joints is None else Remedy("opposite", joints=joints)


def _beside(request: Request, trials: Trials) -> Remedy | None:
    """The joints of a group beside each other."""
    if not any(blank.group for blank in request.blanks):
        return None
    freed = replace(request, blanks=tuple(replace(blank, group="", stagger=0) for blank in request.blanks))
    joints = None if trials.over() else trials.joints(freed)
    return None if joints is None else Remedy("beside", joints=joints)


def _shorter(request: Request, plan: Plan, trials: Trials) -> Remedy | None:
    """Where one blank is missing: how long it may be at most. A blank of several copies is not touched."""
    if len(plan.missing) != 1 or request.blanks[plan.missing[0].blank].count != 1:
        return None
    index = plan.missing[0].blank
    blank = request.blanks[index]
    if blank.keep_clear:
        return None  # its stretches would have to move with its end

    def made(x: Fraction) -> Request:
        blanks = (*request.blanks[:index], replace(blank, length=x), *request.blanks[index + 1 :])
        return replace(request, blanks=blanks)

    was, least = exact(blank.length), exact(request.rules.overlap)
    low, high, joints = max(was * Fraction(3, 4), least), was, None
    if low >= was or (joints := trials.joints(made(low))) is None:
        return None
    step = exact(request.rules.mark)
    for _ in range(STEPS + 2):
        middle = (low + high) / 2 // step * step
        if middle <= low or trials.over():
            break
        fresh = trials.joints(made(middle))
        if fresh is None:
            high = middle
        else:
            low, joints = middle, fresh
    return Remedy("length", value=low, was=was, blank=index, copy=1, joints=joints)


def _without(plan: Plan) -> Remedy | None:
    """Where one blank is missing: all others are made. This plan is the proof."""
    if len(plan.missing) != 1:
        return None
    one = plan.missing[0]
    return Remedy("without", blank=one.blank, copy=one.copy, joints=plan.joints)
