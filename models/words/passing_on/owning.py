"""What is said when a job that was passed on is made one's own."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.sharing.own import Changed
from scarfwright.models.words.passing_on.papers import licence_line
from scarfwright.models.words.passing_on.verdict import plain_key

MEASURED = "measured on the other sled; measure yours once it is made"


def heading(source: str, tool: str, licence: str | None, shop: str | None) -> list[str]:
    """Comments at the head of the new job file."""
    mine = f"saw, clamps and machines from {shop}" if shop else "saw, clamps and machines assumed: measure yours"
    return [
        f"# Made your own from {source} (scarfwright {tool}): {mine}; the rest as it was passed on.",
        f"# {licence_line(licence)}",
    ]


def changed_rows(changed: Sequence[Changed]) -> list[tuple[str, str]]:
    """Each key of the shop that is another now: its name, and from what to what."""
    return [
        (
            plain_key(one.key),
            f"{one.theirs} there, {one.mine} yours" + ("" if one.given else " (assumed, measure it)"),
        )
        for one in changed
    ]
