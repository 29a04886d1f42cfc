"""What the README claims, run."""

from __future__ import annotations

import re
from pathlib import Path

from tests.cli_runs import run

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block(name: str, language: str) -> str:
    found = re.search(rf"<!-- {name} -->\n```{language}\n(.*?)```", README, flags=re.S)
    assert found is not None, name
    return found[1]


def test_three_numbers_in_and_what_comes_out(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(block("three-numbers", "toml"))
    shown = [line.rstrip() for line in run("check", "mine.toml", cwd=tmp_path).stdout.splitlines()]
    told = block("three-numbers-answer", "text").splitlines()
    at = shown.index(told[0])
    assert shown[at : at + len(told)] == told


def test_the_first_screen_keeps_its_order() -> None:
    """The job in a paragraph, one picture, three numbers, what comes of them, the caution, then the two commands."""
    order = [
        "# scarfwright\n\nBuilders of light wooden boats",
        "![",
        "<!-- three-numbers -->",
        "<!-- three-numbers-answer -->",
        "**A table saw can maim.**",
        "<!-- job-command -->",
        "<!-- test-command -->",
        "## ",
    ]
    places = [README.index(words) for words in order]
    assert places == sorted(places)
    job = README.split("\n\n")[1]
    assert len(job.split()) <= 79  # half of what it once was


def test_every_command_it_names_is_there(tmp_path: Path) -> None:
    there = set(re.findall(r"^  (\w+) ", run("--help", cwd=tmp_path).stdout.split("Commands:")[1], flags=re.M))
    named = set(re.findall(r"scarfwright (start|check|make|page|plan|share|tune|parts|part|schema)\b", README))
    assert named == there
    options = set(re.findall(r"scarfwright (\w+)[^`\n]*?(--[a-z-]+)", README))
    helps = {command: run(command, "--help", cwd=tmp_path).stdout for command, _ in options}
    assert [(command, option) for command, option in options if option not in helps[command]] == []


def test_the_exit_codes_it_tells(tmp_path: Path) -> None:
    (tmp_path / "good.toml").write_text(block("three-numbers", "toml"))
    (tmp_path / "bad.toml").write_text(block("three-numbers", "toml").replace("60 mm", "10 mm"))
    (tmp_path / "wrong.toml").write_text("[stock]\n")
    assert [run("check", f"{name}.toml", cwd=tmp_path).returncode for name in ("good", "bad", "wrong")] == [0, 1, 2]


def test_every_picture_says_what_it_shows() -> None:
    pictures = re.findall(r"!\[(.*?)\]\((.*?)\)", README)
    assert pictures
    for text, path in pictures:
        assert len(text.split()) > 3
        assert (ROOT / path).is_file()
