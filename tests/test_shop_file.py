"""A shop's own file, taken in by `include` or --shop: the job wins, nothing else is let in, and every problem names the
file and the line it is in."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.cli.main import main
from scarfwright.models.job.file import Read, job_from_text, job_to_toml, read_job, read_whole
from scarfwright.models.job.forms.schema import job_schema
from scarfwright.models.job.problems import JobError
from scarfwright.models.job.reading.shop_file import KEYS, TABLES, read_shop
from scarfwright.models.job.tables import Job

from tests.cli_runs import run, write

JOB = """
[stock]
thickness = "22 mm"
height = "60 mm"
[joint]
ratio = 12
"""
SHOP = """
shop_has = ["printer"]
[saw]
kerf = "2.6 mm"
blade_diameter = "10 in"
end_of_cut = "run_on"
[clamp]
opening = "80 mm"
force = "900 N"
[printer]
bed = ["200 mm", "200 mm", "8 in"]
gauges = "all"
"""


def read(folder: Path, job: str, shop: str, *, include: bool = True) -> Read:
    path = write(folder, ('include = "my-shop.toml"\n' if include else "") + job)
    write(folder, shop, "my-shop.toml")
    return read_whole(path, None if include else folder / "my-shop.toml")


def refusal(folder: Path, job: str, shop: str) -> JobError:
    with pytest.raises(JobError) as caught:
        read(folder, job, shop)
    return caught.value


@pytest.mark.parametrize("include", [True, False])
def test_what_the_shop_gives_is_in_the_job(tmp_path: Path, include: bool) -> None:
    found = read(tmp_path, JOB, SHOP, include=include)
    job = found.job
    assert job.shop_has == ("printer",)
    assert (job.saw.kerf.text, job.saw.blade_diameter.text, job.saw.end_of_cut) == ("2.6 mm", "10 in", "run_on")
    assert (float(job.clamp.opening), job.printer.gauges, job.printer.bed[2].text) == (80.0, "all", "8 in")
    assert job.clamp.force is not None
    assert job.clamp.force.text == "900 N"
    assert float(job.saw.plate) == float(Job.model_fields["saw"].get_default(call_default_factory=True).plate)
    assert found.kept == ()


def test_a_key_in_the_job_wins_and_is_named(tmp_path: Path) -> None:
    job = JOB + '[saw]\nkerf = "3 mm"\nblade_diameter = "254 mm"\nplate = "2 mm"\n'
    found = read(tmp_path, 'shop_has = ["laser"]\n' + job, SHOP)
    assert (found.job.shop_has, found.job.saw.kerf.text) == (("laser",), "3 mm")
    assert found.job.saw.end_of_cut == "run_on"
    assert found.taken == ("saw.end_of_cut", "clamp.opening", "clamp.force", "printer.bed", "printer.gauges")
    assert found.kept == ("shop_has", "saw.kerf")  # 254 mm and 10 in are one size


def test_the_folders_job_is_whole_and_gives_the_same_job(tmp_path: Path) -> None:
    job = read(tmp_path, JOB, SHOP).job
    text = job_to_toml(job)
    assert "include" not in text
    assert job_from_text(text) == job
    assert read_job(tmp_path / "job.toml") == job


def test_the_same_written_out_is_the_same_job(tmp_path: Path) -> None:
    shop_has, _, tables = SHOP.partition("[saw]")
    assert read(tmp_path, JOB, SHOP).job == job_from_text(f"{shop_has}{JOB}[saw]{tables}")


@pytest.mark.parametrize("units", ["mm", "in"])
def test_bare_numbers_are_in_the_shops_own_units(tmp_path: Path, units: str) -> None:
    """Whatever the job's are: a kerf of 0.1 in must not become 0.1 mm."""
    shop = 'units = "in"\n[saw]\nkerf = 0.1\ntooth_feed = [0.001, 0.004]\nteeth = 24\n[router]\nspacing = 1\n'
    job = read(tmp_path, f'units = "{units}"\n{JOB}', shop).job
    assert job.units == units
    assert float(job.saw.kerf) == pytest.approx(2.54)
    assert [float(one) for one in job.saw.tooth_feed] == pytest.approx([0.0254, 0.1016])
    assert (job.saw.teeth, job.router.spacing) == (24, 25.4)


@pytest.mark.parametrize(
    "shop", ["[saw]\n\nkerf = 2.6\n", "[printer]\n\nbed = [200, 200, 200]\n", "[router]\n\nspacing = 12\n"]
)
def test_bare_numbers_without_units_are_refused(tmp_path: Path, shop: str) -> None:
    error = refusal(tmp_path, JOB, shop)
    assert error.problems[0].file == str(tmp_path / "my-shop.toml")
    assert error.problems[0].line == 3
    assert "without a unit" in str(error)


def test_inch_jobs_keep_their_own_defaults(tmp_path: Path) -> None:
    job = read(tmp_path, 'units = "in"\n' + JOB, '[saw]\nkerf = "0.1 in"\n').job
    assert job.saw.plate.text == job_from_text('units = "in"\n' + JOB).saw.plate.text
    assert job.saw.plate != job_from_text(JOB).saw.plate


def test_old_keys_of_either_file_are_read(tmp_path: Path) -> None:
    """[clamp] jaw stood for both jaws: the job's wins over the shop's new names, and the other way."""
    found = read(tmp_path, JOB + '[clamp]\njaw = "9 mm"\n', '[clamp]\njaw_outer = "14 mm"\nopening = "80 mm"\n').job
    assert [one.text for one in (found.clamp.jaw_outer, found.clamp.jaw_inner, found.clamp.opening)] == [
        "9 mm",
        "9 mm",
        "80 mm",
    ]
    found = read(tmp_path, JOB + '[clamp]\njaw_inner = "9 mm"\n', '[clamp]\njaw = "14 mm"\n').job
    assert (found.clamp.jaw_outer.text, found.clamp.jaw_inner.text) == ("14 mm", "9 mm")


@pytest.mark.parametrize(
    ("shop", "line", "word"),
    [
        ('include = "other.toml"\n', 1, "includes nothing itself"),
        ('\n[stock]\nthickness = "22 mm"\n', 2, "belongs to a job"),
        ("\n[[board]]\n", 2, "belongs to a job"),
        ('title = "x"\n', 1, "belongs to a job"),
        ("\nsaws = 1\n", 2, 'nearest known one is "saw"'),
        ('[saw]\nkerv = "2 mm"\n', 2, 'nearest known one is "kerf"'),
        ('[saw]\nkerf = "2 m m"\n', 2, "expected a length"),
        ('[saw]\nend_of_cut = "stop"\n', 2, '"hold"'),
        ('units = "ft"\n', 1, 'expected "mm" or "in"'),
        ("shop_has = 3\n", 1, "expected a list"),
        ("saw = 3\n", 1, "a table [saw]"),
        ("[[saw]]\n", 1, "once"),
        ("[saw\n", 1, "TOML"),
        ("", None, "the file is empty"),
        ("\0", None, "binary"),
    ],
)
def test_what_is_wrong_in_the_shop_file_is_said_of_that_file(
    tmp_path: Path, shop: str, line: int | None, word: str
) -> None:
    error = refusal(tmp_path, JOB, shop)
    assert error.problems[0].file == str(tmp_path / "my-shop.toml")
    assert error.problems[0].line == line
    assert word in str(error)
    assert not list(tmp_path.glob("*-files"))


@pytest.mark.parametrize(
    ("include", "word"),
    [
        ('"../my-shop.toml"', "beside the job"),
        ('"/my-shop.toml"', "beside the job"),
        ('"deeper/my-shop.toml"', "beside the job"),
        ('"deeper\\\\my-shop.toml"', "beside the job"),
        ('"C:my-shop.toml"', "beside the job"),
        ('".."', "beside the job"),
        ('""', "beside the job"),
        ("3", "beside the job"),
        ('["my-shop.toml"]', "beside the job"),
        ('"none.toml"', "no file none.toml"),
        ('"job.toml"', "the job itself"),
        ('"link.toml"', "the job itself"),
    ],
)
def test_what_can_not_be_included(tmp_path: Path, include: str, word: str) -> None:
    path = write(tmp_path, f"# my job\ninclude = {include}\n{JOB}")
    (tmp_path / "link.toml").symlink_to("job.toml")
    with pytest.raises(JobError, match="include: ") as caught:
        read_job(path)
    assert word in str(caught.value)
    assert (caught.value.problems[0].file, caught.value.problems[0].line) == (str(path), 2)


def test_a_folder_is_no_shop(tmp_path: Path) -> None:
    (tmp_path / "my-shop.toml").mkdir()
    with pytest.raises(JobError, match=r"my-shop\.toml: is a folder; expected a shop file"):
        read_job(write(tmp_path, 'include = "my-shop.toml"\n' + JOB))


def test_text_without_a_folder_includes_nothing() -> None:
    with pytest.raises(JobError, match="expected a job that is whole"):
        job_from_text('include = "my-shop.toml"\n' + JOB)


def test_include_in_a_table_or_mistyped(tmp_path: Path) -> None:
    with pytest.raises(JobError, match=r"line 7: .* above the first table"):
        read_job(write(tmp_path, JOB + 'include = "my-shop.toml"\n'))
    with pytest.raises(JobError, match='nearest known one is "include"'):
        read_job(write(tmp_path, 'includ = "my-shop.toml"\n' + JOB))


def test_a_shop_on_the_command_line_stands_in_place_of_the_included_one(tmp_path: Path) -> None:
    path = write(tmp_path, 'include = "none.toml"\n' + JOB)
    other = write(tmp_path, '[saw]\nkerf = "2 mm"\n', "other.toml")
    assert read_whole(path, other).job.saw.kerf.text == "2 mm"


def test_the_schema_knows_it() -> None:
    assert job_schema()["properties"]["include"]["type"] == "string"
    assert "include" not in Job.model_fields
    assert set(TABLES) < set(Job.model_fields)


LENGTHS = {
    f"{table}.{key}": field
    for table in TABLES
    for key, field in Job.model_fields[table].annotation.model_fields.items()  # type: ignore[union-attr]
    if isinstance(field.json_schema_extra, dict) and "inch" in field.json_schema_extra
    if isinstance(field.json_schema_extra["inch"], str)
    if field.json_schema_extra["inch"] not in ("A4", "Letter")
}


@given(st.sets(st.sampled_from(sorted(LENGTHS))), st.sets(st.sampled_from(sorted(LENGTHS))))
def test_every_length_comes_from_the_job_else_from_the_shop_else_from_the_defaults(
    mine: set[str], shops: set[str]
) -> None:
    from tempfile import TemporaryDirectory

    def tables(keys: set[str], value: str) -> str:
        by_table: dict[str, list[str]] = {}
        for name in sorted(keys):
            table, _, key = name.partition(".")
            by_table.setdefault(table, []).append(f'{key} = "{value}"')
        return "".join(f"[{table}]\n" + "\n".join(lines) + "\n" for table, lines in by_table.items())

    with TemporaryDirectory() as place:
        found = read(Path(place), JOB + tables(mine, "7 mm"), "# mine\n" + tables(shops, "9 mm"))
    usual = job_from_text(JOB)
    for name in LENGTHS:
        table, _, key = name.partition(".")
        here, default = (getattr(getattr(job, table), key) for job in (found.job, usual))
        assert here == (7 if name in mine else 9 if name in shops else default), name
    assert set(found.kept) == mine & shops


# -- on the command line ----------------------------------------------------------------------------------------


def test_check_says_where_the_saw_came_from(tmp_path: Path) -> None:
    write(tmp_path, SHOP, "my-shop.toml")
    write(tmp_path, JOB + '[saw]\nkerf = "3 mm"\n')
    done = run("check", "job.toml", "--shop", "my-shop.toml", cwd=tmp_path)
    said = " ".join(done.stdout.split())
    assert done.returncode == 0, done.stderr
    assert (
        "Shop: machines, saw, clamp, printer from my-shop.toml. The job's own, to other values, stay: saw kerf." in said
    )
    assert "scarfwright make job.toml --shop my-shop.toml" in said
    told: dict[str, Any] = json.loads(run("check", "job.toml", "--shop", "my-shop.toml", "--json", cwd=tmp_path).stdout)
    assert told["shop"] == {"file": "my-shop.toml", "kept": ["saw.kerf"]}
    alone = json.loads(run("check", "job.toml", "--json", cwd=tmp_path).stdout)
    assert "shop" not in alone
    assert alone["saw"] != told["saw"]


def test_a_shop_of_which_nothing_is_used_is_refused(tmp_path: Path) -> None:
    """A job with every key spelled out would keep the other saw, though the command line names one's own."""
    shop = 'shop_has = ["printer"]\n[saw]\nkerf = "2.6 mm"\nblade_diameter = "10 in"\n[clamp]\nopening = "50 mm"\n'
    write(tmp_path, shop, "my-shop.toml")  # blade and clamps are by chance the same
    write(tmp_path, job_to_toml(job_from_text(JOB)))
    done = run("check", "job.toml", "--shop", "my-shop.toml", "--json", cwd=tmp_path)
    assert done.returncode == 2
    assert "found nothing of the saw and clamps in my-shop.toml used" in done.stderr
    assert json.loads(done.stdout)["problems"][0]["key"] == "--shop"


@pytest.mark.parametrize("command", ["check", "make", "plan", "tune", "share"])
def test_every_command_about_a_job_takes_a_shop(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    write(tmp_path, JOB)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "argv", ["scarfwright", command, "job.toml", "--shop", "none.toml"])
    assert main() == 2
    assert capsys.readouterr().err == "scarfwright: none.toml: no such file; expected a shop file\n"
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


def test_what_belongs_to_a_shop() -> None:
    assert KEYS == ("shop_has", "saw", "clamp", "printer", "laser", "router", "files")


def test_a_shop_is_read_alone(tmp_path: Path) -> None:
    shop = read_shop(write(tmp_path, SHOP, "my-shop.toml"))
    assert shop.given() == [
        "shop_has", "saw.kerf", "saw.blade_diameter", "saw.end_of_cut", "clamp.opening", "clamp.force", "printer.bed",
        "printer.gauges",
    ]  # fmt: skip
