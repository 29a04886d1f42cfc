"""What is said about the machines there are and what is made for them."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _left_out(_say: Say, *, names: str, count: float) -> str:
    it = "it would read" if count == 1 else "they would read"
    return (
        f"Not made, for {it} less finely than this joint needs: {names}. "
        'To have them all the same: gauges = "all" in [printer].'
    )


SENTENCES: dict[str, Sentence] = {"gauges.left_out": _left_out}
