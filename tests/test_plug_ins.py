"""Parts that other packages add: what they may do, and that a bad one costs its own part and nothing more."""

from __future__ import annotations

import dataclasses
import math
import os
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import replace
from importlib import metadata
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
import scarfwright.models.for_plug_ins as public
from scarfwright.models import parts
from scarfwright.models.findings import Finding, Level, faults, finding
from scarfwright.models.flat.loop import rectangle
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.file import job_from_text, read_job
from scarfwright.models.job.problems import JobError
from scarfwright.models.part.part import Part, Place
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.parts.plug_ins import said
from scarfwright.models.solve import work_up
from scarfwright.models.wanted.plug_ins import needed_plug_ins
from scarfwright.models.workup import Workup
from scarfwright.outputs.make import items, make_all

from tests.cli_runs import GOOD, run, write
from tests.plug_in_example.story_stick import KIND as STICK

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "tests" / "plug_in_example"
PROJECT = tomllib.loads((EXAMPLE / "pyproject.toml").read_text(encoding="utf-8"))["project"]
NAME, VERSION = PROJECT["name"], PROJECT["version"]
FILES = ("cad", "cut", "print")
PRINTS = GOOD + '[printer]\ngauges = "all"\n'
Add = Callable[..., None]


class Dist:
    """What an entry point knows of the package it is in."""

    def __init__(self, name: str, version: str) -> None:
        self.name, self.version = name, version
        self.metadata = {"Name": name, "Version": version}


@pytest.fixture
def add(monkeypatch: pytest.MonkeyPatch) -> Iterator[Add]:
    """add(name, thing, package, version): as if that package were installed; `thing` an exception is raised instead."""
    entries: list[Any] = []

    def entry_points(*, group: str) -> list[Any]:
        return [one for one in entries if one.group == group]

    def added(name: str, thing: object, package: str = NAME, version: str = VERSION) -> None:
        class Entry:
            group, value, dist = "scarfwright.parts", f"{package}:{name}", Dist(package, version)

            def load(self) -> object:
                if isinstance(thing, BaseException):
                    raise thing
                return thing

        one = Entry()
        one.name = name  # type: ignore[attr-defined]
        entries.append(one)
        parts._all.cache_clear()

    monkeypatch.setattr(metadata, "entry_points", entry_points)
    parts._all.cache_clear()
    yield added
    monkeypatch.undo()
    parts._all.cache_clear()


def worked(text: str = PRINTS) -> Workup:
    return work_up(job_from_text(text))


def about(work: Workup, name: str) -> list[Finding]:
    return [f for f in work.findings if f.part == name]


def chip(length: float = 20.0, label: str = "") -> Part:
    """Build a chip.

    length: of it [mm]
    label: said of its use
    """
    return Part("chip", "Chip", rectangle(0, 0, length, 10.0), 2.0, use=label)


CHIP = PartKind(
    "chip", "a chip", chip, lambda _work: {"length": 30.0}, frozenset({"cad", "cut", "print", "flat"}), any_shop=True
)


# -- what a good one comes to -------------------------------------------------------------------------------------


def test_the_example_is_a_part_like_any_other(add: Add, tmp_path: Path) -> None:
    text = 'shop_has = ["printer"]\n' + PRINTS
    plain = {item.path for item in items(worked(text), FILES)}
    add("story_stick", STICK)
    work = worked(text)
    assert about(work, "story_stick") == []
    assert str(parts.registry()["story_stick"].origin) == f"{NAME} {VERSION}"
    assert needed_plug_ins(work) == ((NAME, VERSION),)
    todo = items(work, FILES)
    new = {item.path for item in todo} - plain
    printed = {path for path in new if path.startswith("print/story_stick")}
    assert {"cut/story_stick.dxf", "cad/story_stick.step"} <= new
    assert printed
    assert {path for path in new if "bed" not in path} == {"cut/story_stick.dxf", "cad/story_stick.step"} | printed
    make_all(
        [item for item in todo if item.path in ("cut/story_stick.dxf", "cut/README.txt")], tmp_path, lambda _: None
    )
    assert "story_stick.dxf" in (tmp_path / "cut/README.txt").read_text()
    shown = [t.text for t in _texts(work)]
    assert "Story stick" in shown


def _texts(work: Workup) -> list[Any]:
    from scarfwright.outputs.gauges.sheet import gauge_sheets

    return [text for sheet in gauge_sheets(work) for text in sheet.texts()]


def test_the_sticks_nicks_stand_where_the_jobs_clamps_do(add: Add) -> None:
    """The outline's own corners against the numbers of the sled: clamps on the lower edge, the hand line above."""
    add("story_stick", STICK)
    work = worked()
    (part,) = [one.part for one in work.wanted if one.kind.name == "story_stick"]
    assert part is not None
    high = part.outline.bounds[3]
    points = [v.point for v in part.outline.vertices]
    low_tips = sorted(x for x, y in points if y == 3.0)
    high_tips = [x for x, y in points if y == high - 3.0]
    assert low_tips == pytest.approx(sorted({c.station for c in work.way.layout.clamps}), abs=0.005)
    assert high_tips == pytest.approx([work.way.layout.hand_line], abs=0.005)
    assert min(part.outline.bounds[0], points[0][0]) == 0.0  # laid flush with the heel


def test_the_example_fits_all_over_its_ranges() -> None:
    from scarfwright.models.parts.check import check_part
    from scarfwright.models.solids.solids import solid

    for share in (0.0, 0.5, 1.0):
        given = {name: low + share * (high - low) for name, (low, high) in STICK.ranges.items()}
        assert check_part(STICK, None, {**given, "label": "1:8"}) == []
        part = STICK.drawn({**given, "label": "1:8"})
        assert solid(part).isValid()
        assert solid(part).Volume() == pytest.approx(part.volume, rel=1e-9)
    crowded = check_part(STICK, None, {"stations": (400.0, 403.0)})
    assert [(f.code, f.numbers) for f in crowded] == [("part.says_fault", {"gap_mm": 0.0, "needed_mm": 2.0})]


def test_a_list_of_gauges_may_name_it(add: Add) -> None:
    text = 'shop_has = ["printer"]\n' + GOOD + '[printer]\ngauges = ["story_stick", "riser"]\n'
    with pytest.raises(JobError, match="no printed part"):
        job_from_text(text)
    add("story_stick", STICK)
    assert {one.kind.name for one in worked(text).wanted if one.printed} == {"story_stick", "riser"}


def test_its_findings_are_its_own_and_stop_nothing(add: Add) -> None:
    def check(_work: Groundwork | None, values: Values) -> list[Finding]:
        return [said(level, f"The chip is {values['length']:g} long.", length_mm=values["length"]) for level in levels]

    levels = [Level.NOTE, Level.CAUTION]
    add("chip", replace(CHIP, check=check))
    work = worked()
    assert [(f.code, f.level, f.text, f.numbers) for f in sorted(about(work, "chip"), key=lambda f: f.code)] == [
        ("part.says_caution", Level.CAUTION, "The chip is 30 long.", {"length_mm": 30.0}),
        ("part.says_note", Level.NOTE, "The chip is 30 long.", {"length_mm": 30.0}),
    ]
    levels = [Level.FAULT]
    work = worked()
    assert [f.text for f in about(work, "chip")] == ["The chip is 30 long. The chip is left out."]
    assert not faults(list(work.findings))
    assert "cut/chip.dxf" not in {item.path for item in items(work, FILES)}
    assert needed_plug_ins(work) == ()
    for wrong in ("", "two\nlines", 3):
        with pytest.raises(TypeError, match="expected a sentence"):
            said(Level.NOTE, wrong)  # type: ignore[arg-type]


# -- and what bad ones do -----------------------------------------------------------------------------------------


def untypable(length: float = 1.0, *, colours: dict[str, str] | None = None) -> Part:
    return replace(chip(length), colour=(colours or {}).get("chip", "#c8a878"))


BAD: dict[str, tuple[object, str]] = {
    "raises": (RuntimeError("no such\ndevice"), "RuntimeError: no such device"),
    "leaves": (SystemExit(3), "SystemExit: 3"),
    "is missing": (ModuleNotFoundError("No module named 'chips'"), "ModuleNotFoundError: No module named 'chips'"),
    "is no part": ({"name": "chip"}, "it gives dict, no PartKind"),
    "is called otherwise": (replace(CHIP, name="chop"), 'its PartKind is called "chop", not as its entry point'),
    "goes nowhere": (replace(CHIP, goes_to=frozenset()), "it goes to []"),
    "goes elsewhere": (replace(CHIP, goes_to=frozenset({"web"})), "it goes to ['web']"),
    "can't be typed in": (replace(CHIP, build=untypable), "colours has no default, or is none of"),
    "has a range of nothing": (replace(CHIP, ranges={"width": (1.0, 2.0)}), "its builder does not take width"),
    "has two lines": (replace(CHIP, summary="two\nlines"), "its summary is no line of text"),
}


@pytest.mark.parametrize("what", BAD)
def test_one_that_cant_be_loaded_is_named_and_the_rest_is_made(add: Add, what: str) -> None:
    plain = worked()
    thing, why = BAD[what]
    add("chip", thing, "odd-chips", "0.3")
    add("story_stick", STICK)
    work = worked()
    (found,) = about(work, "chip")
    assert (found.code, found.level, found.stops) == ("plug_in.not_loaded", Level.FAULT, False)
    assert found.numbers["package"] == "odd-chips"
    assert found.numbers["version"] == "0.3"
    assert why in found.text
    assert "odd-chips 0.3" in found.text
    assert "pip uninstall odd-chips" in found.text
    assert [one.kind.name for one in work.wanted if one.kind.origin is None] == [o.kind.name for o in plain.wanted]
    assert needed_plug_ins(work) == ((NAME, VERSION),)


@pytest.mark.parametrize("name", ["sled", "plank", "Chip", "chip-2", "c", "sheets", "../chip", "con"])
def test_a_name_that_is_taken_or_no_name_is_refused(add: Add, name: str) -> None:
    own = parts.own_parts()
    add(name, replace(CHIP, name=name))
    assert [(one.name, str(one.origin)) for one in parts.refused()] == [(name, f"{NAME} {VERSION}")]
    assert parts.registry() == own


def test_of_two_packages_with_one_name_the_first_by_name_keeps_it(add: Add) -> None:
    add("chip", CHIP, "zebra-chips", "1")
    add("chip", CHIP, "apple-chips", "2")
    assert str(parts.registry()["chip"].origin) == "apple-chips 2"
    (found,) = about(worked(), "chip")
    assert found.numbers["package"] == "zebra-chips"
    assert "the name is taken by apple-chips 2" in found.text


def fails(*_given: object, **_named: object) -> Any:
    raise ZeroDivisionError("of a thing by nothing")


def leaves(*_given: object, **_named: object) -> Any:
    sys.exit("good bye")


def chip_like(**changes: Any) -> Callable[..., Part]:
    def build(length: float = 20.0) -> Part:
        return replace(chip(length), **changes)

    return build


def only_for_cutters(length: float = 20.0, compensation: float = 0.2) -> Part:
    """Fails where a cutter, or where nobody, asks for it."""
    if compensation == 0:
        raise RuntimeError("no room")
    return chip(length)


def gives(values: Given) -> Callable[[Groundwork], Given]:
    return lambda _work: values


FAILING: dict[str, tuple[dict[str, Any], str]] = {
    "from_job": ({"from_job": fails}, "ZeroDivisionError: of a thing by nothing"),
    "from_job leaves": ({"from_job": leaves}, "SystemExit: good bye"),
    "check": ({"check": fails}, "ZeroDivisionError"),
    "check's words": ({"check": lambda _w, _p: [finding("riser.uneven")]}, "not made with said()"),
    "count": ({"count": fails}, "ZeroDivisionError"),
    "count of halves": ({"count": lambda _work: 1.5}, "it is to be made 1.5 times"),
    "count of too many": ({"count": lambda _work: 10**9}, "it is to be made 1000000000 times"),
    "resolution": ({"resolution": fails}, "ZeroDivisionError"),
    "resolution of nothing": ({"resolution": lambda _w, _p: {"reads_mm": math.nan}}, "it gives reads_mm = nan"),
    "resolution of things": ({"resolution": lambda _w, _p: {"reads_mm": [object()]}}, "expected numbers, a text"),
    "label_place": ({"label_place": fails, "from_job": gives({"label": "1:8"})}, "ZeroDivisionError"),
    "an unknown parameter": ({"from_job": gives({"width": 3.0})}, "unexpected keyword argument"),
    "a parameter that is no value": ({"from_job": gives({"length": [1.0]})}, "unhashable"),  # type: ignore[dict-item]
    "build": ({"build": chip_like(nothing=1)}, "unexpected keyword argument"),
    "build for a cutter": ({"build": only_for_cutters}, "RuntimeError: no room"),
    "no part": ({"finish": lambda _part: None}, "NoneType"),
    "another name": ({"build": chip_like(name="../sled")}, 'its part is called "../sled", not chip'),
    "no title": ({"build": chip_like(title=" ")}, "it has no title"),
    "two lines of use": ({"build": chip_like(use="one\ntwo")}, "a text that can't be printed"),
    "a colour": ({"build": chip_like(colour="red'/>")}, "its colour is"),
    "a guide nowhere": ({"build": chip_like(guides=(((0.0, 0.0), (math.inf, 0.0)),))}, "lies nowhere"),
}


@pytest.mark.parametrize("what", FAILING)
def test_one_that_fails_for_a_job_is_named_and_the_rest_is_made(add: Add, what: str) -> None:
    plain = {item.path for item in items(worked(), FILES)}
    changes, why = FAILING[what]
    add("chip", replace(CHIP, **changes), "odd-chips", "0.3")
    work = worked()
    (found,) = about(work, "chip")
    assert (found.code, found.level, found.stops) == ("plug_in.failed", Level.FAULT, False)
    assert (found.numbers["package"], found.numbers["version"]) == ("odd-chips", "0.3")
    assert why in found.text
    assert found.text.endswith("The chip is left out.")
    assert {item.path for item in items(work, FILES)} == plain
    assert needed_plug_ins(work) == ()


def test_shapes_that_are_none_are_the_usual_finding(add: Add) -> None:
    add("chip", replace(CHIP, build=chip_like(outline=rectangle(0, 0, -5.0, 10.0))))
    assert [f.code for f in about(worked(), "chip")] == ["part.impossible"]


def test_our_own_faults_are_not_hidden(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is guarded is what others wrote: a part of ours that raises is a defect to be seen."""
    broken = replace(parts.own_parts()["riser"], from_job=fails)
    monkeypatch.setattr(parts, "own_parts", lambda: {"riser": broken})
    parts._all.cache_clear()
    try:
        with pytest.raises(ZeroDivisionError):
            worked()
    finally:
        parts._all.cache_clear()


# -- from the command line, as installed packages ------------------------------------------------------------------


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder as an installer leaves it: the example, and a package that tells when it is loaded and then fails."""
    room = tmp_path_factory.mktemp("site")
    shutil.copy(EXAMPLE / "story_stick.py", room)
    (room / "odd_chips.py").write_text("import os, pathlib\npathlib.Path(os.environ['TOLD']).touch()\n1 / 0\n")
    for package, version, entry in (
        (NAME, VERSION, "story_stick = story_stick:KIND"),
        ("odd-chips", "0.3", "chip = odd_chips:KIND"),
    ):
        info = room / f"{package.replace('-', '_')}-{version}.dist-info"
        info.mkdir()
        (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {package}\nVersion: {version}\n")
        (info / "entry_points.txt").write_text(f"[scarfwright.parts]\n{entry}\n")
    return room


def command(installed: Path, folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    on_path = f"import sys; sys.path.insert(0, {str(installed)!r})"
    return run(*words, cwd=folder, env={"TOLD": str(folder / "told"), "COLUMNS": "200"}, first=on_path)


@pytest.mark.parametrize("words", [("--help",), ("--version",), ("schema",), ("start", "mine.toml")], ids=" ".join)
def test_what_asks_for_no_part_loads_none(installed: Path, tmp_path: Path, words: tuple[str, ...]) -> None:
    assert command(installed, tmp_path, *words).returncode == 0
    assert not (tmp_path / "told").exists()


def test_parts_says_where_each_comes_from(installed: Path, tmp_path: Path) -> None:
    done = command(installed, tmp_path, "parts")
    assert done.returncode == 0
    assert (tmp_path / "told").exists()  # so the test above would have seen it
    told = done.stdout.splitlines()
    assert told[told.index(f"story_stick  {STICK.summary}") + 1].strip() == f"from {NAME} {VERSION}"
    (riser,) = [n for n, line in enumerate(told) if line.startswith("riser  ")]
    assert told[riser + 1].strip() == f"from scarfwright {metadata.version('scarfwright')}"
    assert "odd-chips 0.3 adds a part called chip that can't be had: ZeroDivisionError" in done.stderr


def test_part_makes_one_and_check_names_the_other(installed: Path, tmp_path: Path) -> None:
    done = command(installed, tmp_path, "part", "story_stick", "stations=400,700", "length=0.8 m", "--out", "s.dxf")
    assert (done.returncode, done.stderr) == (0, "")
    assert "Story stick, 800 mm x 34 mm x 4 mm" in done.stdout
    assert command(installed, tmp_path, "part", "chip", "--out", "c.dxf").returncode == 2
    write(tmp_path, GOOD)
    done = command(installed, tmp_path, "check", "job.toml", "--all")
    assert done.returncode == 0
    assert "plug_in.not_loaded" in done.stdout


def test_part_that_raises_is_one_line(add: Add, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from scarfwright.cli.parting import make_part

    add("chip", replace(CHIP, build=chip_like(colour="red")))
    assert make_part("chip", [], tmp_path / "chip.dxf", False) == 1
    assert f"chip of {NAME} {VERSION}: its colour is" in capsys.readouterr().err
    add("chop", replace(CHIP, name="chop", check=fails))
    assert make_part("chop", [], tmp_path / "chop.dxf", False) == 1
    assert not list(tmp_path.iterdir())


@pytest.mark.slow
def test_built_as_a_wheel_installed_and_removed_again(tmp_path: Path) -> None:
    """In an environment of its own, which sees this one's libraries: `parts`, `part` and `make`, then all is as before.

    The package's build and its dependency on an installed scarfwright are gone through by .ci/run.
    """
    source = tmp_path / "source"
    shutil.copytree(EXAMPLE, source, ignore=shutil.ignore_patterns("__pycache__"))
    subprocess.run([sys.executable, "-m", "build", "--wheel", "--outdir", tmp_path, source], check=True, timeout=300)
    (wheel,) = tmp_path.glob("*.whl")
    subprocess.run([sys.executable, "-m", "venv", tmp_path / "env"], check=True, timeout=300)
    python = tmp_path / "env" / "bin" / "python"
    (site,) = (tmp_path / "env" / "lib").glob("python*/site-packages")
    (site / "seen.pth").write_text("\n".join(p for p in sys.path if p.endswith("site-packages")) + "\n")
    environment = {**os.environ, "PYTHONPATH": str(ROOT / ".typing")}

    def tool(*words: str) -> str:
        code = "from scarfwright.cli.entry import run; run()"
        done = subprocess.run(
            [python, "-c", code, *words], cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=600
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    def pip(*words: str) -> None:
        subprocess.run([python, "-m", "pip", "--quiet", *words], check=True, timeout=300, env=environment)

    before = tool("parts", "--json")
    pip("install", "--no-deps", "--no-index", str(wheel))
    assert f"from {NAME} {VERSION}" in tool("parts")
    tool("part", "story_stick", "--out", "stick.step")
    tool("make", "--out", "with")
    for name in ("cad/story_stick.step", "cut/story_stick.dxf"):
        assert (tmp_path / "with" / name).stat().st_size > 1000
    pip("uninstall", "--yes", NAME)
    assert tool("parts", "--json") == before
    tool("make", "--out", "without")
    assert not list((tmp_path / "without").rglob("story_stick*"))


# -- the names they may use ----------------------------------------------------------------------------------------

# names of version 1: one that goes, or changes its meaning, makes it version 2
PUBLIC = """
    VERSION Feature Finding Given Groundwork Level Loop Mark Operation Part PartKind Place Point Raised Value Values
    Vertex circle engraved expanded job_label polygon rectangle rounded rounded_each said say_in slot
"""
FIELDS = {
    "Groundwork": "job joint glue way cut",
    "Part": "name title outline thickness features raised marks colour use sharp guides",
    "Feature": "operation loop name depth islands writing strokes",
    "Mark": "points text height angle name scored",
    "Raised": "loop bottom top name",
    "PartKind": "name summary build from_job goes_to check count handed any_shop way ranges units resolution "
    "label_place along_grain defaults finish",
}


def test_the_public_names_are_these() -> None:
    assert public.VERSION == 1
    assert set(public.__all__) == set(PUBLIC.split())
    assert len(public.__all__) == len(set(public.__all__))
    for name in public.__all__:
        assert hasattr(public, name), name
    own = {n for n, thing in vars(public).items() if not n.startswith("_") and not isinstance(thing, ModuleType)}
    assert own - {"annotations"} == set(public.__all__)
    for name, fields in FIELDS.items():
        known = [field.name for field in dataclasses.fields(getattr(public, name))]
        assert set(fields.split()) <= set(known), name
    assert Place(1.0, 2.0, 3.0, 4.0)._fields == ("x", "y", "width", "height")


def test_the_example_uses_public_names_only() -> None:
    text = (EXAMPLE / "story_stick.py").read_text(encoding="utf-8")
    used = [line for line in text.splitlines() if "scarfwright" in line and "import" in line]
    assert used == ["from scarfwright.models.for_plug_ins import ("]


def test_the_examples_are_quiet_with_the_stick(add: Add) -> None:
    add("story_stick", STICK)
    for path in sorted((ROOT / "examples").glob("*.toml")):
        assert about(work_up(read_job(path)), "story_stick") == [], path.name
