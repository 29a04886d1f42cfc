"""A job passed on and come back, as a user does it: share, check, make, and made one's own."""

from __future__ import annotations

import hashlib
import json
import shutil
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from scarfwright.cli.main import main
from scarfwright.cli.sharing.checking import check_folder, check_zip
from scarfwright.cli.sharing.packing import in_order
from scarfwright.cli.showing.checking import Tables
from scarfwright.models.job.file import job_from_dict, job_from_text, job_to_toml, read_job
from scarfwright.models.job.reading.shop_file import KEYS
from scarfwright.models.job.tables import Job
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.sharing.manifest import NAME, Manifest, Sealed, kept_numbers, manifest_text, read_manifest
from scarfwright.models.sharing.own import own_job
from scarfwright.models.sharing.versions import tool_version
from scarfwright.models.solve import work_up
from scarfwright.models.words.at_the_saw.procedure import cautions
from scarfwright.models.words.passing_on.papers import licence_text
from scarfwright.outputs.readers import reading
from scarfwright.outputs.share.seal import sealed
from scarfwright.outputs.share.shared import read_shared
from scarfwright.outputs.share.zip_out import write_zip

from tests.cli_runs import GOOD, run, write
from tests.zips import One, entries_of, files_for, raw_zip

EXAMPLES = Path(__file__).parents[1] / "examples"
INCHES = """
title = "Yard"
units = "in"
[stock]
thickness = "7/8 in"
height = "1 3/4 in"
[joint]
ratio = 11
[clamp]
opening = "4 in"
"""


@pytest.fixture(scope="module")
def passed_on(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A zip made by `share`, in a folder with the job it is of."""
    room = tmp_path_factory.mktemp("shared")
    write(room, f'title = "Gunwale"\n{GOOD}')
    done = run("share", "job.toml", "--licence", "cc-by-4.0", cwd=room)
    assert done.returncode == 0, done.stderr
    assert "CC-BY-4.0" in done.stdout
    assert sorted(p.name for p in room.iterdir()) == ["job.toml", "job.zip"]
    return room / "job.zip"


Here = Callable[..., tuple[int, str, str]]


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Here:
    """The tool run in this process in `tmp_path`: its exit code, output and messages."""
    monkeypatch.chdir(tmp_path)

    def tool(*words: str | Path) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["scarfwright", *map(str, words)])
        code = main()
        return code, *capsys.readouterr()

    return tool


@pytest.fixture
def unpacked(passed_on: Path, tmp_path: Path) -> Path:
    with zipfile.ZipFile(passed_on) as archive:
        archive.extractall(tmp_path / "unpacked")
    return tmp_path / "unpacked"


def small(folder: Path, text: str = GOOD, more: list[One] | None = None, **changes: Any) -> Path:
    """A zip of the job's true numbers, or of changed ones, without the time it takes to make its files."""
    kept = changes.pop("kept", None) or kept_numbers(numbers(work_up(job_from_text(text))))
    path = folder / "small.zip"
    path.write_bytes(raw_zip([*entries_of(files_for(kept, text, **changes)), *(more or [])]))
    return path


def said_of(path: Path, capsys: pytest.CaptureFixture[str], code: int) -> str:
    """What `check` says of a zip or folder, on one line."""
    look = check_folder if path.is_dir() else check_zip
    assert look(path, Tables(), json=False) == code
    return " ".join(capsys.readouterr().out.split())


def told_of(path: Path, capsys: pytest.CaptureFixture[str], code: int) -> dict[str, Any]:
    look = check_folder if path.is_dir() else check_zip
    assert look(path, Tables(), json=True) == code
    told: dict[str, Any] = json.loads(capsys.readouterr().out)
    return told


# -- the zip ----------------------------------------------------------------------------------------------------


def test_the_zip_holds_every_file_and_its_manifest_is_true(passed_on: Path) -> None:
    with zipfile.ZipFile(passed_on) as archive:
        assert archive.testzip() is None
        manifest = read_manifest(archive.read(NAME))
        assert archive.namelist() == in_order(manifest)
        assert archive.namelist()[:2] == ["READ-FIRST.txt", NAME]
        for name, told in manifest.files.items():
            data = archive.read(name)
            assert told == Sealed(hashlib.sha256(data).hexdigest(), len(data))
        assert {i.date_time for i in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert {(i.compress_type, i.create_system, i.external_attr) for i in archive.infolist()} == {(0, 0, 0x20)}
        first, licence = (archive.read(name).decode() for name in ("READ-FIRST.txt", "LICENCE.txt"))
        job = job_from_text(archive.read("job.toml").decode())
    assert {"job.toml", "numbers.json", "cad/sled.step", "cut/sled.dxf", "paper/sled.pdf"} <= set(manifest.files)
    work = work_up(job)
    assert manifest.numbers == json.loads(json.dumps(kept_numbers(numbers(work))))
    assert manifest.terms.licence == "CC-BY-4.0"
    assert "SPDX-License-Identifier: CC-BY-4.0" in licence
    assert first.index("SAWING CAN MAIM") < first.index(cautions(work)[0]) < first.index("WHOSE SAW")
    assert all(text in first for text in cautions(work))
    assert "blade 254 mm, kerf 3.2 mm" in first


def test_make_of_a_zip_gives_the_same_bytes_and_from_them_the_same_zip(passed_on: Path, tmp_path: Path) -> None:
    shutil.copy(passed_on, tmp_path / "sled.zip")
    done = run("make", "sled.zip", "--json", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert told["folder"] == "sled-files"
    assert (told["shared"]["other_bytes"], told["shared"]["not_made"]) == ([], [])
    assert sorted(told["shared"]["same_bytes"]) == sorted(told["files"])
    made = tmp_path / "sled-files"
    manifest = read_manifest((made / NAME).read_bytes())
    write_zip(tmp_path / "again.zip", made, in_order(manifest), replace=False)
    assert sealed(tmp_path / "again.zip") == sealed(passed_on)
    # files of another job are not replaced without a word
    write(tmp_path, GOOD.replace("60 mm", "61 mm"))
    other = small(tmp_path, GOOD.replace("60 mm", "61 mm"))
    other.rename(tmp_path / "other.zip")
    refused = run("make", "other.zip", "--out", "sled-files", cwd=tmp_path)
    assert refused.returncode == 2
    assert "the files of another job" in refused.stderr
    assert (made / NAME).read_bytes() == manifest_text(manifest).encode()


@pytest.mark.slow
@pytest.mark.parametrize("name", sorted(path.name for path in EXAMPLES.glob("*.toml")))
def test_the_same_job_gives_the_same_zip(name: str, tmp_path: Path) -> None:
    for number in (1, 2):
        room = tmp_path / str(number)
        room.mkdir()
        shutil.copy(EXAMPLES / name, room / f"{number}.toml")
        run("share", f"{number}.toml", cwd=room, env={"PYTHONHASHSEED": str(number), "TZ": f"UTC{number}"})
    assert sealed(tmp_path / "1" / "1.zip") == sealed(tmp_path / "2" / "2.zip")
    assert run("check", "1.zip", cwd=tmp_path / "1").returncode == 0


def test_share_never_writes_over_a_zip_nor_for_a_job_with_faults(tmp_path: Path, here: Here) -> None:
    write(tmp_path, GOOD)
    write(tmp_path, GOOD.replace('height = "60 mm"', 'height = "10 mm"'), "bad.toml")
    (tmp_path / "job.zip").write_text("mine")
    code, _, said = here("share", "job.toml")
    assert (code, "is there already" in said) == (2, True)
    assert (tmp_path / "job.zip").read_text() == "mine"
    code, _, said = here("share", "bad.toml")
    assert (code, "so nothing was made" in said) == (1, True)
    for words, wrong in (
        (("--out", "x.tar"), "ends in .zip"),
        (("--out", "none/x.zip"), "there is no folder none"),
        (("--licence", "CC-BY-4"), "the nearest is CC-BY-4.0"),
        (("--licence", "cc by 3.0"), "the nearest is CC-BY-3.0"),
        (("--licence", "((("), "a name of the SPDX list"),
        (("--licence", "CC-BY-4.0 AND"), "a name of the SPDX list"),
        (("--licence", "LicenseRef-mine"), "a name of the SPDX list"),
        (("--licence", ""), "a name of the SPDX list"),
        (("--licence", "x" * 300), "300 characters"),
    ):
        code, _, said = here("share", "job.toml", *words)
        assert (code, wrong in said) == (2, True), said
    assert sorted(p.name for p in tmp_path.iterdir()) == ["bad.toml", "job.toml", "job.zip"]


def test_without_a_licence_all_rights_stay_with_the_maker() -> None:
    text = licence_text("Gunwale", None)
    assert "All rights stay with the person who made this job." in text
    assert "SPDX" not in text


# -- check of a zip ---------------------------------------------------------------------------------------------


def test_the_same_numbers(passed_on: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = said_of(passed_on, capsys, 0)
    assert f"Made by scarfwright {tool_version()}, with the same libraries as here." in said
    assert "Numbers worked out again: the same, all " in said
    assert "FOR THE SAW AND CLAMPS OF ITS MAKER: blade 254 mm, kerf 3.2 mm" in said
    assert "start mine.toml --from" in said
    assert "Passed on by its maker under CC-BY-4.0" in said
    told = told_of(passed_on, capsys, 0)["shared"]
    assert (told["same_numbers"], told["other_numbers"], told["not_listed"]) == (True, [], [])


@pytest.mark.parametrize(
    ("text", "mm", "line"),
    [
        (GOOD, 950.0, "sled length: 950 mm as passed on, 850 mm worked out here, 100 mm less"),
        (GOOD, 849.999, "sled length: 849.999 mm as passed on, 850 mm worked out here, 0.001 mm more"),
        (INCHES, 41 * 25.4, "sled length: 41 in as passed on, 32 in worked out here, 9 in less"),
    ],
)
def test_other_numbers_are_named_with_how_much(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, mm: float, line: str
) -> None:
    kept = kept_numbers(numbers(work_up(job_from_text(text))))
    kept["sled"] = {**kept["sled"], "length_mm": mm}
    path = small(tmp_path, text, kept=kept)
    said = said_of(path, capsys, 1)
    assert "Numbers worked out again: OTHERS, 1 of " in said
    assert line in said
    told = told_of(path, capsys, 1)["shared"]
    assert [one["key"] for one in told["other_numbers"]] == ["sled.length_mm"]


def test_findings_that_came_and_versions_that_differ(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    kept = kept_numbers(numbers(work_up(job_from_text(GOOD))))
    came = kept["findings"].pop()["code"]
    path = small(tmp_path, kept=kept, libraries={"numpy": "1.0"}, plug_ins=[{"name": "no-such-parts", "version": "3"}])
    said = said_of(path, capsys, 1)
    assert "the findings are OTHERS" in said
    assert f"now found, not when it was made: {came}" in said
    assert "numpy 1.0 there, 2." in said
    assert "Needs the plug-in no-such-parts 3, not found here: its parts are left out." in said


def test_other_versions_alone_are_no_fault(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = said_of(small(tmp_path, tool={"name": "scarfwright", "version": "0.0.1"}), capsys, 0)
    assert "scarfwright 0.0.1 there" in said


def test_a_job_that_has_faults_here(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = said_of(small(tmp_path, GOOD.replace('"60 mm"', '"10 mm"')), capsys, 1)
    assert "Numbers worked out again: the same" in said
    assert "Stops the job" in said


def test_a_file_that_was_put_in_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = said_of(small(tmp_path, more=[One("cut/better sled.dxf", b"x")]), capsys, 1)
    assert "NOT of this job, put there by somebody: cut/better sled.dxf." in said


def test_check_of_a_zip_loads_nothing_heavy(tmp_path: Path) -> None:
    heavy = "('cadquery', 'OCP', 'trimesh', 'ezdxf', 'reportlab', 'ortools', 'scipy', 'shapely', 'license_expression')"
    code = (
        "import sys, atexit\n"
        f"atexit.register(lambda: print('heavy', [m for m in {heavy} if m in sys.modules], file=sys.stderr))\n"
        "from scarfwright.cli.entry import run; run()"
    )
    done = run("check", small(tmp_path), cwd=tmp_path, code=code)
    assert (done.returncode, done.stderr) == (0, "heavy []\n")


@pytest.mark.parametrize("command", ["check", "make"])
@pytest.mark.parametrize("what", ["zip", "hostile"])
def test_what_is_refused_leaves_nothing(tmp_path: Path, here: Here, command: str, what: str) -> None:
    """Another shop's saw, or a zip that could do harm: one message, nothing written."""
    if what == "zip":
        path, words, said = small(tmp_path), ["--shop", "my-shop.toml"], "scarfwright start mine.toml --from small.zip"
        write(tmp_path, '[saw]\nkerf = "3 mm"\n', "my-shop.toml")
    else:
        path, words, said = small(tmp_path, more=[One("../x", b"x")]), [], "climbs out of the folder"
    before = sorted(p.name for p in tmp_path.iterdir())
    code, out, error = here(command, path.name, *words, "--json")
    assert code == 2
    assert said in error
    assert error.count("\n") == 1
    assert json.loads(out)["problems"][0]["file"] == "small.zip"
    assert sorted(p.name for p in tmp_path.iterdir()) == before


def test_options_that_would_make_another_job_of_it(tmp_path: Path, here: Here) -> None:
    path = small(tmp_path)
    for words in (["--machine", "laser"], ["--dxf", "r12"], ["--tool-path"]):
        code, _, said = here("make", path.name, *words)
        assert (code, words[0] in said) == (2, True)
    code, _, said = here("plan", path.name)
    assert (code, "A zip goes with check and make" in said) == (2, True)


# -- check of a folder ------------------------------------------------------------------------------------------


def reseal(folder: Path, *names: str) -> None:
    """A liar's work: the manifest made to fit the changed files."""
    old = read_manifest((folder / NAME).read_bytes())
    files = {**old.files, **{name: sealed(folder / name) for name in names}}
    (folder / NAME).write_text(
        manifest_text(Manifest(old.tool, old.libraries, old.numbers, files, old.terms)), encoding="utf-8"
    )


def test_a_folder_that_is_whole(unpacked: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = said_of(unpacked, capsys, 0)
    assert "whole, byte for byte as they were made." in said
    assert "Numbers worked out again: the same" in said
    assert "2 STL, 1 GLB by trimesh" in said
    assert "DXF by trimesh" in said
    assert "PDF by pypdfium2" in said
    assert "STEP, for which no reader is known but the one that wrote it" in said
    assert "FOR THE SAW AND CLAMPS OF ITS MAKER" in said
    told = told_of(unpacked, capsys, 0)["shared"]
    assert told["changed"] == told["missing"] == told["not_listed"] == []
    read = {one["format"]: one for one in told["read_back"]}
    assert set(read) == {".stl", ".glb", ".dxf", ".pdf", ".svg", ".step"}
    assert read[".step"]["reader"] is None


def test_a_folder_that_was_touched(unpacked: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with (unpacked / "cad" / "sled.step").open("a") as file:
        file.write("\n")
    (unpacked / "cut" / "sled.dxf").unlink()
    (unpacked / "cut" / "sled-2.dxf").write_text("x")
    said = said_of(unpacked, capsys, 1)
    assert "CHANGED since it was made: cad/sled.step. Do not cut from these." in said
    assert "MISSING: cut/sled.dxf." in said
    assert "NOT of this job, put there by somebody: cut/sled-2.dxf." in said


def test_another_job_than_it_was_made_from(unpacked: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = unpacked / "job.toml"
    job.write_text(job.read_text().replace('"60 mm"', '"61 mm"'))
    assert "job.toml is not the one it was made with" in said_of(unpacked, capsys, 1)
    assert told_of(unpacked, capsys, 1)["shared"]["same_numbers"] is None
    reseal(unpacked, "job.toml")  # made to fit: then the numbers give it away
    assert "Numbers worked out again: OTHERS" in said_of(unpacked, capsys, 1)


def test_a_sled_that_is_not_the_jobs_though_the_manifest_fits(
    unpacked: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whoever changes a file can write its new sha256 too: what is read back is measured by the job's numbers."""
    shutil.copy(unpacked / "cad" / "riser.stl", unpacked / "cad" / "sled.stl")
    shutil.copy(unpacked / "cut" / "carrier.dxf", unpacked / "cut" / "sled.dxf")
    reseal(unpacked, "cad/sled.stl", "cut/sled.dxf")
    said = said_of(unpacked, capsys, 1)
    assert "byte for byte as they were made" in said
    assert "cad/sled.stl: volume" in said
    assert "cut/sled.dxf: area" in said


@pytest.mark.parametrize(
    "name", ["cad/sled.stl", "cad/saw-setup.glb", "cut/sled.dxf", "paper/sled.pdf", "paper/sled.svg"]
)
@pytest.mark.parametrize("damage", ["noise", "half", "empty"])
def test_files_that_can_not_be_read_are_findings(
    unpacked: Path, capsys: pytest.CaptureFixture[str], name: str, damage: str
) -> None:
    name = (
        name
        if (unpacked / name).is_file()
        else next(p.relative_to(unpacked).as_posix() for p in sorted(unpacked.rglob(f"*{Path(name).suffix}")))
    )
    data = (unpacked / name).read_bytes()
    (unpacked / name).write_bytes({"noise": b"\xff\0noise" * 99, "half": data[: len(data) // 3], "empty": b""}[damage])
    reseal(unpacked, name)
    told = told_of(unpacked, capsys, 1)["shared"]
    faults = [fault for one in told["read_back"] for fault in one["faults"]]
    assert len(faults) == 1
    assert faults[0].startswith(f"{name}: ")


def test_without_the_readers_it_says_what_was_not_read(
    unpacked: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "find_spec", lambda _name: None)
    said = said_of(unpacked, capsys, 0)
    assert "SVG by Python's XML reader" in said
    assert 'pip install "scarfwright[verify]" reads all but STEP' in said
    assert "trimesh" not in said


def test_a_folder_without_a_manifest(tmp_path: Path, here: Here) -> None:
    code, _, said = here("check", ".")
    assert (code, "is a folder without manifest.json" in said) == (2, True)
    (tmp_path / NAME).mkdir()
    code, _, said = here("check", ".")
    assert (code, "no ordinary file" in said) == (2, True)


# -- made one's own ---------------------------------------------------------------------------------------------

SHOP = 'shop_has = ["printer"]\n[saw]\nkerf = "2.6 mm"\nteeth = 40\n[clamp]\nopening = "90 mm"\n'
THEIRS = """
title = "Gunwale"
shop_has = ["router"]
[stock]
species = "larch"
thickness = "22 mm"
height = "60 mm"
[joint]
ratio = "11:1"
[saw]
kerf = "3 mm"
rpm = 4000
fence_side = "left"
[clamp]
opening = "80 mm"
[sled]
plank = ["40 mm", "190 mm"]
web = "30 mm"
heel_as_made = "140 mm"
nose_as_made = "60 mm"
length_as_made = "900 mm"
[router]
cutter = "8 mm"
[adhesive]
kind = "epoxy"
[[board]]
name = "rack A"
length = "2.4 m"
count = 6
defects = [["700 mm", "740 mm"]]
[[blank]]
name = "gunwale"
length = "4.6 m"
bend = "thickness"
curve = [["0 mm", "0 mm"], ["1 m", "-20 mm"], ["3 m", "-60 mm"], ["4.6 m", "-100 mm"]]
"""


@pytest.mark.parametrize("where", ["beside", "elsewhere"])
def test_saw_and_machines_are_mine_the_rest_theirs(tmp_path: Path, here: Here, where: str) -> None:
    room = tmp_path if where == "beside" else tmp_path / "mine"
    room.mkdir(exist_ok=True)
    small(tmp_path, THEIRS)
    write(tmp_path, SHOP, "my-shop.toml")
    file = room / "new.toml"
    code, out, error = here("start", file, "--from", "small.zip", "--shop", "my-shop.toml")
    assert code == 0, error
    said = " ".join(out.split())
    for line in (
        "machines router there, printer yours",
        "saw kerf 3 mm there, 2.6 mm yours",
        "saw rpm 4000 there, none yours (not in your file)",
        "saw fence side left there, right yours (not in your file)",
        "router cutter 8 mm there, 6 mm yours (not in your file)",
        "Left out: sled heel as made, sled nose as made, sled length as made (measured on the other sled",
    ):
        assert line in said
    assert ("include" in file.read_text()) == (where == "beside")
    mine, theirs = read_job(file), job_from_text(THEIRS)
    usual = job_from_text(GOOD)
    assert (mine.shop_has, mine.saw.kerf.text, mine.saw.teeth, mine.clamp.opening.text) == (
        ("printer",), "2.6 mm", 40, "90 mm",
    )  # fmt: skip
    assert (mine.saw.rpm, mine.saw.fence_side, mine.router) == (None, "right", usual.router)
    for table in ("title", "units", "stock", "joint", "adhesive", "limits", "plan", "board", "blank", "buy"):
        assert getattr(mine, table) == getattr(theirs, table), table
    measured = {"heel_as_made": None, "nose_as_made": None, "length_as_made": None}
    assert mine.sled == theirs.sled.model_copy(update=measured)
    code, _, error = here("start", file, "--from", "small.zip")
    assert (code, "is there already" in error) == (2, True)
    assert here("check", file)[0] == 0


@pytest.mark.parametrize("name", sorted(path.name for path in EXAMPLES.glob("*.toml")))
def test_every_example_made_ones_own_keeps_what_is_not_of_the_shop(name: str) -> None:
    theirs = job_from_text(job_to_toml(read_job(EXAMPLES / name)))
    mine = own_job(theirs, None, None, []).job
    for table in set(Job.model_fields) - set(KEYS):
        assert getattr(mine, table) == getattr(theirs, table), table
    least = {"units": theirs.units, "stock": {"thickness": "22 mm", "height": "60 mm"}, "joint": {"ratio": 12}}
    for table in KEYS:
        assert getattr(mine, table) == getattr(job_from_dict(least), table), table


def test_without_a_shop_nothing_of_their_saw_stays(tmp_path: Path, here: Here) -> None:
    small(tmp_path, THEIRS)
    code, out, _ = here("start", "new.toml", "--from", "small.zip")
    assert code == 0
    assert "assumed, none are theirs" in " ".join(out.split())
    assert "saw" not in (tmp_path / "new.toml").read_text().split("title")[1]
    assert read_job(tmp_path / "new.toml").saw == job_from_text(GOOD).saw


def test_start_from_a_folder_too(unpacked: Path, tmp_path: Path, here: Here) -> None:
    assert here("start", "new.toml", "--from", unpacked)[0] == 0
    assert read_job(tmp_path / "new.toml").title == "Gunwale"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--shop", "my-shop.toml"], "expected --from with it"),
        (["--from", "small.zip", "--units", "in"], "--units: found it with --from"),
        (["--from", "small.zip", "--ask"], "--ask: found it with --from"),
        (["--from", "small.zip", "--shop", "none.toml"], "no such file"),
        (["--from", "none.zip"], "no such file"),
        (["--from", "my-shop.toml"], "no end of a zip's directory"),
    ],
)
def test_start_refuses_what_makes_no_sense(tmp_path: Path, here: Here, words: list[str], said: str) -> None:
    small(tmp_path)
    write(tmp_path, SHOP, "my-shop.toml")
    code, _, error = here("start", "new.toml", *words)
    assert (code, said in error) == (2, True), error
    assert not (tmp_path / "new.toml").exists()


def test_what_is_read_of_a_zip_is_what_was_put_in(tmp_path: Path) -> None:
    shared = read_shared(small(tmp_path, THEIRS))
    assert shared.job == job_from_text(THEIRS)
