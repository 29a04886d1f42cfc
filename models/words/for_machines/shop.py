"""What is said about the machines there are and what is made for them."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _left_out(_say: Say, *, names: str, count: float) -> str:
    it = "it" if count == 1 else "they"
    return (
        f"Not made, as {it} would read less finely than this joint needs: {names}. "
        'To have them all the same: gauges = "all" in [printer].'
    )


SENTENCES: dict[str, Sentence] = {"gauges.left_out": _left_out}
