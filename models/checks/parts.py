"""Findings about the registry's parts. A part with a fault is left out; the job goes on without it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from scarfwright.models.findings import Finding, Level, faults, finding, register
from scarfwright.models.labels import LEAST_LETTER, letter_height, replaced, text_width
from scarfwright.models.part import Parameters, PartKind
from scarfwright.models.parts import registry
from scarfwright.models.say import say_in
from scarfwright.models.soundness import unsound
from scarfwright.models.workup import Workup

register(
    {
        "part.impossible": Level.FAULT,
        "part.out_of_range": Level.FAULT,
        "part.label_long": Level.CAUTION,
        "part.label_replaced": Level.NOTE,
    }
)


def check_part(kind: PartKind, work: Workup | None, given: Parameters) -> list[Finding]:
    """Everything wrong with a part of these parameters; `work` is None for a part built without a job."""
    parameters = kind.filled(given)
    found = list(_ranges(kind, parameters)) if work is None else []
    if not found and kind.check is not None:
        found = kind.check(work, parameters)
    if not faults(found):
        found += _shapes(kind, parameters)
    if not faults(found):
        found += _label(kind, work, parameters)
    return found


def job_parts(work: Workup) -> Iterator[tuple[PartKind, Parameters, list[Finding]]]:
    """Every part the job has a use for, with its parameters and what was found about it."""
    for kind in registry().values():
        parameters = kind.from_job(work)
        if parameters is not None:
            yield kind, parameters, check_part(kind, work, parameters)


def part_findings(work: Workup) -> list[Finding]:
    """Findings of all parts, a fault lowered to a caution that says the part is left out."""
    return [_left_out(kind, item) for kind, _, found in job_parts(work) for item in found]


def _left_out(kind: PartKind, item: Finding) -> Finding:
    if item.level is not Level.FAULT:
        return item
    text = f"{item.text} The {kind.name.replace('_', ' ')} is left out."
    return replace(item, level=Level.CAUTION, text=text)


def _ranges(kind: PartKind, parameters: Parameters) -> Iterator[Finding]:
    """What was typed in by hand is held against the ranges; a job's own numbers have been checked already."""
    for name, allowed in kind.ranges.items():
        value = parameters[name]
        if not allowed.least <= value <= allowed.most:
            unit = f" {allowed.unit}" if allowed.unit else ""
            yield finding(
                "part.out_of_range",
                f"{kind.name}: {name} is {value:g}{unit}, expected {allowed.least:g} to {allowed.most:g}{unit}.",
                parameter=name,
                value=float(value),
                least=allowed.least,
                most=allowed.most,
            )


def _shapes(kind: PartKind, parameters: Parameters) -> Iterator[Finding]:
    plain = {**parameters, "label": ""} if "label" in parameters else parameters
    try:
        wrong = unsound(kind.build(**plain))
    except (ValueError, ZeroDivisionError) as error:
        wrong = [f"can't be drawn ({error})"]
    if wrong:
        yield finding(
            "part.impossible",
            f"With these sizes the {kind.name.replace('_', ' ')} {' and '.join(wrong)}. Change the sizes named.",
            part=kind.name,
            wrong="; ".join(wrong),
        )


def _label(kind: PartKind, work: Workup | None, parameters: Parameters) -> Iterator[Finding]:
    text = parameters.get("label", "")
    if not text or kind.label_place is None:
        return
    shown, missing = replaced(text)
    if missing:
        yield finding(
            "part.label_replaced",
            f'The {kind.name.replace("_", " ")}\'s label "{text}" has signs the letters lack ({missing}): it reads "{shown}".',
            label=text,
            shown=shown,
            missing=missing,
        )
    room = kind.label_place(parameters)
    if letter_height(shown, room) is not None:
        return
    say = say_in(work.job.units if work is not None else "mm")
    needed = text_width(shown, LEAST_LETTER)
    yield finding(
        "part.label_long",
        f'The label "{shown}" takes {say(needed)} by {say(LEAST_LETTER)} in the smallest letters, and the '
        f"{kind.name.replace('_', ' ')} has {say(max(room.width, 0.0))} by {say(max(room.height, 0.0))} for it: it is left "
        "off. Give a shorter title or label, or write it on.",
        label=shown,
        needed_mm=needed,
        room_mm=max(room.width, 0.0),
        room_height_mm=max(room.height, 0.0),
    )
