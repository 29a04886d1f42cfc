"""What a chapter is made of: blocks of data, turned into markup by blocks.html."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from scarfwright.models.words.the_book.figure import Figure, Told, told_in
from scarfwright.models.words.the_book.record import Blank
from scarfwright.models.words.the_book.told_at_the_saw import OF_CHECK
from scarfwright.outputs.narrow.scene import Scene


@dataclass(frozen=True)
class Text:
    """A paragraph; `told`: where its numbers come from, as with every block that has it."""

    text: str
    strong: bool = False
    told: tuple[Told, ...] = ()
    kind: str = "text"


@dataclass(frozen=True)
class Cautions:
    """What can hurt, worst first."""

    texts: tuple[str, ...]
    heading: str = "Cautions"
    told: tuple[Told, ...] = ()
    kind: str = "cautions"


@dataclass(frozen=True)
class Points:
    """A list under a heading, nothing to tick."""

    heading: str
    texts: tuple[str, ...]
    told: tuple[Told, ...] = ()
    kind: str = "points"


@dataclass(frozen=True)
class Facts:
    """Figures, each with where it comes from."""

    heading: str
    figures: tuple[Figure, ...]
    kind: str = "facts"


@dataclass(frozen=True)
class Step:
    """One thing to do or to look at."""

    text: str
    what: str = ""
    told: tuple[Told, ...] = ()


@dataclass(frozen=True)
class Steps:
    """Steps to tick off. `name`: of letters, its own in the chapter."""

    name: str
    heading: str
    steps: tuple[Step, ...]
    numbered: bool = True
    kind: str = "steps"


@dataclass(frozen=True)
class Drawings:
    """Narrow scenes, and the sheet of paper where the same stands at its best."""

    scenes: tuple[Scene, ...]
    sheet: str = ""
    kind: str = "drawings"


@dataclass(frozen=True)
class Table:
    """Rows under column heads; the first cell of a row names it."""

    heading: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    told: tuple[Told, ...] = ()
    kind: str = "table"


@dataclass(frozen=True)
class Hole:
    """Where a piece made elsewhere belongs, under its heading; nothing where it is not there."""

    key: str
    heading: str
    kind: str = "hole"


@dataclass(frozen=True)
class Record:
    """Blanks to fill in, under their headings."""

    parts: tuple[tuple[str, tuple[Blank, ...]], ...]
    kind: str = "record"


@dataclass(frozen=True)
class Leaves:
    """What lies in which file: it lists whatever the folder has."""

    kind: str = "leaves"


Block = Text | Cautions | Points | Facts | Steps | Drawings | Table | Hole | Record | Leaves


def steps(name: str, heading: str, texts: Sequence[str], *, numbered: bool = True) -> Steps:
    """Steps from their texts; a number that a text begins with is left to the list."""
    return Steps(name, heading, tuple(Step(_bare(text)) for text in texts), numbered)


def with_origins(blocks: Iterable[Block], known: Sequence[Figure]) -> list[Block]:
    """The same blocks, and with every sentence that tells known figures where they come from."""
    found: list[Block] = []
    for block in blocks:
        if isinstance(block, Steps):
            told = tuple(replace(step, told=told_in([step.text], _of(step, known))) for step in block.steps)
            found.append(replace(block, steps=told))
        elif isinstance(block, Text | Cautions | Points | Table):
            found.append(replace(block, told=told_in(sentences(block), known)))
        else:
            found.append(block)
    return found


def _of(step: Step, known: Sequence[Figure]) -> list[Figure]:
    labels = OF_CHECK.get(step.what)
    return [one for one in known if labels is None or one.label.startswith(labels)]


def sentences(block: Block) -> list[str]:
    """The texts of a block that numbers may stand in; none of figures and drawings, whose numbers are the figures'."""
    if isinstance(block, Text):
        return [block.text]
    if isinstance(block, Cautions | Points):
        return list(block.texts)
    if isinstance(block, Steps):
        return [step.text for step in block.steps]
    return [cell for row in block.rows for cell in row] if isinstance(block, Table) else []


def _bare(text: str) -> str:
    head, dot, rest = text.partition(". ")
    return rest if dot and head.isdigit() else text
