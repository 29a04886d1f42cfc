"""A file's text and the tables in it (TOML 1.0): one clear message for whatever is wrong with it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from scarfwright.models.job.problems import JobError, problem

LARGEST_BYTES = 1_000_000  # a job is a page of text; more is some other file
_LEAST = {
    "job": "at least [stock] thickness, height and [joint] ratio",
    "shop": "some of shop_has, [saw], [clamp], [printer], [laser], [router], [files]",
}


def read_text(path: Path, kind: str = "job") -> str:
    """The text of a job file (or of another `kind`), or a JobError that says why there is none."""
    try:
        data = _bytes(path, kind)
    except OSError as error:
        said = f"can't be read ({error.strerror}); expected a {kind} file in TOML"
        raise JobError(problem(str(path), said)) from None
    return text_of(data, str(path), kind)


def text_of(data: bytes, name: str, kind: str = "job") -> str:
    """The text of a file's bytes. Raises JobError."""
    if len(data) > LARGEST_BYTES:
        raise JobError(problem(name, f"larger than {LARGEST_BYTES} bytes; expected a {kind} file in TOML"))
    if not data.strip():
        raise JobError(problem(name, f"the file is empty; expected {_LEAST[kind]}"))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        said = f"byte {error.start} is not UTF-8 text; expected a {kind} file in TOML"
        raise JobError(problem(name, said)) from None
    if "\0" in text:
        raise JobError(problem(name, f"holds binary data; expected a {kind} file in TOML"))
    return text.replace("\r\n", "\n")


def _bytes(path: Path, kind: str) -> bytes:
    """What the file holds, no more than shows that it is too large. A pipe or a device is not even opened."""
    if not path.exists():
        hint = f" (make one with: scarfwright start {path})" if kind == "job" else ""
        raise JobError(problem(str(path), f"no such file; expected a {kind} file{hint}"))
    if path.is_dir():
        raise JobError(problem(str(path), f"is a folder; expected a {kind} file in TOML"))
    if not path.is_file():
        raise JobError(problem(str(path), f"is not an ordinary file; expected a {kind} file in TOML"))
    with path.open("rb") as file:
        return file.read(LARGEST_BYTES + 1)


def tables_of(text: str, name: str, kind: str = "job") -> dict[str, Any]:
    """The tables of TOML text; `name` stands for the file in messages. Raises JobError."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        line, place, what = _place(str(error), text)
        said = f'{what}; expected TOML such as: thickness = "22 mm"'
        raise JobError(problem(name, said, line=line, place=place)) from None
    except ValueError:  # the only other one: an integer of more digits than Python reads
        raise JobError(problem(name, f"a number of thousands of digits; expected a {kind} file in TOML")) from None
    except RecursionError:
        raise JobError(problem(name, f"nested too deeply; expected a {kind} file in TOML")) from None


def _place(message: str, text: str) -> tuple[int | None, str, str]:
    """tomllib's "... (at line 3, column 5)": the line, the place in words, and what is wrong there."""
    match = re.match(r"^(?P<what>.*?) \(at (?P<where>.*)\)$", message, re.DOTALL)
    if match is None:
        return None, "", message
    where = match["where"]
    if where == "end of document":
        last = text.rstrip("\n").split("\n")
        where = f"line {len(last)}, column {len(last[-1]) + 1} (end of the file)"
    line = re.match(r"line (\d+)", where)
    return (int(line[1]) if line else None), f", {where}", match["what"]
