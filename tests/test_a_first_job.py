"""A person's way through a first job in inches: start, five edits, check, make, the card opened; every text read."""

from __future__ import annotations

import re
from pathlib import Path

import pdfplumber

from tests.cli_runs import run

# what is typed in place of what `start` wrote: a key, and its new value
EDITS = {
    "title": '"Yard of a lugger, Ялик 木"',  # the last letter is in no font of the sheets
    "stock.thickness": '"1 1/8 in"',
    "stock.height": '"2 in"',
    "clamp.opening": '"6 in"',
    "saw.table_front": '"16 1/2 in"',
}
MILLIMETRES = re.compile(r"\d ?mm\b")
# sold so, a published figure in its own unit beside the inches, or one of the two bars to check a print by
AS_SOLD = (
    r"0\.\d+ mm \(",
    r"\(\d+ mm\)",
    r"\d+ mm \(\d",
    r"\b100 mm\b",
)


def edited(text: str) -> str:
    for key, value in EDITS.items():
        text, count = re.subn(rf"(?m)^(# )?{re.escape(key)} = [^#\n]*", f"{key} = {value} ", text, count=1)
        assert count == 1, key
    return text


def millimetres(text: str) -> list[str]:
    """Every line that speaks millimetres, but for what is sold so."""
    for allowed in AS_SOLD:
        text = re.sub(allowed, "", text)
    return [line for line in text.splitlines() if MILLIMETRES.search(line)]


def test_from_start_to_an_opened_card_in_inches(tmp_path: Path) -> None:
    started = run("start", "yard.toml", "--units", "in", cwd=tmp_path)
    assert started.returncode == 0
    job = tmp_path / "yard.toml"
    job.write_text(edited(job.read_text(encoding="utf-8")), encoding="utf-8")
    checked = run("check", "yard.toml", cwd=tmp_path)
    assert checked.returncode == 0
    assert len(checked.stdout.splitlines()) <= 40
    made = run("make", "yard.toml", "--only", "paper", cwd=tmp_path)
    assert made.returncode == 0
    texts = {"start": started.stdout, "check": checked.stdout, "make": made.stdout + made.stderr}
    texts["check --all"] = run("check", "yard.toml", "--all", cwd=tmp_path).stdout
    papers = sorted((tmp_path / "yard-files" / "paper").glob("*.pdf"))
    for paper in papers:
        with pdfplumber.open(paper) as pages:
            texts[paper.name] = "\n".join(page.extract_text() for page in pages.pages)
    assert {"setup-card.pdf", "sled.pdf", "measure-me.pdf", "joint.pdf", "glue-up.pdf"} <= set(texts)
    card = texts["setup-card.pdf"]
    assert "Yard of a lugger, Ялик ?" in card
    told = " ".join(texts["make"].split())
    assert '"木" by "?"' in told
    assert "Open first: yard-files/index.html" in told
    assert "BEFORE ANYTHING ELSE: sawing can maim" in card
    fence = re.search(r"fence +heel as measured \+ 1/64 in: ([\d /]+) in", texts["check"])
    assert fence is not None
    assert fence[1] in card, "the card sets the fence that check told"
    assert {name: found for name, text in texts.items() if (found := millimetres(text))} == {}


def test_millimetres_are_seen() -> None:
    assert millimetres("fence 153.4 mm from the blade") == ["fence 153.4 mm from the blade"]
    assert not millimetres("a feeler of 0.4 mm (1/64 in), 12 in (300 mm) from the blade")
