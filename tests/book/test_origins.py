"""Every number with a unit that stands in a sentence of the book says where it comes from, there or in the sentence."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from scarfwright.models.words.the_book.figure import Figure, Origin, Told, measures_in, same, told_in
from scarfwright.outputs.book.blocks import Block, Cautions, Points, Steps, Table, Text, sentences
from scarfwright.outputs.book.chapters import CHAPTERS
from scarfwright.outputs.book.render import chapter_piece

from tests.book.books import EXAMPLES, PLANK, TRIALS, made, parsed, text_of, worked

SAYS_ITSELF = re.compile(
    r"no source\)|measure yours|\((?:[^)]*, )?(?:EN|HSE|FAA|ASTM) [^)]*\)|National Design Specification"
)
MEASURE_YOURS = "Measure yours"  # a list under this heading is one of assumed sizes
NO_FIGURE = {"90°", "0 mm", "0 in"}  # what a right angle is; where a board begins


@pytest.mark.parametrize(
    ("text", "measures"),
    [
        ("4.0 to 10.3 s at 66 mm", ("4.0 s", "10.3 s", "66 mm")),
        ("870 x 184 x 38 mm, 2 bolts", ("870 mm", "184 mm", "38 mm")),
        ('3/4" in 12"', ('3/4"', '12"')),
        ("1 1/2 in, 1/64 in; 0.078 in thick", ("1 1/2 in", "1/64 in", "0.078 in")),
        ("slope 11.97:1, 4.77°", ("11.97:1", "4.77°")),
        ("57 kg (126 lb), 45 MPa, 90 %", ("57 kg", "126 lb", "45 MPa", "90 %")),
        ("395 mm, 837.5 mm from", ("395 mm", "837.5 mm")),
        ("step 3 in 4 of A1-2", ("3 in",)),  # "3 in" is a length for whoever reads it
        ("12 inches, 5 minutes, no. 7", ()),
    ],
)
def test_measures_of_a_text(text: str, measures: tuple[str, ...]) -> None:
    assert measures_in(text) == measures


def test_only_what_a_sentence_tells_is_explained() -> None:
    known = [
        Figure("", name, value, Origin("formula", "x.")) for name, value in (("A", "66 mm"), ("B", "6 mm or 7 mm"))
    ]
    assert told_in(["at 166 mm and 66.5 mm"], known) == ()
    assert told_in(["at 66 mm", "and 7 mm"], known) == (Told(("66 mm",), known[0]), Told(("7 mm",), known[1]))


def untold(blocks: list[Block]) -> Iterator[str]:
    for block in blocks:
        if isinstance(block, Points) and block.heading == MEASURE_YOURS:
            continue
        parts = [(s.text, s.told) for s in block.steps] if isinstance(block, Steps) else []
        if isinstance(block, Text | Cautions | Points | Table):
            parts = [(text, block.told) for text in sentences(block)]
        for text, told in parts:
            named = " ".join(f"{one.figure.value} {one.figure.origin.text}" for one in told)
            itself = " ".join(s for s in re.split(r"(?<=\.) ", text) if SAYS_ITSELF.search(s))
            known = {same(one) for one in (*measures_in(named), *measures_in(itself), *NO_FIGURE)}
            yield from (f"{one} in {text!r}" for one in measures_in(text) if same(one) not in known)


@pytest.mark.parametrize("path", [*EXAMPLES, *TRIALS], ids=lambda path: path.stem)
def test_every_number_says_where_it_comes_from(path: Path) -> None:
    if not made(path):
        return
    work, planned = worked(text_of(path))
    missing = [f"{chapter.key}: {one}" for chapter in CHAPTERS for one in untold(chapter.blocks(work, planned))]
    assert missing == []


def test_it_is_on_the_page_at_the_sentence() -> None:
    work, planned = worked(text_of(PLANK))
    (saw,) = (chapter for chapter in CHAPTERS if chapter.key == "saw")
    items = parsed(chapter_piece(saw, work, planned).html).iterfind(".//ul[@class='steps']/li")
    (parallel,) = (one for one in items if "Fence parallel" in one.text_content())
    summary, listed = parallel.find(".//summary"), parallel.iterfind(".//details//li")
    assert summary is not None
    assert " ".join(summary.text_content().split()) == "222.8 mm: where from"
    assert [" ".join(one.text_content().split()) for one in listed] == [
        "From the tooth at the front to the back, 222.8 mm. Worked out. Twice the blade's reach at the table, 111.4 mm."
    ]
