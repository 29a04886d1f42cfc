"""Spelling by codespell (its list of common slips), and words that stand twice, over code, comments, texts and docs."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from tests.test_words import source_texts

ROOT = Path(__file__).parent.parent
READ = ("models", "outputs", "cli", "tests", "examples", "README.md", "DEVELOPERS.md", "pyproject.toml")
# right as they stand: trade words, symbols, and the wrong words that tests of the reader use
KNOWN = ("planed", "mor", "statics", "heigth", "lenght", "titel", "chek", "jont", "thicknes")
REPEATED = re.compile(r"\b([a-z]{2,}) \1\b", re.IGNORECASE)


def slips(*paths: str | Path) -> list[str]:
    command = [sys.executable, "-m", "codespell_lib", "--quiet-level", "3", "--ignore-words-list", ",".join(KNOWN)]
    command += ["--skip", "*.svg,*.json,*.pyc", *map(str, paths)]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False).stdout.splitlines()


def test_no_common_slip() -> None:
    assert not slips(*READ)


def test_a_slip_is_seen(tmp_path: Path) -> None:
    (tmp_path / "slip.txt").write_text("Set the fence to the figure that was rec" + "ieved.")
    assert len(slips(tmp_path)) == 1


def test_no_word_stands_twice() -> None:
    twice = [f"{where}: {m[0]}" for where, text in source_texts() for m in REPEATED.finditer(text)]
    prose = (ROOT / "README.md").read_text() + (ROOT / "DEVELOPERS.md").read_text()
    twice += [m[0] for m in REPEATED.finditer(re.sub(r"```.*?```", "", prose, flags=re.DOTALL))]
    assert not twice


def test_a_word_that_stands_twice_is_seen() -> None:
    assert REPEATED.search("so that the the board lies flat")
    assert not REPEATED.search("so that the theme lies flat")
