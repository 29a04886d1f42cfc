"""The packaged example jobs, and one of them as the beginning of somebody's own."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from importlib.resources import files

FIRST_EXAMPLE = "plank-metric"


@dataclass(frozen=True)
class Example:
    """A packaged job: its name, what it shows (the comment it begins with), and its file's text."""

    name: str
    shows: str
    text: str


def example(name: str) -> Example:
    """The example of this name. Raises KeyError."""
    found = files("scarfwright.examples") / f"{name}.toml"
    if name not in names():
        raise KeyError(name)
    text = found.read_text(encoding="utf-8")
    return Example(name, text.partition("\n")[0].removeprefix("#").strip(), text)


def names() -> list[str]:
    """The first example first, the others in alphabetical order."""
    there = (one.name for one in files("scarfwright.examples").iterdir())
    found = {name.removesuffix(".toml") for name in there if name.endswith(".toml")}
    return [FIRST_EXAMPLE, *sorted(found - {FIRST_EXAMPLE})]


def nearest(name: str) -> str:
    """The example whose name is most like this one."""
    return difflib.get_close_matches(name, names(), 1, 0.0)[0]


def listed() -> list[str]:
    """A line for each example: its name and what it shows."""
    width = max(map(len, names()))
    return [f"  {one.name:<{width}}  {one.shows}" for one in map(example, names())]
