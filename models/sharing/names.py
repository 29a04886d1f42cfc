"""Names of files that may stand in a zip or a manifest: plain ones below the folder, no two alike on any disk."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

LONGEST = 255  # characters of a whole path; the tool's own are a tenth of it


def wrong_name(name: str) -> str | None:
    """What is wrong with a path, in a word or two; None for a plain relative one."""
    if not name:
        return "an empty name"
    if "\0" in name:
        return "a NUL in its name"
    if any(unicodedata.category(c) in ("Cc", "Cs") for c in name):
        return "a control character in its name"
    if len(name) > LONGEST:
        return f"a name of {len(name)} characters"
    if "\\" in name:
        return "a backslash in its name"
    if name.startswith("/"):
        return "an absolute name"
    if ":" in name:
        return "a drive letter or a colon in its name"
    parts = name.split("/")
    if ".." in parts:
        return "a name that climbs out of the folder"
    if "" in parts or "." in parts:
        return "an empty step in its name"
    return None


def folded(name: str) -> str:
    """The name as a disk that tells no capitals, and writes accents one way, would keep it."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def clash(names: Iterable[str]) -> tuple[str, str] | None:
    """Two of the names that would fall on one file, or a file and a folder of one name; None if there are none."""
    files: dict[str, str] = {}
    for name in names:
        other = files.setdefault(folded(name), name)
        if other is not name:
            return other, name
    for key, name in files.items():
        steps = key.split("/")
        for count in range(1, len(steps)):
            above = "/".join(steps[:count])
            if above in files:
                return files[above], name
    return None
