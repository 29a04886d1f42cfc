"""One thing has one word, and nothing is said that can be read both ways: the rules of the tool's speech, asked of
every text a person sees. Texts are the string constants of the source (docstrings aside), the keys' descriptions, the
help, README and the examples; findings and sheets are read once more as they are made."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from scarfwright.models.findings import Finding
from scarfwright.models.job.file import job_from_dict, read_job
from scarfwright.models.job.forms.start_text import Start, starting_text
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.gauges.sheet import gauge_sheets
from scarfwright.outputs.setup_card.card import setup_card

from tests.cut_jobs import raw
from tests.examples import LOOKED_INTO, sled_sheets
from tests.finding_cases import BASE, CASES
from tests.test_findings import tables

ROOT = Path(__file__).parent.parent
EXAMPLES = ROOT / "examples"
ROOMS = ("models", "outputs", "cli")

# pattern -> the word instead; a text is read with {} for every figure
RULES: dict[str, str] = {
    # one thing, one word
    r"\b(blade's|saw's|arbor's) axis\b|\baxis of the blade\b|\baxle\b|\bspindle\b": "blade's centre",
    r"(?<!\[)\bstock\b(?!\])": "board (the table [stock] may be named)",
    r"\boff-?cut piece|\bcut-?off\b(?! at)": "offcut",
    r"\b[Bb]oth pieces\b|\bglued piece\b": "boards; stick",
    r"\binfeed (table|stand|roller)s?\b": "infeed support",
    r"\bstraight-edge\b|\b(against|along|with|by) a straight edge\b": "straightedge",
    r"\bwaste\b": "scrap",
    r"\bbuild (plate|platform)\b|\bprint bed plate\b": "bed",
    r"\bsaw blade's body\b|\bblade body\b": "plate",
    r"\bcalipers?\b|\bcolors?\b|\bmillimeters?\b|\bgray\b|\baluminum\b|\bcenter(s|ed|line)?\b": "British spelling",
    r"\bsplinter guard\b|\bblade cover\b|\bhood guard\b(?!:)": "crown guard",
    # the hand or the body, never the machine's front and back: forward, behind
    r"\b(forwards?|backwards?)\b": "towards you, away from you",
    r"\bbehind the (\w+ )?(line|blade|table|saw|fence)\b|\bbehind the\b": "on your side of; beyond",
    r"\b(before|in front of) the (blade|saw|table's|axis|fence)\b(?! (reaches|has|is|runs))": "short of",
    r"\b(fence|table|saw)'s (rear|back|front end)\b|\brear\b": "near, far",
    # a blade has stopped; it does not stand
    r"\b[Bb]lade (still )?(stands|STANDS|is at rest|is standing|comes to rest)\b|\bSTANDS\b|\bstandstill\b": "STOPPED",
    # no chain, no hidden subject
    r"\bwants\b|\basked\b|\basks for\b|\b(?<!could )told\b|\buntold\b": "needs; is given",
    r"\btakes\b(?!.*\b(off|away)\b)": "needs",
    r"\bof an? \w+ it is\b": "a plain sentence",
    # a slope is 12:1
    r"\b1 in (\d|\{\}|N\b)": "slope 12:1",
    # per joint
    r"\b(mm|cm|g|min|ml|\{\}) a (joint|layer)\b": "per joint, per layer",
    # what is a guess says so
    r"\bcommon practice\b(?!,? no source)(?!, from memory)": "common practice, no source",
}
# the places where a slope is explained, and what is no slope of a joint
EXPLAINED = ("12:1 is 1 in 12", "12 long for 1 across: 1 in 12", "1 in {}, FAA AC 43.13-1B", "such as 1 in 12")
# names of other things, as their owners write them
NAMES = ('unit="millimeter"',)  # the value a 3MF file must have


def broken(text: str) -> list[str]:
    """What in a text breaks a rule, each with the word instead."""
    for name in (*EXPLAINED, *NAMES):
        text = text.replace(name, "")
    return [f"{m[0]!r}: say {say!r}" for rule, say in RULES.items() for m in re.finditer(rule, text)]


# -- every text in the source -----------------------------------------------------------------------------------


def constants(source: str) -> Iterator[tuple[int, str]]:
    """String constants of a module with their lines: f-strings whole, {} for each figure; no docstring."""
    tree = ast.parse(source)
    parts: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            parts.add(id(node.value))  # a docstring
        if isinstance(node, ast.JoinedStr):
            parts.update(id(value) for value in node.values)
            whole = "".join(str(v.value) if isinstance(v, ast.Constant) else "{}" for v in node.values)
            yield node.lineno, whole
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in parts:
            yield node.lineno, node.value


@cache
def source_texts() -> tuple[tuple[str, str], ...]:
    """Every constant with a blank in it or a capital (else it is a key or a name), and where it stands."""
    return tuple(
        (f"{path.relative_to(ROOT)}:{line}", text)
        for room in ROOMS
        for path in sorted((ROOT / room).rglob("*.py"))
        for line, text in constants(path.read_text(encoding="utf-8"))
        if " " in text.strip() or text[:1].isupper()
    )


def test_the_reader_finds_the_texts_of_every_room() -> None:
    places = {where.split(":")[0] for where, _ in source_texts()}
    for module in ("models/job/tables.py", "models/words/at_the_saw/procedure.py", "cli/main.py"):
        assert module in places
    assert len(source_texts()) > 1500
    assert list(constants('"""The fence asked."""\nx = f"fence {y + 1} told"')) == [(2, "fence {} told")]


def test_every_text_of_the_source_keeps_the_rules() -> None:
    found = [f"{where}: {fault}" for where, text in source_texts() for fault in broken(text)]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(
    "text",
    [
        "136 mm before the blade's axis",
        "The stock is too thin.",
        "Set an infeed table on your side",
        "Slide the fence forward",
        "Keep behind the line",
        "wait until the blade STANDS",
        "the job wants ±3",
        "It takes, at this slope, 480 mm",
        "slope 1 in 12",
        "12 g a joint",
        "screws in the waste",
    ],
)
def test_what_breaks_a_rule_is_seen(text: str) -> None:
    assert broken(text)


@pytest.mark.parametrize(
    "text",
    [
        "make [stock] height smaller",
        "Planing takes 2 mm off each face.",
        "wait until the blade has STOPPED before you reach",
        "12:1 is 1 in 12",
        "1 in of travel left",
        "a roller's axis square to the fence",
    ],
)
def test_what_keeps_the_rules_is_let_be(text: str) -> None:
    assert not broken(text)


# -- files that people read -------------------------------------------------------------------------------------


def prose(markdown: str) -> str:
    """The text without its code: blocks, spans and what the tool printed."""
    return re.sub(r"`[^`]*`", "", re.sub(r"```.*?```", "", markdown, flags=re.S))


def test_readme_keeps_the_rules() -> None:
    text = prose((ROOT / "README.md").read_text(encoding="utf-8"))
    assert not broken(text), broken(text)


@pytest.mark.parametrize("name", sorted(path.name for path in EXAMPLES.glob("*.toml")))
def test_comments_of_the_examples_keep_the_rules(name: str) -> None:
    said = [line.split("#", 1)[1] for line in (EXAMPLES / name).read_text().splitlines() if "#" in line]
    assert said
    assert not [fault for line in said for fault in broken(line)]


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_first_job_file_keeps_the_rules(units: Unit) -> None:
    """Beside its keys: [stock] is the name of a table there."""
    said = [line.split(" # ")[-1] for line in starting_text(Start(units)).splitlines()]
    assert not [fault for line in said for fault in broken(line.replace("stock.", ""))]


# -- as they are made -------------------------------------------------------------------------------------------


@cache
def findings_of_cases() -> tuple[Finding, ...]:
    """Every case's findings in their words, metric and in inches: each once by its code and unit."""
    every: dict[tuple[str, str], Finding] = {}
    for number, case in enumerate(CASES):
        changed = tables(BASE, case.wrong)
        units = "in" if number % 2 else "mm"
        for one in work_up(job_from_dict({**changed, "units": units})).findings:
            every.setdefault((one.code, units), one)
    return tuple(every.values())


def test_findings_keep_the_rules_and_say_more_than_a_comparison() -> None:
    found = findings_of_cases()
    assert len({one.code for one in found}) > 40
    faults = [f"{one.code}: {fault}" for one in found for fault in broken(one.text)]
    assert not faults, "\n".join(faults)
    for one in found:
        assert one.text.endswith((".", ")")), one.text
        assert not re.search(r"_mm\b|[{}]|\bnan\b|\binf\b|\bNone\b", one.text), one.text


def sheets_of(work: Workup) -> Iterator[Sheet]:
    yield from setup_card(work)
    yield from sled_sheets(work)
    yield from gauge_sheets(work)


@cache
def example(name: str) -> Workup:
    job: Job = read_job(EXAMPLES / name)
    return work_up(job)


@pytest.mark.parametrize("name", [path.name for path in LOOKED_INTO])
def test_sheets_keep_the_rules_and_name_no_key(name: str) -> None:
    keys = {key for field in Job.model_fields.values() for key in getattr(field.annotation, "model_fields", {})}
    told = [text.text for sheet in sheets_of(example(name)) for text in sheet.texts()]
    assert len(told) > 60
    found = broken(" ".join(told))  # a sentence runs over several lines
    assert not found, "\n".join(found)
    named = [text for text in told for key in keys if "_" in key and re.search(rf"\b{key}\b", text)]
    assert not named


def test_labels_on_parts_give_the_slope_as_it_is_written_everywhere() -> None:
    work = work_up(job_from_dict({**raw(), "shop_has": ["printer"], "printer": {"gauges": "all"}}))
    labels = [one.parameters.text("label") for one in work.wanted if one.parameters.get("label")]
    assert labels
    assert sum("11.97:1" in label for label in labels) == len(labels) - 1  # the shim's gives its thickness alone
    assert not any("1 in" in label for label in labels)
