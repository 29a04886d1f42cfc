"""manifest.json: which versions made a folder or a zip, its numbers, and size and sha256 of every file in it.

The same job on the same versions has the same manifest: no time, no machine, no path stands in it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from scarfwright.models.sharing.names import clash, wrong_name

NAME = "manifest.json"
JOB = "job.toml"
NUMBERS = "numbers.json"
FORMAT = 1
LARGEST_BYTES = 1_000_000
MOST_FILES = 5000
DEEPEST = 20  # steps into the numbers; the tool's own have six
_SHA256 = re.compile(r"[0-9a-f]{64}", re.ASCII)
_VERSION = re.compile(r"[0-9A-Za-z.+!_-]{1,60}", re.ASCII)
_NAME = re.compile(r"[0-9A-Za-z._-]{1,100}", re.ASCII)
_LICENCE = re.compile(r"[0-9A-Za-z.+()\x20-]{1,500}", re.ASCII)


class ManifestError(ValueError):
    """A manifest that can't be used; `str()` says what was found and what was expected."""


@dataclass(frozen=True)
class Sealed:
    """One file as it was made: its sha256 (64 hexadecimal digits) and its size [bytes]."""

    sha256: str
    size: int


@dataclass(frozen=True)
class PlugIn:
    """A package that adds parts, by its distribution's name and version."""

    name: str
    version: str


@dataclass(frozen=True)
class Terms:
    """What a folder or zip says of itself besides its files: the plug-ins it needs, and the licence (an SPDX
    expression; None: all rights stay with the maker)."""

    plug_ins: tuple[PlugIn, ...] = ()
    licence: str | None = None


@dataclass(frozen=True)
class Manifest:
    """What made the files: the tool's version, the libraries' versions by name; the numbers they were made with; and
    every file by its path."""

    tool: str
    libraries: Mapping[str, str]
    numbers: Mapping[str, Any]
    files: Mapping[str, Sealed]
    terms: Terms = field(default_factory=Terms)


def kept_numbers(numbers: Mapping[str, Any]) -> dict[str, Any]:
    """What the manifest keeps of numbers.json: no plan, and of a finding its code and what it stops, no sentence."""
    kept = {key: value for key, value in numbers.items() if key not in ("plan", "findings", "format")}
    found = numbers.get("findings")
    if isinstance(found, list):
        kept["findings"] = [{key: one.get(key) for key in ("code", "level", "part", "stops")} for one in found]
    return kept


def manifest_text(manifest: Manifest) -> str:
    """The file's text: keys in order, so that the same content has the same bytes."""
    data = {
        "format": FORMAT,
        "tool": {"name": "scarfwright", "version": manifest.tool},
        "libraries": dict(manifest.libraries),
        "plug_ins": [{"name": one.name, "version": one.version} for one in manifest.terms.plug_ins],
        "licence": manifest.terms.licence,
        "numbers": dict(manifest.numbers),
        "files": {path: {"sha256": one.sha256, "bytes": one.size} for path, one in manifest.files.items()},
    }
    return json.dumps(data, indent=1, sort_keys=True, ensure_ascii=False, allow_nan=False) + "\n"


# -- reading, from whoever wrote it ----------------------------------------------------------------------------


def read_manifest(data: bytes) -> Manifest:
    """A manifest from the bytes of its file. Raises ManifestError."""
    if len(data) > LARGEST_BYTES:
        raise ManifestError(f"found more than {LARGEST_BYTES} bytes, expected a manifest")
    try:
        raw = json.loads(data.decode("utf-8"), object_pairs_hook=_once, parse_constant=_no_number)
    except ManifestError:
        raise
    except UnicodeDecodeError as error:
        raise ManifestError(f"byte {error.start} is not UTF-8 text; expected JSON") from None
    except RecursionError:
        raise ManifestError("found it nested too deeply, expected a manifest") from None
    except ValueError as error:  # no JSON, or a number of thousands of digits
        raise ManifestError(f"found no JSON ({error}), expected a manifest") from None
    if not isinstance(raw, dict):
        raise ManifestError(f"found {_kind(raw)}, expected an object with format {FORMAT}")
    made = raw.get("format")
    if isinstance(made, int) and not isinstance(made, bool) and made > FORMAT:
        raise ManifestError(f"found format {made}, expected {FORMAT} or older: get a newer scarfwright to read it")
    if made != FORMAT or isinstance(made, bool):
        raise ManifestError(f"found format {_kind(made) if not isinstance(made, int) else made}, expected {FORMAT}")
    tool = _object(raw, "tool")
    if tool.get("name") != "scarfwright":
        raise ManifestError("found another maker in tool name, expected scarfwright")
    numbers = _object(raw, "numbers")
    if _deeper(numbers, DEEPEST):
        raise ManifestError("numbers: found them nested too deeply, expected the numbers of a job")
    return Manifest(
        _text(tool, "version", _VERSION, "tool "),
        _libraries(_object(raw, "libraries")),
        numbers,
        _files(_object(raw, "files")),
        Terms(_plug_ins(raw.get("plug_ins")), _licence(raw)),
    )


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        twice = next(key for number, (key, _) in enumerate(pairs) if key in dict(pairs[:number]))
        raise ManifestError(f'found "{twice}" twice, expected every key once')
    return found


def _no_number(text: str) -> Any:
    raise ManifestError(f"found {text}, expected finite numbers")


def _deeper(value: object, most: int) -> bool:
    """Whether tables and lists lie in each other more than so many times."""
    layer = [value]
    for _ in range(most):
        layer = [
            inner
            for one in layer
            if isinstance(one, dict | list)
            for inner in (one.values() if isinstance(one, dict) else one)
        ]
    return bool(layer)


def _kind(value: object) -> str:
    names = {dict: "an object", list: "a list", str: "a text", bool: "true or false", type(None): "none"}
    return names.get(type(value), "a number")


def _object(raw: Mapping[str, Any], key: str) -> dict[str, Any]:
    value = raw.get(key)
    if not isinstance(value, dict):
        raise ManifestError(f"{key}: found {_kind(value)}, expected an object")
    return value


def _text(raw: Mapping[str, Any], key: str, form: re.Pattern[str], where: str = "") -> str:
    value = raw.get(key)
    if not isinstance(value, str) or not form.fullmatch(value):
        raise ManifestError(f"{where}{key}: found {_kind(value)} that is none, expected a plain {key}")
    return value


def _libraries(raw: dict[str, Any]) -> dict[str, str]:
    for name in raw:
        if not _NAME.fullmatch(name):
            raise ManifestError("libraries: found a name that is none, expected plain names")
    return {name: _text(raw, name, _VERSION, "libraries ") for name in raw}


def _plug_ins(raw: object) -> tuple[PlugIn, ...]:
    if not isinstance(raw, list) or not all(isinstance(one, dict) for one in raw):
        raise ManifestError(f"plug_ins: found {_kind(raw)}, expected a list of objects with name and version")
    return tuple(
        PlugIn(_text(one, "name", _NAME, "plug_ins "), _text(one, "version", _VERSION, "plug_ins ")) for one in raw
    )


def _licence(raw: dict[str, Any]) -> str | None:
    return None if raw.get("licence") is None else _text(raw, "licence", _LICENCE)


def _files(raw: dict[str, Any]) -> dict[str, Sealed]:
    if len(raw) > MOST_FILES:
        raise ManifestError(f"files: found {len(raw)}, expected at most {MOST_FILES}")
    found = {}
    for path, one in raw.items():
        wrong = wrong_name(path)
        if wrong or path == NAME:
            raise ManifestError(f"files: found {wrong or 'itself in its own list'}, expected plain names of files")
        if not isinstance(one, dict):
            raise ManifestError(f"files, {path}: found {_kind(one)}, expected sha256 and bytes")
        size = one.get("bytes")
        if not isinstance(size, int) or isinstance(size, bool) or size < 0:
            raise ManifestError(f"files, {path}: found {_kind(size)} for bytes, expected a whole number")
        found[path] = Sealed(_text(one, "sha256", _SHA256, f"files, {path}, "), size)
    both = clash(found)
    if both:
        raise ManifestError(f"files: found {both[0]} and {both[1]}, which fall on one file, expected each once")
    if JOB not in found:
        raise ManifestError(f"files: found no {JOB}, expected the job among them")
    return found
