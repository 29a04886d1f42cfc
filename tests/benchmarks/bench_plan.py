"""Speed and quality of the plan. Run by hand: python tests/benchmarks/bench_plan.py [first seed]

Seeds are fresh ones that no setting was chosen on (default: 9000 on). Prints what is wanted beside what is measured.
"""

from __future__ import annotations

import resource
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from scarfwright.models.plan.by_hand import longest_first  # noqa: E402
from scarfwright.models.plan.data import Blank, Board, Plan, Request, Rules  # noqa: E402
from scarfwright.models.plan.goals import joints, score, used  # noqa: E402
from scarfwright.models.plan.planner import plan  # noqa: E402
from scarfwright.models.plan.problem import build  # noqa: E402

from tests.plan_checker import complaints  # noqa: E402
from tests.plan_instances import usual  # noqa: E402

FIRST = int(sys.argv[1]) if len(sys.argv) > 1 else 9000


def timed(request: Request, seconds: float) -> tuple[Plan, float]:
    began = time.perf_counter()
    found = plan(request, seconds=seconds)
    took = time.perf_counter() - began
    assert complaints(request, found) == [], complaints(request, found)
    return found, took


def over(found: Plan) -> str:
    """Wood over its bound."""
    if found.bound_consumed is None:
        return "not made"
    return f"{100 * float(found.consumed / found.bound_consumed - 1):.2f} %"


def twelve() -> None:
    print("12 blanks from 40 boards, 30 s: joints proved in 9 of 10, wood within 2 % of its bound")
    proved = done = 0
    seed = FIRST
    while done < 10:
        found, took = timed(usual(12, 40, seed), 30)
        if found.impossible != "count":  # too little wood to begin with is no instance
            done += 1
            proved += found.joints_proved is not None
            print(
                f"  seed {seed}: {found.verdict}, {found.joints} joints, bound {found.bound_joints}, proved by "
                f"{found.joints_proved}; wood +{over(found)}, boards {found.boards_used}, {took:.1f} s",
                flush=True,
            )
        seed += 1
    print(f"  proved {proved} of 10 {'ok' if proved >= 9 else 'OVER'}")


def hundred() -> None:
    print("100 blanks from 400 boards: valid in 5 s; joints within 3 %, wood within 5 % in 60 s")
    for seed in range(FIRST, FIRST + 2):
        request = usual(100, 400, seed)
        for seconds in (5, 60):
            found, took = timed(request, seconds)
            gap = 100 * (found.joints / found.bound_joints - 1) if found.bound_joints else 0.0
            verdict = "ok" if found.verdict == "made" and (seconds == 5 or gap <= 3) else "OVER"
            print(
                f"  seed {seed}: {found.verdict} in {took:.1f} s, {found.joints} joints, bound "
                f"{found.bound_joints} (+{gap:.1f} %), wood +{over(found)} {verdict}",
                flush=True,
            )


def growth() -> None:
    print("From 5 to 200 blanks, four boards each, by hand (longest first) and planned at effort 2")
    print("  blanks  by hand: unmade joints  wood m | plan: unmade joints  wood m  bound       s")
    for many in (5, 10, 20, 50, 100, 200):
        request = usual(many, 4 * many, FIRST, effort=2)
        problem = build(request)
        rows = longest_first(problem)
        wood = used(problem, rows).consumed * float(problem.unit_mm) / 1000
        began = time.perf_counter()
        found = plan(request)
        took = time.perf_counter() - began
        print(
            f"  {many:6d}  {score(problem, rows)[0]:15d} {joints(rows):6d} {wood:7.1f} | {len(found.missing):12d} "
            f"{found.joints:6d} {float(found.consumed) / 1000:7.1f} {found.bound_joints or 0:6d} {took:7.1f}",
            flush=True,
        )


def hopeless() -> None:
    boards = tuple(Board(f"b{k}", 800 + k % 977) for k in range(10_000))
    request = Request(Rules(20, 45, 250, least=400), boards, (Blank("mast", 9000, 900),))
    _, took = timed(request, 5)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6
    verdict = "ok" if took <= 7 and memory <= 2 else "OVER"
    print(f"10 000 boards, hopeless, limit 5 s: {took:.1f} s (at most 7), {memory:.2f} GB (at most 2) {verdict}")


if __name__ == "__main__":
    hopeless()
    growth()
    hundred()
    twelve()
