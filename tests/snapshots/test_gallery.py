"""Regression snapshot: examples/README.md and its pictures are what the tool makes of the packaged examples now.

To renew them after looking at the change: python -m tests.snapshots.test_gallery
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache

from scarfwright.cli.examples import example, names
from scarfwright.models.job.file import job_from_text
from scarfwright.models.planning.planned import plan_job
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.craft_papers import bend_papers, glue_papers
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.formats.svg import write_svg
from scarfwright.outputs.gauges.sheet import gauge_sheets
from scarfwright.outputs.joint_papers import joint_papers
from scarfwright.outputs.plan_sheet.codes import Look
from scarfwright.outputs.plan_sheet.sheets import plan_sheets
from scarfwright.outputs.setup_card.card import setup_card
from scarfwright.outputs.shop_drawings.cut_sheet import cut_sheets
from scarfwright.outputs.shop_drawings.sled_sheet import sled_drawings

from tests.snapshots.test_pictures import PICTURES, ROOT, cropped

PAGE = ROOT / "examples" / "README.md"
WIDTH, LEAST = 830, 6.5  # of a page on the web, and of its smallest letters [dots]
Box = tuple[float, float, float, float]


def _bars(work: Workup) -> Sheet:
    planned = plan_job(work)
    look = Look(work.job.title, work.job.units, "", (297.0, 210.0), "A4")
    return plan_sheets(planned.request, planned.plan, look)[1]


def _glued(work: Workup) -> Sheet:
    assert work.craft is not None
    return glue_papers(work, work.craft)[0]


def _bent(work: Workup) -> Sheet:
    assert work.craft is not None
    return bend_papers(work, work.craft)[0]


# of each example one sheet, what it shows, and the part of it to show: left, top, width, height [mm of the page]
SHOWN: dict[str, tuple[Callable[[Workup], Sheet], str, Box]] = {
    "plank-metric": (lambda work: sled_drawings(work)["plank"], "both halves on the plank", (68, 18, 160, 34)),
    "battens-laser": (lambda work: gauge_sheets(work)[0], "gauges in use", (11, 101, 257, 69)),
    "chine-bent": (_bent, "the bent chine, and how hard its wood works", (10, 10, 260, 129)),
    "laminations": (_glued, "order of the clamps on one joint", (12, 65, 170, 66)),
    "mast-staves": (_bars, "staves, joints apart", (10, 21, 262, 84)),
    "plank-inch": (lambda work: setup_card(work)[0], "the saw at the end of the cut", (10, 52, 150, 78)),
    "sheet-layers": (lambda work: cut_sheets(work, work.sheets)[0], "the layers on the sheet", (10, 10, 277, 110)),
    "stringers": (lambda work: joint_papers(work)[0], "the joint, mated, drawn too steep", (75, 38.5, 165, 52)),
}


@cache
def drawn() -> dict[str, str]:
    """Every picture of the page by its file's name."""
    found = {}
    for name in names():
        draw, _, window = SHOWN[name]
        sheet = draw(work_up(job_from_text(example(name).text)))
        found[f"like-{name}.svg"] = cropped(write_svg(sheet), window)
    return found


def page() -> str:
    """The page of pictures."""
    lines = [
        "# Eight jobs to begin from",
        "",
        "`scarfwright start mine.toml --like plank-metric` writes one of these as your own job; then measure your saw "
        "and clamps. All are invented.",
    ]
    for name in names():
        shows = SHOWN[name][1]
        lines += ["", f"## {name}", "", example(name).shows, ""]
        lines.append(f"![{shows[0].upper()}{shows[1:]}](pictures/like-{name}.svg)")
    return "\n".join(lines) + "\n"


def test_the_page_is_what_the_tool_makes() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "look at it, then renew"
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert "examples/README.md" in readme


def test_its_pictures_are_what_the_tool_draws() -> None:
    for name, text in drawn().items():
        assert (PICTURES / name).read_text(encoding="utf-8") == text, f"{name}: look at it, then renew"
    assert {path.name for path in PICTURES.glob("like-*.svg")} == set(drawn())


def test_letters_in_the_windows_can_be_read_at_the_width_of_a_page() -> None:
    """Shown WIDTH dots wide, every text in a window is LEAST dots high or more (its size, by its window's width)."""
    for name in names():
        left, top, wide, high = SHOWN[name][2]
        texts = re.findall(r'<text x="([\d.]+)" y="([\d.]+)"[^>]*font-size="([\d.]+)"', drawn()[f"like-{name}.svg"])
        sizes = [float(s) for x, y, s in texts if left < float(x) < left + wide and top < float(y) < top + high]
        assert sizes, name
        assert min(sizes) * WIDTH / wide >= LEAST, name


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
    for file, svg in drawn().items():
        (PICTURES / file).write_text(svg, encoding="utf-8", newline="\n")
