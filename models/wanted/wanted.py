"""The parts a job asks for, each with what was found about it: a part with a fault is not made, the others are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from scarfwright.models.findings import Finding, faults, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.shop import cutter, prints_gauges
from scarfwright.models.job.tables import Job
from scarfwright.models.part.part import Part
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts import registry
from scarfwright.models.parts.check import check_part
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.printing.laying import Laid, laid_flat
from scarfwright.models.wanted.plug_ins import failed, looked_through

# how every finding ends that says a gauge reads less finely than the joint needs, or can't tell good from bad at all
COARSE = (".coarse", ".slots_alike")


@dataclass(frozen=True)
class Wanted:
    """A kind of part the job asks for, what was found about it, whether that leaves it out, and how many there are.

    `coarse`: left out because it would not read finely enough for the joint. What is made of it is drawn only when
    asked for: its letters take longer than all its checks.
    """

    kind: PartKind
    parameters: Values
    work: Groundwork
    left_out: bool
    count: int
    findings: tuple[Finding, ...]
    printed: bool = False
    coarse: bool = False

    @cached_property
    def part(self) -> Part | None:
        """The part as it is on the user's side of the blade; None where it is left out."""
        return None if self.left_out else sided(self.kind, self.parameters, self.work)

    @cached_property
    def reads(self) -> Values:
        """How well it measures and what follows from it; nothing for what is no gauge."""
        return self.kind.reads(self.work, self.parameters)

    @cached_property
    def laid(self) -> tuple[Laid, ...]:
        """The part as it is printed, in sections where it has to be; empty where it is not printed.

        No joint between sections runs through letters: where its label leaves no place for one, it goes without.
        """
        if self.part is None or not self.printed:
            return ()
        printer = self.work.job.printer
        return laid_flat(self.part, printer)[0] or laid_flat(_plain(self.kind, self.parameters, self.work), printer)[0]


def wanted(work: Groundwork) -> tuple[Wanted, ...]:
    """Every part of the registry that the job has a use for, each with what was found about it."""
    return tuple(_wanted(work))


def _wanted(work: Groundwork) -> Iterator[Wanted]:
    for kind in registry().values():
        if is_printed(kind, work.job) or _is_made_otherwise(kind, work.job):
            yield from _asked(kind, work)


def _asked(kind: PartKind, work: Groundwork) -> Iterator[Wanted]:
    """The part, if the job has a use for it; one of another package that fails is left out and says so."""
    try:
        parameters = kind.from_job(work)
        if parameters is not None:
            one = _worked_out(kind, kind.filled(parameters), work)
            if kind.origin is not None:
                looked_through(one)
            yield one
    except (Exception, SystemExit) as error:
        if kind.origin is None:
            raise
        yield Wanted(kind, Values(), work, left_out=True, count=0, findings=(failed(kind, error),))


def is_printed(kind: PartKind, job: Job) -> bool:
    """Whether the shop prints it: there is a printer, and [printer] gauges does not choose others."""
    chosen = isinstance(job.printer.gauges, str) or kind.name in job.printer.gauges
    return "print" in kind.goes_to and prints_gauges(job) and chosen


def _is_made_otherwise(kind: PartKind, job: Job) -> bool:
    """The sled and what belongs to it in any shop; gauges that are cut flat where something cuts flat."""
    return "print" not in kind.goes_to or kind.any_shop or ("flat" in kind.goes_to and cutter(job) is not None)


def _worked_out(kind: PartKind, parameters: Values, work: Groundwork) -> Wanted:
    found = check_part(kind, work, parameters)
    printed = is_printed(kind, work.job)
    coarse = work.job.printer.gauges == "useful" and any(f.code.endswith(COARSE) for f in found)
    left_out = coarse or bool(faults(found))
    if coarse:
        found = []  # one note names all that are left out for this
    if not left_out and printed:
        found = [*found, *laid_flat(_plain(kind, parameters, work), work.job.printer)[1]]
    told = tuple(replace(f, part=kind.name) for f in found)
    return Wanted(kind, parameters, work, left_out, kind.count(work), told, printed, coarse)


def left_out_as_coarse(parts: Iterable[Wanted]) -> list[Finding]:
    """One note for all gauges that would not read finely enough for this joint."""
    names = [one.kind.name.replace("_", " ") for one in parts if one.coarse]
    return [finding("gauges.left_out", names=", ".join(names), count=float(len(names)))] if names else []


def _plain(kind: PartKind, parameters: Values, work: Groundwork) -> Part:
    """The part without its label."""
    return sided(kind, parameters.plain(), work)


def sided(kind: PartKind, parameters: Given, work: Groundwork) -> Part:
    """The part on the user's side of the blade."""
    part = kind.drawn(parameters)
    return part.mirrored_y() if kind.handed and work.mirrored else part
