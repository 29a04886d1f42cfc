"""A piece of a web page: the shop book puts pieces together in one file, a served page shows the same ones."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Piece:
    """One thing to look at or to work with.

    html: markup below `<section data-piece="key">`; no style attribute, no on... attribute, every id begins with `key-`
    script: plain JavaScript; it registers `scarfwright.pieces[key] = (root, data) => {...}`, which fills the section
        `root` and can be called again with the data of another job; `data` is what JSON makes of the field below
    style: CSS, every rule below `[data-piece=key]`
    """

    key: str
    html: str
    script: str = ""
    style: str = ""
    data: Mapping[str, object] = field(default_factory=dict)
