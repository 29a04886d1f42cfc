"""Regression snapshot: the README's pictures are what the tool draws now.

To renew them after looking at the change: python tests/snapshots/test_pictures.py
"""

from __future__ import annotations

from pathlib import Path

from scarfwright.models.job.file import read_job
from scarfwright.models.solve import work_up
from scarfwright.outputs.formats.svg import write_svg
from scarfwright.outputs.setup_card.card import setup_card
from scarfwright.outputs.shop_drawings.sled_sheet import sled_drawings

ROOT = Path(__file__).resolve().parents[2]
PICTURES = ROOT / "examples" / "pictures"


def drawn() -> dict[str, str]:
    work = work_up(read_job(ROOT / "examples" / "plank-metric.toml"))
    sheets = {**sled_drawings(work), "setup-card": setup_card(work)}
    return {f"{name}.svg": write_svg(sheets[name]) for name in ("sled", "plank", "setup-card")}


def test_pictures_are_what_the_tool_draws() -> None:
    for name, text in drawn().items():
        assert (PICTURES / name).read_text(encoding="utf-8") == text, f"{name}: look at it, then renew"


def test_every_picture_in_the_readme_is_there() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    for name in drawn():
        assert f"examples/pictures/{name}" in readme


if __name__ == "__main__":
    PICTURES.mkdir(exist_ok=True)
    for name, text in drawn().items():
        (PICTURES / name).write_text(text, encoding="utf-8", newline="\n")
