"""One figure, one rounding: what `check` says at a glance is what the tables and the card say; whole sentences only."""

from __future__ import annotations

import re
from pathlib import Path

from tests.cli_runs import run, write

YARD = """units = "in"
[stock]
thickness = "1 1/8 in"
height = "2 in"
length = "8 ft"
[joint]
ratio = "12:1"
[saw]
table_front = "16 1/2 in"
[clamp]
opening = "6 in"
"""
INCHES = r"((?:\d+ )?\d+(?:/\d+)? in)"
DECIMAL, FRACTION = re.compile(r"\d\.\d+ ?(?:in\b|\")"), re.compile(r"\d/\d+ ?(?:in\b|\")")


def mixed(text: str) -> list[str]:
    """Sentences with both a decimal and a fraction of an inch: nobody reads the two off one rule."""
    sentences = re.split(r"(?<=[.:;]) ", text)
    return [s for s in sentences if DECIMAL.search(s) and FRACTION.search(s)]


def test_a_figure_is_the_same_wherever_it_stands(tmp_path: Path) -> None:
    shown = " ".join(run("check", write(tmp_path, YARD), "--all", cwd=tmp_path).stdout.split())
    for pattern in (
        rf"{INCHES} short of the blade's centre",
        rf"(?:never past|travel limit|Travel limit) {INCHES}",
        rf"{INCHES} beyond the blade's centre",
        rf"(?:in long or more|sled at least|shortest for this cut) {INCHES}(?! from)",
    ):
        found = re.findall(pattern, shown)
        assert len(found) >= 2, pattern
        here = [f for f in found if f != "41 11/64 in"]  # the sled that running on would need is another sled
        assert len(set(here)) == 1, (pattern, found)
    assert mixed(shown) == []


def test_the_reason_for_a_length_is_a_whole_sentence(tmp_path: Path) -> None:
    shown = " ".join(run("check", write(tmp_path, YARD), cwd=tmp_path).stdout.split())
    told = shown[shown.index('Length "auto"') : shown.index("Write on the sled")].strip()
    assert "..." not in told
    assert told == (
        'Length "auto": 36 in is the shortest that serves. At 34 in: hands must stay 30 1/2 in or more from the heel, '
        "and a hand or a handle needs 4 in more."
    )


def test_a_mixed_sentence_is_seen() -> None:
    assert mixed("0.094 in thick (0.086 in or more), 1/8 in from the teeth.")
    assert not mixed("0.094 in thick (0.086 in or more). Set it 1/8 in from the teeth.")
