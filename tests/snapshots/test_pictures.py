"""Regression snapshot: the README's pictures are what the tool draws now.

To renew them after looking at the change: python tests/snapshots/test_pictures.py
"""

from __future__ import annotations

import re
from pathlib import Path

from scarfwright.models.job.file import job_from_text, read_job
from scarfwright.models.solve import work_up
from scarfwright.outputs.craft_papers import bend_papers, glue_papers
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.formats.svg import write_svg
from scarfwright.outputs.setup_card.card import setup_card
from scarfwright.outputs.shop_drawings.measure_me import measure_me
from scarfwright.outputs.shop_drawings.sled_sheet import sled_drawings

ROOT = Path(__file__).resolve().parents[2]
PICTURES = ROOT / "examples" / "pictures"


EXAMPLE = ROOT / "examples" / "plank-metric.toml"
SLED_ALONE = (44.0, 26.0, 242.0, 77.0)  # the sled from above from its hand line to the heel, without the panels


def drawn() -> dict[str, str]:
    work = work_up(read_job(EXAMPLE))
    sheets = sled_drawings(work)
    glue, bent = _bent()
    shown = {
        "sled": sheets["sled"],
        "plank": sheets["plank"],
        "setup-card": setup_card(work)[0],
        "glue-up": glue,
        "bent": bent,
        "measure-me": measure_me(work.job),
    }
    whole = {f"{name}.svg": write_svg(sheet) for name, sheet in shown.items()}
    return {**whole, "sled-crop.svg": cropped(whole["sled.svg"], SLED_ALONE)}


def cropped(svg: str, box: tuple[float, float, float, float]) -> str:
    """The drawing's own SVG, seen through a window: left, top, width, height [mm of the page]."""
    left, top, wide, high = box
    window = f'width="{wide:g}mm" height="{high:g}mm" viewBox="{left:g} {top:g} {wide:g} {high:g}"'
    seen, count = re.subn(r'width="[\d.]+mm" height="[\d.]+mm" viewBox="[^"]*"', window, svg, count=1)
    assert count == 1
    return seen


def _bent() -> list[Sheet]:
    """Glue-up and bent member of the example with what the README adds to it."""
    block = re.search(r"<!-- bent-member -->\n```toml\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.S)
    assert block is not None
    work = work_up(job_from_text(f"{EXAMPLE.read_text('utf-8')}\n{block[1]}"))
    assert work.craft is not None
    return [glue_papers(work, work.craft)[0], *bend_papers(work, work.craft)]


def test_pictures_are_what_the_tool_draws() -> None:
    for name, text in drawn().items():
        assert (PICTURES / name).read_text(encoding="utf-8") == text, f"{name}: look at it, then renew"


def test_every_picture_in_the_readme_is_there() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    for name in set(drawn()) - {"sled.svg"}:  # the whole sheet is there to look at, the README shows the sled
        assert f"examples/pictures/{name}" in readme
    assert set(re.findall(r"examples/pictures/([\w-]+\.svg)", readme)) <= set(drawn())


if __name__ == "__main__":
    PICTURES.mkdir(exist_ok=True)
    for name, text in drawn().items():
        (PICTURES / name).write_text(text, encoding="utf-8", newline="\n")
