"""`scarfwright share`: a job with all its files in one zip, the same bytes for the same job."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from scarfwright.cli.interruption import Interruption
from scarfwright.cli.jobs import find
from scarfwright.cli.making import Ready, make_files, make_ready
from scarfwright.cli.problems import refuse
from scarfwright.cli.showing import say
from scarfwright.cli.terminal import json_out, visible
from scarfwright.models.sharing.licences import LicenceError, licence_named
from scarfwright.models.sharing.manifest import NAME, Manifest, Terms
from scarfwright.models.words.passing_on.papers import licence_line, whose_saw
from scarfwright.outputs.make import GROUPS
from scarfwright.outputs.share.papers import FIRST, papers
from scarfwright.outputs.share.seal import seal, sealed
from scarfwright.outputs.share.zip_out import write_zip


def share_job(
    path: Path | None, out: Path | None, licence: str | None, force: bool, json: bool, version: str, shop: Path | None
) -> int:
    """Returns the exit code: 1 for a job with faults, 2 for a name that can't be used. Raises JobError, OSError."""
    try:
        chosen = None if licence is None else licence_named(licence)
    except LicenceError as error:
        return refuse(f"--licence: {error}", key="--licence")
    found = find(path, shop)
    target = out if out is not None else found.file.with_name(f"{found.file.stem}.zip")
    wrong = _unusable(target, found.file if path is not None else None, force)
    if wrong:
        return refuse(f"{target}: {wrong}", file=str(target))
    ready = make_ready(found.job, found.file, set(GROUPS), json)
    if isinstance(ready, int):
        return ready
    try:
        manifest = _pack(ready, target, Terms(ready.terms.plug_ins, chosen), version, replace=force)
    except FileExistsError:
        return refuse(f"{target}: {_TAKEN}", file=str(target))
    except OSError as error:
        said = f"can't be written ({error.strerror}); expected a place that can be written to; no zip was written"
        return refuse(f"{target}: {said}", file=str(target))
    Interruption.so_far = f"{visible(str(target))} is written"
    if json:
        files = [NAME, *manifest.files]
        data = {"zip": str(target), "sha256": sealed(target).sha256, "files": files, "licence": chosen}
        json_out({**data, **found.shop_data()})
        return 0
    screen = say.console()
    screen.print(f"{target}: {len(manifest.files) + 1} files, {target.stat().st_size / 1e6:.1f} MB", style="bold")
    if found.shop_line:
        screen.print(found.shop_line)
    screen.print(f"It says for which saw and clamps it is: {whose_saw(found.job)}.")
    screen.print(licence_line(chosen) + ("" if chosen else " Another: --licence CC-BY-4.0, say."))
    say.findings(ready.work.findings, screen, whole=False)
    return 0


_TAKEN = "is there already and is left as it is; expected a name not yet taken, or --force"


def _unusable(target: Path, job: Path | None, force: bool) -> str:
    """Why a zip can't be written there; empty if it can."""
    if target.suffix.lower() != ".zip":
        return "expected a file name that ends in .zip"
    if target.is_dir() or not target.parent.is_dir():
        what = "is a folder" if target.is_dir() else f"there is no folder {target.parent}"
        return f"{what}; expected a file to write in a folder that is there"
    if target.exists() and (not force or (job is not None and job.exists() and target.samefile(job))):
        return _TAKEN
    return ""


def _pack(ready: Ready, target: Path, terms: Terms, version: str, *, replace: bool) -> Manifest:
    """Make everything beside the target, seal it, and write the zip. Raises OSError."""
    room = Path(tempfile.mkdtemp(prefix=".scarfwright-building-", dir=target.parent))
    try:
        todo = [*ready.todo, *papers(ready.work, terms.licence)]
        make_files(todo, room)
        manifest = seal(room, [item.path for item in todo], version, terms)
        write_zip(target, room, in_order(manifest), replace=replace)
    finally:
        shutil.rmtree(room, ignore_errors=True)
    return manifest


def pack_made(ready: Ready, made: Path, target: Path, version: str) -> None:
    """The same zip out of a folder in which everything has just been made, with all rights kept. Raises OSError."""
    room = Path(tempfile.mkdtemp(prefix=".scarfwright-building-", dir=target.parent))
    try:
        more = papers(ready.work, None)
        for item in ready.todo:
            (room / item.path).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(made / item.path, room / item.path)
        make_files(more, room, lambda *_: None)
        manifest = seal(room, [item.path for item in (*ready.todo, *more)], version, Terms(ready.terms.plug_ins))
        write_zip(target, room, in_order(manifest), replace=True)
    finally:
        shutil.rmtree(room, ignore_errors=True)


def in_order(manifest: Manifest) -> list[str]:
    """What to read first comes first, then the manifest, the rest by name."""
    return [FIRST, NAME, *sorted(name for name in manifest.files if name != FIRST)]
