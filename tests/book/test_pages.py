"""The book's page, read with lxml: whole, safe, its ids its own, its figures those of numbers.json."""

from __future__ import annotations

import itertools
import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from scarfwright.models.findings import CODES, Level, faults
from scarfwright.models.job.tables import Job
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.solve import work_up
from scarfwright.models.words.the_book.figure import Figure
from scarfwright.models.words.the_book.findings import GROUPS, chapter_of, group_of, grouped, in_short, worst
from scarfwright.models.words.the_book.leaves import told_of
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.blocks import Facts
from scarfwright.outputs.book.book import book, digest, page_data
from scarfwright.outputs.book.chapters import CHAPTERS
from scarfwright.outputs.book.render import chapter_piece
from scarfwright.outputs.make import items

from tests.book.books import (
    EXAMPLES,
    MISCHIEF,
    PLANK,
    TRIALS,
    counting_piece,
    made,
    mischief,
    page_of,
    parsed,
    text_of,
    worked,
)
from tests.cli_runs import GOOD, run, write
from tests.strategies import likely_jobs

KEYS = ("first", "joint", "wood", "sled", "checking", "saw", "cut", "testing", "gluing", "planing", "bending", "record",
        "files")  # fmt: skip
MOST_BYTES = 300_000  # without the pieces that others make
every_example = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)


def wrong(page: str) -> list[str]:
    """What is wrong with a page, whatever its job."""
    root = parsed(page)
    ids = Counter(element.get("id") for element in root.iter() if isinstance(element.tag, str) and element.get("id"))
    found = [f"id {name} {count} times" for name, count in ids.items() if count > 1]
    for element in root.iter():
        if not isinstance(element.tag, str):
            continue
        found += [f"{element.tag} has {name}" for name in element.attrib if name == "style" or name.startswith("on")]
        target = element.get("href", "")
        if target.startswith("#") and target[1:] not in ids:
            found.append(f"nothing is called {target}")
        found += [f"no id {name}" for name in element.get("aria-labelledby", "").split() if name not in ids]
    for chapter in root.iterfind(".//section[@data-piece]"):
        key = chapter.get("data-piece")
        inner = [e.get("id") for e in chapter.iter() if isinstance(e.tag, str) and e.get("id") and e is not chapter]
        holes = {e.get("data-piece") for e in chapter.iter("section")}
        found += [f"id {one} in {key}" for one in inner if not any(one == k or one.startswith(f"{k}-") for k in holes)]
    levels = [int(e.tag[1]) for e in root.iter("h1", "h2", "h3", "h4")]
    found += [f"heading {b} after {a}" for a, b in itertools.pairwise(levels) if b > a + 1]
    found += [
        f"{tag} loads something"
        for tag in ("link", "img", "iframe", "object", "base")
        if root.find(f".//{tag}") is not None
    ]
    if len(page.encode()) > MOST_BYTES:
        found.append(f"{len(page.encode())} bytes")
    return found


@every_example
def test_examples_have_a_whole_page(path: Path) -> None:
    work, planned = worked(text_of(path))
    page = page_of(work, planned, (counting_piece(),))
    assert wrong(page) == []
    root = parsed(page)
    assert [s.get("id") for s in root.iterfind(".//main/section")] == list(KEYS) == [one.key for one in CHAPTERS]
    told = " ".join(root.text_content().split())
    for text in (work.findings[0].text, "KICKBACK throws the work at you", "Never reach over or past a turning blade"):
        assert " ".join(text.split()) in told
    assert page == page_of(work, planned, (counting_piece(),))
    assert (work.way.dividing is not None) == ("The dividing cut" in told)


@pytest.mark.parametrize(
    "path",
    [path if k % 3 == 0 else pytest.param(path, marks=pytest.mark.slow) for k, path in enumerate(TRIALS)],
    ids=lambda path: path.stem,
)
def test_trials_have_a_page_or_a_fault(path: Path) -> None:
    if not made(path):
        return
    assert wrong(page_of(*worked(text_of(path)))) == []


@settings(max_examples=4, derandomize=True, phases=[Phase.explicit, Phase.generate],
          suppress_health_check=list(HealthCheck))  # fmt: skip
@given(job=likely_jobs())
def test_random_jobs_have_a_whole_page(job: Job) -> None:
    work = work_up(job)
    assume(not faults(list(work.findings)))
    assert wrong(page_of(work, None)) == []


def test_mischief_is_only_shown() -> None:
    work, planned = worked(mischief())
    page = page_of(work, planned, (counting_piece(),))
    assert wrong(page) == []
    root = parsed(page)
    heading = root.find(".//h1")
    assert heading is not None
    assert " ".join(heading.text_content().split()) == " ".join(MISCHIEF.split())
    assert len(root.findall(".//script")) == 2
    assert "<script>alert" not in page
    assert "<img" not in page
    title = root.find(".//title")
    assert title is not None
    assert title.text is not None
    assert len(title.text) < 70
    assert "rack <A>" in root.text_content()
    data = root.find(".//script[@id='book-data']")
    assert data is not None
    assert json.loads(data.text or "") == {"tune": {"told": "</script><b>told & heard</b>\u2028"}}


def test_controls_in_a_title_are_shown_as_what_can_not_be_shown() -> None:
    title = 'title = "bell\\u0007 null\\u0000 esc\\u001b next\\u0085 \\uffff"'
    text = text_of(PLANK).replace('title = "Gunwales, five metre canoe"', title)
    work, planned = worked(text)
    assert "\x07" in work.job.title
    page = page_of(work, planned)
    assert {c for c in page if (ord(c) < 0x20 or 0x7F <= ord(c) < 0xA0 or ord(c) == 0xFFFF) and c != "\n"} == set()
    heading = parsed(page).find(".//h1")
    assert heading is not None
    assert " ".join(heading.text_content().split()) == "bell\ufffd null\ufffd esc\ufffd next\ufffd \ufffd"


def test_data_can_not_end_its_element() -> None:
    sharp = {"a": "</script><!-- & \u2028\u2029"}
    text = page_data(sharp)
    assert not set("<>&\u2028\u2029") & set(text)
    assert json.loads(text) == sharp
    with pytest.raises(ValueError, match="JSON compliant"):
        page_data({"a": float("nan")})


def test_the_policy_names_the_one_script_and_the_one_style() -> None:
    root = parsed(page_of(*worked(text_of(EXAMPLES[0])), (counting_piece(),)))
    policy = root.xpath("//meta[@http-equiv='Content-Security-Policy']/@content")[0]
    script, style = root.xpath("//script[not(@type)]")[0].text, root.xpath("//style")[0].text
    assert policy == (
        f"default-src 'none'; script-src '{digest(script)}'; style-src '{digest(style)}'; base-uri 'none'; "
        "form-action 'none'"
    )
    assert "scarfwright.pieces" in script
    assert "font-style: italic" in style


# -- figures ----------------------------------------------------------------------------------------------------


def _at(data: Any, key: str) -> Any:
    for step in key.split("."):
        data = data[int(step)] if step.isdigit() else data[step]
    return data


def _figures(work: Workup) -> list[Figure]:
    blocks = [block for chapter in CHAPTERS for block in chapter.blocks(work, None)]
    return [figure for block in blocks if isinstance(block, Facts) for figure in block.figures]


@every_example
def test_every_figure_stands_in_numbers_and_says_where_it_comes_from(path: Path) -> None:
    work, _ = worked(text_of(path))
    data, shown = numbers(work), _figures(work)
    assert len(shown) > 30
    for figure in shown:
        assert figure.origin.text.endswith((".", ")")), figure
        if not figure.key:
            continue
        value = _at(data, figure.key)  # KeyError: no such number
        if isinstance(value, float) and figure.key.endswith("_mm") and work.job.units == "mm":
            first = re.match(r"-?[\d.]+", figure.value)
            assert first is None or float(first[0]) == pytest.approx(value, abs=1.01), figure


def test_formulas_that_are_told_give_the_figure() -> None:
    """The figures in the origin's own sentence, put together here as the sentence says."""
    work, _ = worked(text_of(PLANK))
    by_key = {figure.key: figure for figure in _figures(work)}

    def told(key: str) -> tuple[float, list[float]]:
        figure = by_key[key]
        return float(figure.value.split()[0]), [float(n) for n in re.findall(r"\d+\.?\d*", figure.origin.text)]

    fence, (heel, gap) = told("saw.fence_mm")
    assert fence == pytest.approx(heel + gap, abs=0.11)
    height, (board, above) = told("saw.blade_height_mm")
    assert height == board + above
    overlap, (thick, _, tip, ratio) = told("joint.overlap_mm")
    assert overlap == pytest.approx((thick - 2 * tip) * ratio, abs=0.1)
    done, (leaves, reach) = told("saw.travel_done_mm")
    assert done == pytest.approx(leaves - reach, abs=0.11)
    hand, (end, margin, at_table, clear) = told("sled.hand_line_mm")
    assert end + margin + at_table + clear <= hand < end + margin + at_table + clear + 10.0


# -- findings and files -------------------------------------------------------------------------------------------


def test_every_code_has_a_chapter() -> None:
    from scarfwright.models.findings import Finding

    for code, level in CODES.items():
        assert chapter_of(Finding(code, level, "", {})) in KEYS, code


def test_findings_are_grouped_and_the_worst_is_in_sight() -> None:
    from scarfwright.models.findings import Finding

    stop = Finding("blade.too_low", Level.FAULT, "Stop. More.", {})
    left = Finding("taper_fork.slots_alike", Level.FAULT, "Left out.", {}, part="taper_fork")
    care = Finding("knife.none", Level.CAUTION, "Care at 2.5 mm. Then more.", {})
    note = Finding("wood.unknown", Level.NOTE, "Note.", {})
    assert [group_of(f) for f in (stop, left, care, note)] == list(GROUPS)
    assert [group for group, _ in grouped([note, care, left, stop])] == list(GROUPS)
    assert worst([note, left, care]) == ("Needs care", care)
    assert worst([note, left]) == ("Left out", left)
    assert worst([]) is None
    assert in_short(care.text) == "Care at 2.5 mm."


@every_example
def test_every_file_is_explained_and_linked(path: Path) -> None:
    work, planned = worked(text_of(path))
    leaves = [item.path for item in items(work, planned=planned) if item.path != "index.html"]
    assert [leaf for leaf in leaves if not told_of(leaf)] == []
    root = parsed(book(work, planned, leaves))
    linked = {a.get("href", "") for a in root.iter("a") if not a.get("href", "").startswith("#")}
    assert linked == set(leaves)


def test_a_run_of_one_group_links_what_lies_there(tmp_path: Path) -> None:
    """Alone it links its own files; beside an earlier run of the same job, that one's too."""
    job, out = write(tmp_path, GOOD), tmp_path / "out"
    for group in ("paper", "cut"):
        assert run("make", job, "--out", out, "--only", group, cwd=tmp_path).returncode == 0
        page = (out / "index.html").read_text(encoding="utf-8")
        linked = {a.get("href", "") for a in parsed(page).iter("a") if not a.get("href", "").startswith("#")}
        there = {p.relative_to(out).as_posix() for p in out.rglob("*") if p.is_file()}
        assert linked == there - {"index.html", ".scarfwright"}, group
    assert any(name.startswith("paper/") for name in linked)


def test_a_job_with_faults_gets_no_book(tmp_path: Path) -> None:
    job = write(tmp_path, GOOD + '[saw]\nmax_depth = "20 mm"\n')
    assert run("make", job, "--out", "out", cwd=tmp_path).returncode == 1
    assert not (tmp_path / "out").exists()


@every_example
def test_a_chapter_can_be_shown_alone(path: Path) -> None:
    work, planned = worked(text_of(path))
    for chapter in CHAPTERS:
        piece = chapter_piece(chapter, work, planned)
        assert piece.key == chapter.key
        assert "<h3" in piece.html or "<p" in piece.html or chapter.key == "files"
        assert "href=" not in piece.html  # without a folder there is nothing to link
