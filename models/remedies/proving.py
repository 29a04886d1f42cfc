"""Tries what is proposed on the job itself: only what mends its finding in one step and breaks nothing is told."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from scarfwright.models.findings import Finding, Level, Remedy
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import LengthError
from scarfwright.models.remedies.afresh import afresh
from scarfwright.models.remedies.applying import applied
from scarfwright.models.remedies.cut import OF_THE_SAW
from scarfwright.models.remedies.ways import WAYS

MOST_TOLD = 3
MOST_TRIED = 40  # of one kind of change, for one finding
ENOUGH = 400  # sleds worked out for one job; "auto" works out about AUTO of them
AUTO = 12

Key = tuple[str, str]
Judge = Callable[[Job], Sequence[Finding]]


def with_remedies(work: Groundwork, found: Iterable[Finding], judge: Judge) -> tuple[Finding, ...]:
    """The findings, each with the remedies that stood the trial. `judge` gives the findings of a changed job."""
    trial = _Trial(work.job, tuple(found), judge)
    return tuple(replace(one, remedies=tuple(trial.remedies(work, one))) for one in trial.found)


def same(one: Finding) -> Key:
    """What makes two findings the same in two versions of a job: the code, and which clamp or notch it is about."""
    return one.code, str(one.numbers.get("where", ""))


class _Trial:
    def __init__(self, job: Job, found: tuple[Finding, ...], judge: Judge) -> None:
        self.job, self.found, self.judge = job, found, judge
        self.before = Counter(same(f) for f in found)
        self.left = ENOUGH
        self.after: dict[str, tuple[Counter[Key], Counter[Key]]] = {}

    def remedies(self, work: Groundwork, one: Finding) -> Iterator[Remedy]:
        told = 0
        for family in WAYS[one.code](work, one) if one.code in WAYS else ():
            first = next((r for r, _ in zip(family, range(MOST_TRIED), strict=False) if self.mends(r, one)), None)
            if first is not None:
                yield first
                told += 1
            if told == MOST_TOLD:
                return
        if told == 0 and one.level is Level.FAULT and one.code in WAYS and one.code not in OF_THE_SAW:
            yield from [r for r in afresh(work) if self.mends(r, one)][:1]

    def mends(self, remedy: Remedy, one: Finding) -> bool:
        """Whether the finding is gone and no fault has come that was not there."""
        if repr(remedy) not in self.after and self.left <= 0:
            return False
        try:
            every, wrong = self._tried(remedy)
        except LengthError:
            return False  # a size below nothing can't be written into a job
        return every[same(one)] < self.before[same(one)] and all(n <= self.before[key] for key, n in wrong.items())

    def _tried(self, remedy: Remedy) -> tuple[Counter[Key], Counter[Key]]:
        name = repr(remedy)
        if name not in self.after:
            changed = applied(self.job, remedy)
            self.left -= AUTO if changed.sled.length == "auto" else 1
            found = self.judge(changed)
            wrong = Counter(same(f) for f in found if f.level is Level.FAULT)
            self.after[name] = (Counter(same(f) for f in found), wrong)
        return self.after[name]
