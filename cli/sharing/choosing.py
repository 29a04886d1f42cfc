"""Which command is meant: a job file, or what somebody passed on. What belongs to the other is imported only then."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from scarfwright.cli.sharing.refusing import only_as_it_is, only_with_from
from scarfwright.cli.showing.checking import Tables, check_job
from scarfwright.outputs.share.shared import is_zip


def check_any(path: Path | None, tables: Tables, shop: Path | None, json: bool) -> int:
    """`check` of a job file, a zip or a folder. Returns the exit code. Raises JobError."""
    if path is None or not (path.is_dir() or is_zip(path)):
        return check_job(path, tables, json=json, shop=shop)
    from scarfwright.cli.sharing.checking import check_folder, check_zip

    look = check_folder if path.is_dir() else check_zip
    return only_as_it_is(path, ["shop"] if shop else []) or look(path, tables, json=json)


def make_any(
    path: Path | None,
    out: Path | None,
    only: str | None,
    json: bool,
    version: str,
    instead: dict[str, Any],
    shop: Path | None,
) -> int:
    """`make` of a job file or a zip. `instead`: keys of [files] given on the command line. Returns the exit code."""
    if path is None or path.is_dir() or not is_zip(path):
        from scarfwright.cli.making import make_job

        return make_job(path, out, only, json, version, instead, shop)
    from scarfwright.cli.sharing.making import make_zip

    given = [*(key for key, value in instead.items() if value is not None), *(["shop"] if shop else [])]
    return only_as_it_is(path, given) or make_zip(path, out, only, json, version)


def start_own(file: Path, source: Path | None, shop: Path | None, given: list[str]) -> int:
    """`start` with --from or --shop; `given`: its other options. Returns the exit code. Raises JobError."""
    from scarfwright.cli.sharing.owning import start_from

    return only_with_from(source, given) or start_from(file, source or Path(), shop)
