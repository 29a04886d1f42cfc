"""A job for tests of the cut, with whatever a test changes."""

from __future__ import annotations

from typing import Any

from scarfwright.models.findings import Finding
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.tables import Job
from scarfwright.models.solve import work_out
from scarfwright.models.workup import Workup

# A plank job that has a knife, stands on its table and needs no support: no finding of the cut.
QUIET: dict[str, Any] = {
    "stock": {"thickness": "22 mm", "height": "60 mm", "length": "900 mm"},
    "joint": {"ratio": 12},
    "saw": {
        "kerf": "2.5 mm",
        "plate": "1.8 mm",
        "riving_knife": "2.2 mm",
        "table_front": "800 mm",
        "hands_clear": "150 mm",
        "fence_front": "450 mm",
        "max_depth": "79 mm",
    },
    "clamp": {"opening": "120 mm", "pad_width": "30 mm"},
    "sled": {"plank": ["38 mm", "184 mm"], "length": "850 mm"},
}


def raw(**tables: dict[str, Any]) -> dict[str, Any]:
    """The quiet job's tables with some keys changed; a key set to None is left out."""
    merged = {name: dict(table) for name, table in QUIET.items()}
    for name, changes in tables.items():
        table = merged.setdefault(name, {})
        table.update(changes)
        merged[name] = {key: value for key, value in table.items() if value is not None}
    return merged


def job(**tables: dict[str, Any]) -> Job:
    return job_from_dict(raw(**tables))


def worked(**tables: dict[str, Any]) -> Workup:
    return work_out(job(**tables))


def of_code(work: Workup, code: str) -> list[Finding]:
    return [f for f in work.findings if f.code == code]
