"""Sealing a folder: its manifest, written after every other file."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from pathlib import Path

from scarfwright.models.sharing.manifest import (
    LARGEST_BYTES,
    NAME,
    NUMBERS,
    Manifest,
    ManifestError,
    Sealed,
    Terms,
    kept_numbers,
    manifest_text,
    read_manifest,
)
from scarfwright.models.sharing.versions import library_versions

CHUNK = 1 << 20


def seal(
    folder: Path, names: Iterable[str], tool: str, terms: Terms, kept: Mapping[str, Sealed] | None = None
) -> Manifest:
    """Write manifest.json for the named files of a folder. Raises OSError.

    `tool`: the version that made them. `kept`: files left from an earlier run, as they were made then: what has been
    changed since is not sealed anew.
    """
    old = kept or {}
    files = {name: old.get(name) or sealed(folder / name) for name in sorted(names)}
    numbers = folder / NUMBERS
    data = json.loads(numbers.read_text(encoding="utf-8")) if NUMBERS in files else {}
    manifest = Manifest(tool, library_versions(), kept_numbers(data), files, terms)
    (folder / NAME).write_text(manifest_text(manifest), encoding="utf-8", newline="\n")
    return manifest


def sealed(path: Path) -> Sealed:
    """Checksum and size of a file. Raises OSError."""
    digest, size = hashlib.sha256(), 0
    with path.open("rb") as file:
        while piece := file.read(CHUNK):
            digest.update(piece)
            size += len(piece)
    return Sealed(digest.hexdigest(), size)


def manifest_in(folder: Path) -> Manifest | None:
    """The manifest of a folder; None where there is none that can be used."""
    try:
        with (folder / NAME).open("rb") as file:
            return read_manifest(file.read(LARGEST_BYTES + 1))
    except (OSError, ManifestError):
        return None
