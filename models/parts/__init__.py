"""The registry of parts: every module in this folder with a `KIND` is one; nothing else needs an edit."""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module

from scarfwright.models.parts.kind import PartKind


@cache
def registry() -> dict[str, PartKind]:
    """All part kinds by name, in alphabetical order. Raises ValueError if two modules use one name."""
    kinds: dict[str, PartKind] = {}
    for module in sorted(pkgutil.iter_modules(__path__), key=lambda m: m.name):
        kind = getattr(import_module(f"{__name__}.{module.name}"), "KIND", None)
        if kind is None:
            continue
        if kind.name in kinds:
            raise ValueError(f"two parts are called {kind.name}")
        kinds[kind.name] = kind
    return kinds
