"""Where every piece has a run to itself: what is found is sound, and what is ruled out can't be had."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, reject, settings
from scarfwright.models.plan.closing.parts import fewer_by_parts
from scarfwright.models.plan.closing.whole import LOOKS, whole_runs
from scarfwright.models.plan.counting.rows import Bound, bound_by_count
from scarfwright.models.plan.data import Blank, Board, Request, Rules
from scarfwright.models.plan.goals import Rows, score
from scarfwright.models.plan.goals import joints as joints_of
from scarfwright.models.plan.hunting.search import Budget, Search
from scarfwright.models.plan.planner import Work, finish, plan
from scarfwright.models.plan.problem import Problem, build
from scarfwright.models.plan.troubles import troubles

from tests.plan_brute import TooLargeError, brute
from tests.plan_checker import complaints
from tests.plan_instances import tiny_requests, usual, waste_free

QUIET = settings(
    deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much], derandomize=True
)


def sound(request: Request, problem: Problem, rows: Rows) -> int:
    """The joints of rows that an independent check finds nothing wrong with."""
    work = Work(problem, Bound(None, None, len(rows)), Budget(1.0), rows, score(problem, rows))
    found = finish(work)
    assert complaints(request, found) == []
    assert not found.missing
    return found.joints


def same_as_trying_everything(request: Request) -> None:
    assume(not [t for t in troubles(request) if t.stops])
    problem = build(request)
    assume(all(item.counts for item in problem.items))
    try:
        best = brute(request)
    except TooLargeError:
        reject()
    for looks in (LOOKS, (20,)):
        for joints in range(4):
            rows, none = whole_runs(problem, joints + len(problem.items), Budget(1.0), 10.0, looks)
            assert rows is None or (sound(request, problem, rows) == joints and best and best[0] <= joints)
            assert not none or best is None or best[0] != joints


@settings(QUIET, max_examples=8)
@given(tiny_requests())
def test_tiny_racks_agree_with_trying_everything(wanted: Request) -> None:
    same_as_trying_everything(wanted)


@pytest.mark.slow
@settings(QUIET, max_examples=500)
@given(tiny_requests())
def test_many_tiny_racks_agree_with_trying_everything(wanted: Request) -> None:
    same_as_trying_everything(wanted)


@pytest.mark.parametrize("blanks", [1, 2, 7, 12])
def test_racks_without_waste_are_parted_at_once(blanks: int) -> None:
    request, joints = waste_free(blanks, 5)
    problem = build(request)
    rows, _ = whole_runs(problem, joints + blanks, Budget(10.0), 10.0)
    assert rows is not None
    assert sound(request, problem, rows) == joints


def test_runs_alike_are_counted_and_a_blank_too_long_for_any_set_is_ruled_out() -> None:
    """Six boards of 2 m and six of 3 m: length is enough for the second wish, but where the keel takes two of 3 m only
    four rails get one."""
    boards = (Board("short", 2000, count=6), Board("long", 3000, count=6))
    rules = Rules(20, 45, 100, least=200, kerf=3)
    even = Request(rules, boards, (Blank("rail", 4900, 6),))
    rows, _ = whole_runs(build(even), 12, Budget(10.0), 10.0)
    assert rows is not None
    assert sound(even, build(even), rows) == 6
    odd = Request(rules, boards, (Blank("keel", 5800), Blank("rail", 4700, 5)))
    assert whole_runs(build(odd), 12, Budget(10.0), 10.0) == (None, True)


def test_nothing_is_ruled_out_where_two_pieces_may_share_a_run() -> None:
    """The short board makes no rail, so no rail has a run to itself; the long one makes both."""
    request = Request(Rules(20, 45, 100, least=200, kerf=3), (Board("long", 5000), Board("short", 1000)),
                      (Blank("rail", 2000, 2),))  # fmt: skip
    assert whole_runs(build(request), 2, Budget(10.0), 10.0) == (None, False)
    assert plan(request).joints == 0
    assert whole_runs(build(replace(request, boards=request.boards[:1])), 2, Budget(10.0), 10.0) == (None, False)


def test_no_plan_is_given_where_joints_have_to_keep_apart() -> None:
    """Four boards alike make both rails, with their joints opposite each other."""
    request = Request(
        Rules(20, 45, 100, least=200, kerf=3), (Board("board", 2000, count=4),), (Blank("rail", 3900, 2),)
    )
    rows, _ = whole_runs(build(request), 4, Budget(10.0), 10.0)
    assert rows is not None
    pair = replace(request, blanks=(Blank("rail", 3900, 2, mirrored=True),))
    assert whole_runs(build(pair), 4, Budget(10.0), 10.0) == (None, False)


def test_the_longest_run_goes_to_the_middle_where_spacing_asks_for_it() -> None:
    """Three overlaps clear between joints ask for 500 in the middle: of 450, 480 and 900 only the last gives that."""
    boards = (Board("a", 450), Board("b", 480), Board("c", 900))
    request = Request(Rules(20, 45, 100, least=200, kerf=3), boards, (Blank("keel", 1630),))
    rows, _ = whole_runs(build(request), 3, Budget(10.0), 10.0)
    assert rows is not None
    assert sound(request, build(request), rows) == 2


@pytest.mark.parametrize(("seed", "joints", "proof"), [(310, 16, "search"), (328, 17, "count")])
def test_what_the_search_alone_does_not_settle_is_settled(seed: int, joints: int, proof: str) -> None:
    found = plan(usual(12, 40, seed, effort=0.5))
    assert (found.joints, found.joints_proved) == (joints, proof)


def test_runs_parted_anew_among_a_few_blanks_save_joints() -> None:
    request = usual(100, 400, 500)
    problem = build(request)
    before = Search(problem, Budget(1.0), 1).best_rows
    after = fewer_by_parts(problem, before, 0, Budget(10.0), 0.5)
    assert sound(request, problem, after) < joints_of(before)
    assert joints_of(before) == joints_of(fewer_by_parts(problem, before, joints_of(before), Budget(10.0), 0.5))


def test_a_budget_that_is_spent_proves_nothing() -> None:
    problem = build(usual(12, 40, 310))
    pieces = bound_by_count(problem).pieces or 0
    assert whole_runs(problem, pieces, Budget(10.0), 1.0) == (None, True)
    assert whole_runs(problem, pieces, Budget(10.0, stop=lambda: True), 1.0) == (None, False)
    assert whole_runs(problem, pieces, Budget(10.0), 0.0) == (None, False)


def test_what_was_looked_at_in_part_proves_nothing() -> None:
    request, joints = waste_free(16, 2)
    problem = build(request)
    assert whole_runs(problem, joints + 16, Budget(10.0), 10.0, (1,)) == (None, False)
    rows, _ = whole_runs(problem, joints + 16, Budget(10.0), 10.0)
    assert rows is not None


def test_a_stop_at_the_very_last_look_proves_nothing() -> None:
    problem = build(usual(12, 40, 310))
    pieces = bound_by_count(problem).pieces or 0
    asked: list[int] = []

    def counted(most: float) -> Budget:
        asked.clear()

        def stop() -> bool:
            asked.append(1)
            return len(asked) >= most

        return Budget(10.0, stop=stop)

    assert whole_runs(problem, pieces, counted(math.inf), 1.0) == (None, True)
    assert whole_runs(problem, pieces, counted(len(asked)), 1.0) == (None, False)


@pytest.mark.parametrize("zoned", [0, 1])
def test_blanks_of_one_length_keep_their_own_stretches_clear(zoned: int) -> None:
    """Two boards of 2 m meet in the middle, where one of the two rails may have no joint."""
    boards = (Board("even", 2000, count=2), Board("long", 2300), Board("short", 1700))
    blanks = [Blank("free", 3900), Blank("free", 3900)]
    blanks[zoned] = Blank("clear", 3900, keep_clear=((1850, 2050),))
    request = Request(Rules(20, 45, 100, least=200, kerf=3), boards, tuple(blanks))
    rows, _ = whole_runs(build(request), 4, Budget(10.0), 10.0)
    assert rows is not None
    assert sound(request, build(request), rows) == 2


@pytest.mark.parametrize("limit", ["MOST_WAYS", "MOST_STEPS", "MOST_BITS"])
def test_sets_too_many_to_be_written_down_prove_nothing(limit: str, monkeypatch: pytest.MonkeyPatch) -> None:
    problem = build(usual(12, 40, 310))
    pieces = bound_by_count(problem).pieces or 0
    monkeypatch.setattr(f"scarfwright.models.plan.closing.whole.{limit}", 1)
    assert whole_runs(problem, pieces, Budget(10.0), 1.0) == (None, False)
