"""`scarfwright start --from`: a job that was passed on made one's own."""

from __future__ import annotations

import shlex
from pathlib import Path

from scarfwright.cli.interruption import Interruption
from scarfwright.cli.showing import say
from scarfwright.cli.starting import NO_FILE, taken, write_new
from scarfwright.cli.terminal import visible
from scarfwright.models.job.reading.shop_file import Shop, read_shop
from scarfwright.models.job.tables import Job
from scarfwright.models.sharing.manifest import Manifest
from scarfwright.models.sharing.own import own_job
from scarfwright.models.words.passing_on import owning as words
from scarfwright.models.words.passing_on.verdict import plain_key
from scarfwright.outputs.share.shared import job_of, read_folder, read_shared


def start_from(file: Path, source: Path, shop_file: Path | None) -> int:
    """Write the new job file unless its name is taken. Returns the exit code. Raises JobError, OSError."""
    if file.exists():
        return taken(file)
    Interruption.so_far = NO_FILE
    manifest, theirs = _passed_on(source)
    shop = None if shop_file is None else read_shop(shop_file)
    include = _beside(file, shop_file)
    name = None if shop_file is None else visible(shop_file.name).replace("\n", " ")
    heading = words.heading(visible(source.name).replace("\n", " "), manifest.tool, manifest.terms.licence, name)
    own = own_job(theirs, shop, include, heading)
    written = write_new(file, own.text)
    if written:
        return written
    screen = say.console()
    screen.print(f"{file}: {own.job.title or 'untitled'}", style="bold")
    screen.print(_where(shop, include, name))
    if own.changed:
        screen.print(say.pairs("Others now", words.changed_rows(own.changed)))
    else:
        screen.print("Saw, clamps and machines have the same sizes as there.")
    if own.left_out:
        screen.print(f"Left out: {', '.join(map(plain_key, own.left_out))} ({words.MEASURED}).")
    screen.print(f"Set your board in it, then run: scarfwright check {shlex.quote(str(file))}")
    return 0


def _passed_on(source: Path) -> tuple[Manifest, Job]:
    """Of a zip, or of the folder it was unpacked to."""
    if source.is_dir():
        return read_folder(source), job_of(source)
    shared = read_shared(source)
    return shared.manifest, shared.job


def _beside(file: Path, shop: Path | None) -> str | None:
    """The shop file's name where it lies beside the new job, which then includes it."""
    if shop is None or not shop.is_file() or shop.resolve().parent != file.parent.resolve():
        return None
    return shop.name


def _where(shop: Shop | None, include: str | None, name: str | None) -> str:
    if shop is None:
        return "Saw, clamps and machines are assumed, none are theirs: measure yours, or give --shop my-shop.toml."
    if include:
        return f"Saw, clamps and machines come from {name}, which it includes; the rest is as it was passed on."
    return f"Saw, clamps and machines are copied from {name}; the rest is as it was passed on."
