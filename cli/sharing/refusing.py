"""Options that make no sense together: what was passed on is checked and made as it is, for the saw it is for."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from pathlib import Path

from scarfwright.cli.problems import refuse


def only_as_it_is(source: Path, given: Sequence[str]) -> int:
    """The exit code for options that would make another job of a zip or a folder; 0 without any."""
    if not given:
        return 0
    option = f"--{given[-1].replace('_', '-')}"
    shop = " --shop my-shop.toml" if option == "--shop" else ""
    return refuse(
        f"{source}: {option}: found a job for its maker's saw and machines, expected it as it is; to make it your own: "
        f"scarfwright start mine.toml --from {shlex.quote(str(source))}{shop}",
        file=str(source),
        key=option,
    )


def only_with_from(source: Path | None, given: Sequence[str]) -> int:
    """The exit code for options of `start` that don't go together; 0 if they do."""
    if source is None:
        said = '--shop: found it alone, expected --from with it; in a job write: include = "my-shop.toml"'
        return refuse(said, key="--shop")
    if given:
        return refuse(f"{given[0]}: found it with --from, expected one of them", key=given[0])
    return 0
