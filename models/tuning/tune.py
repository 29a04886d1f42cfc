"""From test joints to the set-up as it is, what to change, what to expect, and what could not be told."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scarfwright.models.tuning.corrections import (
    Correction,
    Expected,
    Plan,
    corrections,
    expected,
    fence_gap,
    tilt_by,
)
from scarfwright.models.tuning.fit import Fit, Residual, Value, fit, settled_by
from scarfwright.models.tuning.measured import Reading, Skew, Station, TestJoint, Twist
from scarfwright.models.tuning.model import Setup, rows

NO_SLED = 1.3  # a slope so many times the planned one is a slip of the readings; common practice, no source
TOO_FAR = 4.0  # standard deviations: a reading further out contradicts the others
COARSE = 0.03  # of slope and thickness: a reading that tells them no better is not worth taking
COARSE_LEAN = 0.003  # rad, 0.17 degrees
ALIKE = 0.9  # of the worst miss: which of several it is can't be told
PAIRS = (("joint_thickness", "tip_to_tip"), ("gap_top", "gap_bottom"))  # of which one alone tells nothing
SHOW_A_HAND = ("gap_top", "twist with its hand", "line_skew with its near end", "thickness_at at both edges")
UNKNOWNS = ("ratio", "tip_mm", "fence_gap_mm", "lean_deg", "lean_sign")


@dataclass(frozen=True)
class Tuned:
    """What the test joints say.

    untold: names of UNKNOWNS that the readings do not settle; would_tell: for each of them, sets of keys of which any
    one, measured in addition, would. contradictions: readings that do not fit the others; then nothing is advised.
    unused: (joint, key, the key that is missing beside it).
    """

    plan: Plan
    fit: Fit
    fence_gap: Value | None
    untold: tuple[str, ...]
    would_tell: dict[str, tuple[tuple[str, ...], ...]]
    contradictions: tuple[Residual, ...]
    unused: tuple[tuple[int, str, str], ...]
    corrections: tuple[Correction, ...]
    now: Expected | None
    after: Expected | None

    @property
    def ratio(self) -> Value | None:
        """N of the slope as cut."""
        slope = self.fit.slope
        return None if slope is None else Value(1 / slope.value, slope.sigma / slope.value**2)


def tune(joints: tuple[TestJoint, ...], plan: Plan) -> Tuned:
    """Work out what the joints tell. `joints` hold at least one reading between them."""
    found = _fit(joints, plan, plan.slope)
    if found.slope is not None and abs(found.slope.value / plan.slope - 1) > 0.02:
        # a rule's error counts as thickness by the slope there is, not the one that was meant
        found = _fit(joints, plan, found.slope.value)
    wrong = contradictions(found, plan)
    todo = () if wrong else corrections(found, plan)
    untold = _untold(found)
    tilt = 0.0 if wrong else tilt_by(found, plan)
    return Tuned(
        plan=plan,
        fit=found,
        fence_gap=fence_gap(found),
        untold=untold,
        would_tell={name: _would_tell(name, joints, plan, found) for name in untold},
        contradictions=wrong,
        unused=_unused(joints),
        corrections=todo,
        now=expected(found, plan),
        after=None if wrong else expected(found, plan, tilt),
    )


def _fit(joints: tuple[TestJoint, ...], plan: Plan, slope: float) -> Fit:
    readings, boards = rows(joints, plan.height, plan.thickness, slope)
    return fit(readings, Setup(plan.slope, plan.tip, 0.0, boards))


def contradictions(found: Fit, plan: Plan) -> tuple[Residual, ...]:
    """The readings that do not fit the others; more than one where which of them is wrong can't be told. Where they
    give a slope that no sled of this job could have, those that do not fit the taper as planned."""
    misses = found.residuals
    if found.slope is not None and not 1 / NO_SLED < found.slope.value / plan.slope < NO_SLED:
        meant = replace(found.setup, slope=plan.slope, tip=plan.tip)
        rows = [one.row for one in misses]
        misses = tuple(Residual(row, row.model(meant), (row.read - row.model(meant)) / row.sigma) for row in rows)
    worst = max((abs(one.out) for one in misses), default=0.0)
    if worst <= TOO_FAR:
        return ()
    return tuple(one for one in misses if abs(one.out) >= ALIKE * worst)


def _unused(joints: tuple[TestJoint, ...]) -> tuple[tuple[int, str, str], ...]:
    """Readings that say nothing without the one that belongs to them."""
    alone = []
    for joint in joints:
        for one, other in PAIRS:
            given = [getattr(joint, key) is not None for key in (one, other)]
            if given[0] != given[1]:
                alone.append((joint.number, *((one, other) if given[0] else (other, one))))
    return tuple(alone)


def _untold(found: Fit) -> tuple[str, ...]:
    missing = {
        "ratio": found.slope is None,
        "tip_mm": found.tip is None,
        "fence_gap_mm": fence_gap(found) is None,
        "lean_deg": found.lean is None,
        "lean_sign": found.lean is not None and not found.signed,
    }
    return tuple(name for name in UNKNOWNS if missing[name])


def _would_tell(name: str, joints: tuple[TestJoint, ...], plan: Plan, found: Fit) -> tuple[tuple[str, ...], ...]:
    """Which further readings would settle one unknown: each kind is tried on the fit itself."""
    if name == "fence_gap_mm" and found.tip is not None:
        return ()  # the tip is told and there is none: no reading of the joint says how far the blade ran inside
    usual = Setup(plan.slope, plan.tip, 1e-3)
    last = joints[-1] if joints else TestJoint(1)
    ways = []
    for keys, joint in _ways(last, plan):
        if name == "lean_sign":
            settles = keys[0] in SHOW_A_HAND
        else:
            readings, boards = rows((*joints[:-1], joint), plan.height, plan.thickness, plan.slope)
            sigma = settled_by(readings, replace(usual, boards=(plan.thickness,) * len(boards)))
            which = {"ratio": 0, "tip_mm": 1, "fence_gap_mm": 1, "lean_deg": 2}[name]
            settles = sigma[which] <= (COARSE * plan.slope, COARSE * plan.thickness, COARSE_LEAN)[which]
        if settles:
            ways.append(keys)
    return tuple(keys for keys in ways if not any(_less(other, keys) for other in ways))


def _less(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """One way is a part of the other."""
    return set(one) < set(other) or (one, other) == (("thickness_at one mark",), ("thickness_at two marks",))


def _ways(joint: TestJoint, plan: Plan) -> list[tuple[tuple[str, ...], TestJoint]]:
    """Readings that could be taken besides, and the joint with them (figures as planned: only their kind counts)."""
    run = (plan.thickness - plan.tip) / plan.slope
    near = Station("", 0.2 * run, plan.tip + 0.2 * run * plan.slope)
    far = Station("", 0.8 * run, plan.tip + 0.8 * run * plan.slope)
    edges = Station("", 0.5 * run, None, plan.thickness / 2, plan.thickness / 2)
    tip = Reading("", plan.tip)
    whole = Reading("", run)
    return [
        (("tip",), replace(joint, tip=(*joint.tip, tip))),
        (("taper_run",), replace(joint, taper_run=(*joint.taper_run, whole))),
        (("thickness_at one mark",), replace(joint, thickness_at=(*joint.thickness_at, far))),
        (("thickness_at two marks",), replace(joint, thickness_at=(*joint.thickness_at, near, far))),
        (("tip", "taper_run"), replace(joint, tip=(*joint.tip, tip), taper_run=(*joint.taper_run, whole))),
        (("gap_top", "gap_bottom"), replace(joint, gap_top=0.0, gap_bottom=0.1)),
        (("twist with its hand",), replace(joint, twist=Twist(1.0, 300.0, "down"))),
        (("line_skew with its near end",), replace(joint, line_skew=(*joint.line_skew, Skew("", 1.0, "top")))),
        (("thickness_at at both edges",), replace(joint, thickness_at=(*joint.thickness_at, edges))),
    ]
