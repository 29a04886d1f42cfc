"""The registry of parts: every module in this folder with a `KIND` is one, and what other packages add by entry points;
nothing else needs an edit."""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module

from scarfwright.models.parts.kind import PartKind
from scarfwright.models.parts.plug_ins import Refused, load


def registry() -> dict[str, PartKind]:
    """All part kinds by name, in alphabetical order, those of other packages among them. Raises ValueError if two
    modules of ours use one name."""
    return _all()[0]


def refused() -> tuple[Refused, ...]:
    """What other packages wanted to add and could not."""
    return _all()[1]


@cache
def _all() -> tuple[dict[str, PartKind], tuple[Refused, ...]]:
    kinds = own_parts()
    added, wrong = load(kinds)
    return dict(sorted({**kinds, **{kind.name: kind for kind in added}}.items())), tuple(wrong)


@cache
def own_parts() -> dict[str, PartKind]:
    """The part kinds of this project by name."""
    kinds: dict[str, PartKind] = {}
    for module in sorted(pkgutil.iter_modules(__path__), key=lambda m: m.name):
        kind = getattr(import_module(f"{__name__}.{module.name}"), "KIND", None)
        if kind is None:
            continue
        if kind.name in kinds:
            raise ValueError(f"two parts are called {kind.name}")
        kinds[kind.name] = kind
    return kinds
