"""Writing a zip of which every byte follows from the files in it: no time, no system, no compressor's version."""

from __future__ import annotations

import contextlib
import os
import tempfile
import zipfile
from collections.abc import Iterable
from pathlib import Path

EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest a zip can say


def write_zip(target: Path, folder: Path, names: Iterable[str], *, replace: bool) -> None:
    """Write the named files below `folder` to a zip, in that order; it takes its place when it is whole.

    Raises FileExistsError for a name that is taken where `replace` is not given, OSError for what can't be written.
    """
    handle, name = tempfile.mkstemp(prefix=".scarfwright-building-", dir=target.parent)
    building = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream, zipfile.ZipFile(stream, "w", zipfile.ZIP_STORED) as archive:
            for one in names:
                entry = zipfile.ZipInfo(one, EPOCH)
                entry.create_system = 0
                archive.writestr(entry, (folder / one).read_bytes())
        building.chmod(0o666 & ~_umask())  # as any new file; the temporary one is closed to others
        _put(building, target, replace=replace)
    finally:
        with contextlib.suppress(FileNotFoundError):
            building.unlink()


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _put(building: Path, target: Path, *, replace: bool) -> None:
    if replace:
        os.replace(building, target)
        return
    try:
        os.link(building, target)  # in one step, and never over a file that has come meanwhile
    except FileExistsError:
        raise
    except OSError:  # a disk without links
        if target.exists():
            raise FileExistsError(str(target)) from None
        building.rename(target)
