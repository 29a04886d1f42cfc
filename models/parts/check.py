"""Findings about one of the registry's parts, whether a job asks for it or not."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, faults, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.label import place_findings
from scarfwright.models.part.one_body import unsound
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind


def check_part(kind: PartKind, work: Groundwork | None, given: Given) -> list[Finding]:
    """Everything wrong with a part of these parameters; `work` is None for a part built without a job."""
    parameters = kind.filled(given)
    found = kind.check(work, parameters) if kind.check is not None else []
    if not faults(found):
        found = [*found, *_shapes(kind, parameters)]
    if not faults(found):
        found = [*found, *_label(kind, parameters)]
    return found


def _shapes(kind: PartKind, parameters: Values) -> Iterator[Finding]:
    try:
        wrong = unsound(kind.drawn(parameters.plain()))
    except (ValueError, ZeroDivisionError) as error:
        wrong = [f"can't be drawn ({error})"]
    if wrong:
        yield finding("part.impossible", part=kind.name, wrong="; ".join(wrong))


def _label(kind: PartKind, parameters: Values) -> list[Finding]:
    text = parameters.text("label")
    if not text or kind.label_place is None:
        return []
    return place_findings(kind.name.replace("_", " ").capitalize(), text, kind.label_place(parameters))
