"""The parts a job asks for, each with what was found about it: a part with a fault is not made, the others are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from scarfwright.models.findings import Finding, Level, faults, finding, register, worst_first
from scarfwright.models.part import Part, PartKind
from scarfwright.models.parts import registry
from scarfwright.models.plates import Laid, laid_flat
from scarfwright.models.say import say_in
from scarfwright.models.workup import Workup

register({"part.no_shape": Level.FAULT})


@dataclass(frozen=True)
class Wanted:
    """A kind of part the job asks for: `part` as it is on the user's side of the blade, None where it has a fault;
    `laid` as it is printed, empty where it is not; `count` how many."""

    kind: PartKind
    part: Part | None
    laid: tuple[Laid, ...]
    count: int
    findings: tuple[Finding, ...]


_latest: list[tuple[Workup, tuple[Wanted, ...]]] = []


def wanted(work: Workup) -> tuple[Wanted, ...]:
    """Every part of the registry that the job has a use for. Worked out once for each worked-out job."""
    if not _latest or _latest[0][0] is not work:
        _latest[:] = [(work, tuple(w for kind in registry().values() if (w := _wanted(kind, work)) is not None))]
    return _latest[0][1]


def part_findings(work: Workup) -> list[Finding]:
    """What was found about the parts, worst first. Their faults do not stop the job."""
    return worst_first([f for w in wanted(work) for f in w.findings])


def all_findings(work: Workup) -> list[Finding]:
    """About the job, then about its parts."""
    return [*work.findings, *part_findings(work)]


def _wanted(kind: PartKind, work: Workup) -> Wanted | None:
    if faults(list(work.findings)):
        return None  # sizes that follow from an impossible sled mean nothing
    parameters = kind.from_job(work)
    if parameters is None:
        return None
    found = [] if kind.check is None else list(kind.check(work, parameters))
    part = None
    if not faults(found):
        part, more = _built(kind, lambda: kind.build(**parameters))
        found += more
    laid: tuple[Laid, ...] = ()
    if part is not None:
        if kind.handed and work.job.saw.fence_side == "left":
            part = part.mirrored_y()
        if "print" in kind.goes_to:
            laid, more = laid_flat(part, work.job.printer, say_in(work.job.units))
            found += more
    return Wanted(kind, part, laid, kind.count(work), tuple(_named(f, kind) for f in found))


def _built(kind: PartKind, build: Callable[[], Part]) -> tuple[Part | None, list[Finding]]:
    """The part, or a finding where its loops can't be drawn with these sizes."""
    try:
        return build(), []
    except ValueError as error:
        name = kind.name.replace("_", " ")
        text = f"The {name} can't be drawn in the sizes this job gives it: {error}. It is left out."
        return None, [finding("part.no_shape", text)]


def _named(found: Finding, kind: PartKind) -> Finding:
    """Every finding says which part it is about."""
    return found if "part" in found.numbers else replace(found, numbers={"part": kind.name, **found.numbers})
