"""What the page shows of a job: what is wrong with it, or its numbers, findings and pieces. Keeps nothing."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from typing import Any

from scarfwright.models.findings import Remedy, faults
from scarfwright.models.job.file import job_from_dict, job_to_toml
from scarfwright.models.job.forms.schema import title
from scarfwright.models.job.problems import JobError, Problem
from scarfwright.models.job.reading.plain import plain_to_text
from scarfwright.models.job.tables import Job
from scarfwright.models.remedies.fields import field_of
from scarfwright.models.solve import work_up
from scarfwright.models.words.the_book.findings import GROUPS, grouped
from scarfwright.models.words.the_sled.remedies import said
from scarfwright.models.workup import Workup
from scarfwright.outputs.page.order import FIRST
from scarfwright.outputs.page.pieces import Shown, figures, pieces

TYPED = "job"  # stands for the file in problems of what was typed


def at_once(tables: Mapping[str, Any]) -> dict[str, Any]:
    """Figures, findings without their ways out, and the pieces one looks at first; or what is wrong with the job.

    Never raises for what was typed.
    """
    text = plain_to_text(tables)
    try:
        job = job_from_dict(dict(tables), TYPED)
    except JobError as error:
        return {"problems": [problem_data(one) for one in error.problems], "text": text}
    work = work_up(job, advice=False)
    shown = pieces(work, FIRST)
    return {
        "problems": [],
        "text": text,
        "ticket": ticket(job),
        "stops": bool(faults(list(work.findings))),
        "figures": [
            {"key": one.key, "label": one.label, "value": one.value, "main": one.main} for one in figures(work)
        ],
        "findings": findings(work),
        **as_data(shown),
    }


def as_data(shown: Sequence[Shown]) -> dict[str, Any]:
    """Pieces for the page: their markup, and the data for those that have a script."""
    return {
        "pieces": [{"key": one.key, "title": one.title, "html": one.piece.html} for one in shown],
        "data": {one.piece.key: dict(one.piece.data) for one in shown if one.piece.script},
    }


def ticket(job: Job) -> str:
    """What files made of the job are known by: sha256 of the job.toml that lies among them."""
    return hashlib.sha256(job_to_toml(job).encode()).hexdigest()


def problem_data(one: Problem) -> dict[str, Any]:
    """The key as data, and what is to be said beside its field."""
    head = f"{one.file}: {one.key}: "
    text = one.text.removeprefix(head) if one.key else one.text.removeprefix(f"{one.file}: ")
    missing = text.startswith("is missing")
    return {"path": list(one.path), "missing": missing, "text": text[:1].upper() + text[1:]}


def findings(work: Workup) -> list[dict[str, Any]]:
    """Every finding once, worst group first, with the key it leads to and the changes that mend it."""
    found = []
    for group, those in grouped({(one.code, one.text): one for one in work.findings}.values()):
        for one in those:
            key = field_of(one)
            found.append(
                {
                    "group": group,
                    "grave": GROUPS.index(group),
                    "code": one.code,
                    "text": one.text,
                    "path": key.split(".") if key else [],
                    "field": None if key is None else _in_words(key),
                    "ways": [_way(remedy) for remedy in one.remedies],
                }
            )
    return found


def _in_words(key: str) -> str:
    """Where a key stands in the form: "Saw: kerf"."""
    table, _, name = key.partition(".")
    return f"{title(table)}: {title(name).lower()}" if name else title(table)


def _way(remedy: Remedy) -> dict[str, Any]:
    return {"said": said(remedy), "changes": [{"path": key.split("."), "value": v} for key, v in remedy]}
