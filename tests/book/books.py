"""Books to look at: of the examples, of the trials that are made, of a job whose title means mischief."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from lxml import html
from scarfwright.models.findings import faults
from scarfwright.models.job.file import job_from_text, read_job
from scarfwright.models.planning.planned import Planned, plan_job
from scarfwright.models.planning.request import wants_plan
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.book import book
from scarfwright.outputs.make import items
from scarfwright.outputs.web.piece import Piece

ROOT = Path(__file__).parents[2]
PLANK = ROOT / "examples" / "plank-metric.toml"
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
TRIALS = sorted((ROOT / "tests" / "trials").glob("*.toml"))
MISCHIEF = "</title><script>alert(1)</script> \"quoted\" 'single' & \u05e1\u05d9\u05e8\u05d4 \U0001f6f6 <b>--></b>"
RACK = """
[plan]
effort = 1
[[board]]
name = "rack <A>"
length = "2.4 m"
count = 4
[[board]]
name = "short"
length = "1.2 m"
defects = [["700 mm", "740 mm"]]
[[blank]]
name = "\u05d2\u05d5\u05e0\u05d5\u05d5\u05dc & co"
length = "4.0 m"
count = 2
"""


def counting_piece(key: str = "tune") -> Piece:
    """A small piece of the tests' own: its script writes its data into the page."""
    return Piece(
        key,
        f'<p id="{key}-told">untold</p>',
        f'scarfwright.pieces["{key}"] = (root, data) => {{ root.querySelector("p").textContent = data.told; }};',
        f'[data-piece="{key}"] p {{ font-style: italic; }}',
        {"told": "</script><b>told & heard</b>\u2028"},
    )


@cache
def worked(text: str) -> tuple[Workup, Planned | None]:
    """A job worked out and, where it asks for one, planned."""
    work = work_up(job_from_text(text))
    return work, plan_job(work, work.craft.members if work.craft else ()) if wants_plan(work) else None


def text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def made(path: Path) -> bool:
    """Whether a job file is one that is made: it can be read and has no fault."""
    return not faults(list(work_up(read_job(path)).findings))


def page_of(work: Workup, planned: Planned | None, pieces: tuple[Piece, ...] = ()) -> str:
    leaves = [item.path for item in items(work, planned=planned) if item.path != "index.html"]
    return book(work, planned, leaves, pieces)


def parsed(page: str) -> html.HtmlElement:
    found = html.document_fromstring(page.encode("utf-8"), parser=html.HTMLParser(encoding="utf-8"))
    assert isinstance(found, html.HtmlElement)
    return found


def mischief() -> str:
    """A job with markup, quotes, right-to-left text and a picture letter where words are free, boards and blanks."""
    import json

    title = json.dumps(MISCHIEF, ensure_ascii=False)
    species = json.dumps('<img src=x onerror="alert(2)">', ensure_ascii=False)
    return (
        f'title = {title}\nunits = "mm"\n[stock]\nspecies = {species}\nthickness = "22 mm"\nheight = "60 mm"\n'
        f'finished_thickness = "20 mm"\n[joint]\nratio = 12\n{RACK}'
    )
