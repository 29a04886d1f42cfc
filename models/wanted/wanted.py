"""The parts a job asks for, each with what was found about it: a part with a fault is not made, the others are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from scarfwright.models.findings import Finding, faults
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.part import Part
from scarfwright.models.parts import registry
from scarfwright.models.parts.check import check_part
from scarfwright.models.parts.kind import Parameters, PartKind
from scarfwright.models.printing.plates import Laid, laid_flat


@dataclass(frozen=True)
class Wanted:
    """A kind of part the job asks for, what was found about it, whether that leaves it out, and how many there are.

    What is made of it is drawn only when asked for: its letters take longer than all its checks.
    """

    kind: PartKind
    parameters: Parameters
    work: Groundwork
    left_out: bool
    count: int
    findings: tuple[Finding, ...]

    @cached_property
    def part(self) -> Part | None:
        """The part as it is on the user's side of the blade; None where it is left out."""
        return None if self.left_out else sided(self.kind, self.parameters, self.work)

    @cached_property
    def laid(self) -> tuple[Laid, ...]:
        """The part as it is printed, in sections where it has to be; empty where it is not printed.

        No joint between sections runs through letters: where its label leaves no place for one, it goes without.
        """
        if self.part is None or "print" not in self.kind.goes_to:
            return ()
        printer = self.work.job.printer
        return laid_flat(self.part, printer)[0] or laid_flat(_plain(self.kind, self.parameters, self.work), printer)[0]


def wanted(work: Groundwork) -> tuple[Wanted, ...]:
    """Every part of the registry that the job has a use for, each with what was found about it."""
    return tuple(_wanted(work))


def _wanted(work: Groundwork) -> Iterator[Wanted]:
    for kind in registry().values():
        parameters = kind.from_job(work)
        if parameters is not None:
            yield _worked_out(kind, parameters, work)


def _worked_out(kind: PartKind, parameters: Parameters, work: Groundwork) -> Wanted:
    found = check_part(kind, work, parameters)
    left_out = bool(faults(found))
    if not left_out and "print" in kind.goes_to:
        found = [*found, *laid_flat(_plain(kind, parameters, work), work.job.printer)[1]]
    return Wanted(kind, parameters, work, left_out, kind.count(work), tuple(replace(f, part=kind.name) for f in found))


def _plain(kind: PartKind, parameters: Parameters, work: Groundwork) -> Part:
    """The part without its label, which takes longer to draw than all the rest."""
    return sided(kind, {**parameters, "label": ""} if "label" in parameters else parameters, work)


def sided(kind: PartKind, parameters: Parameters, work: Groundwork) -> Part:
    """The part on the user's side of the blade."""
    part = kind.drawn(parameters)
    return part.mirrored_y() if kind.handed and work.mirrored else part
