"""[[blank]] and the keys for wood and glue: read, written back, refused with one clear message."""

from __future__ import annotations

import json
import pickle
import subprocess
import sys
from pathlib import Path

import pytest
from scarfwright.models.job.file import job_from_text, job_to_toml
from scarfwright.models.job.forms.schema import job_schema
from scarfwright.models.job.forms.start_text import Start, starting_text
from scarfwright.models.job.problems import JobError
from scarfwright.models.solve import work_up

JOB = """\
[stock]
species = "white ash"
thickness = "22 mm"
height = "60 mm"
modulus = "11.5 GPa"
[joint]
ratio = 12
[clamp]
force = "180 lb"
count = 14
[adhesive]
kind = "white glue"
spread = "60 lb/1000 ft2"
open_time = "10 min"
clamp_time = "24 h"
[limits]
bend_factor = 2.5
[[blank]]
name = "gunwale"
length = "4 m"
curve = [[0, 0], ["1 m", "-5 cm"], [2000, -80.5], [3000, -90], ["4 m", -85]]
[[blank]]
curve = [[0, 0], [500, 12], [900, 20], [1500, 21]]
bend = "height"
"""


def test_read_and_written_back() -> None:
    job = job_from_text(JOB)
    assert job.stock.modulus == pytest.approx(11500)
    assert job.clamp.force == pytest.approx(800.68, abs=0.01)
    assert job.adhesive.kind == "PVA"
    assert job.adhesive.spread == pytest.approx(292.95, abs=0.01)
    assert job.adhesive.clamp_time == pytest.approx(1440)
    one, other = job.blank
    points = one.curve or []
    assert [tuple(map(float, point)) for point in points[:3]] == [(0, 0), (1000, -50), (2000, -80.5)]
    assert one.length == pytest.approx(4000)
    assert other.length is None
    assert other.bend == "height"
    text = job_to_toml(job)
    again = job_from_text(text)
    assert job_to_toml(again) == text
    assert again == job
    assert pickle.loads(pickle.dumps(job)) == job


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('kind = "white glue"', 'kind = "hide"', '[adhesive] kind: found "hide", expected "resorcinol" or'),
        ('kind = "white glue"', 'kind = "epoxi"', 'expected "epoxy"; of another kind'),
        ('spread = "60 lb/1000 ft2"', 'spread = "60 lb"', "such as \"250 g/m2\""),
        ('open_time = "10 min"', "open_time = 0", "line 14: [adhesive] open_time: found 0, expected a time"),
        ("count = 14", "count = 0", "[clamp] count: found 0, expected 1 or more"),
        ("bend_factor = 2.5", "bend_factor = 0.5", "[limits] bend_factor: found 0.5, expected 1 or more"),
        ('["1 m", "-5 cm"]', '["1 m", "-5 cubits"]', "line 21: [[blank]] number 1 curve: pair 2: found"),
        ("[500, 12]", "[1000, 12]", "[[blank]] number 2 curve: pair 3: found station 900 mm, expected one beyond"),
        ("[500, 12], [900, 20], ", "", "[[blank]] number 2 curve: found 2 offsets, expected at least 4"),
        ("[500, 12]", "[500]", "number 2 curve: pair 2: found [500], expected a station and an offset"),
        ("[[0, 0], [500, 12], [900, 20], [1500, 21]]", '"a bow"', "expected [station, offset] pairs such as"),
        ('bend = "height"', 'bend = "width"', '24: [[blank]] number 2 bend: found "width", expected "thickness" or'),
        ('bend = "height"', 'bended = "height"', '24: [[blank]] number 2 bended: unknown key "bended"; the nearest'),
        ('name = "gunwale"', "name = 3", "line 19: [[blank]] number 1 name: found 3, expected text in quotes"),
        ('modulus = "11.5 GPa"', "modulus = true", "[stock] modulus: found true, expected a stress"),
    ],
)  # fmt: skip
def test_refused(old: str, new: str, said: str) -> None:
    assert old in JOB
    with pytest.raises(JobError) as caught:
        job_from_text(JOB.replace(old, new))
    assert said in str(caught.value)


def test_one_table_where_a_list_is_expected() -> None:
    text = JOB[: JOB.index("[[blank]]")] + '[blank]\nname = "gunwale"\n'
    with pytest.raises(JobError, match=r"blank.*list of tables \[\[blank\]\]"):
        job_from_text(text)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_start_shows_a_blank_that_works(units: str) -> None:
    """With the marks taken off their lines, the lists of tables at its end are read."""
    text = starting_text(Start(units))  # type: ignore[arg-type]
    at = text.index("# [[board]]")
    shown = "\n".join(line.removeprefix("# ") for line in text[at:].split("\n"))
    assert len(job_from_text(text).blank) == 0
    job = job_from_text(text[:at] + shown)
    assert (len(job.board), len(job.blank), len(job.buy)) == (1, 1, 1)
    assert len(job.blank[0].curve or []) == 4
    assert work_up(job).craft is not None
    assert not [f for f in work_up(job).findings if f.code.startswith("bending")]


def test_the_schema_knows_lists_and_quantities() -> None:
    schema = job_schema()
    assert schema["properties"]["blank"]["type"] == "array"
    assert "clamp_time" in schema["$defs"]["Adhesive"]["properties"]
    json.dumps(schema)


CHECKED = """
import sys
from pathlib import Path
from scarfwright.cli.showing.checking import Tables, check_job
check_job(Path(sys.argv[1]), Tables(), json=True)
print([m for m in ("scipy", "numpy", "cadquery", "reportlab") if m in sys.modules], file=sys.stderr)
"""


@pytest.mark.parametrize(("curve", "loaded"), [(False, "[]"), (True, "['scipy', 'numpy']")])
def test_scipy_is_loaded_only_for_a_curve(tmp_path: Path, curve: bool, loaded: str) -> None:
    file = tmp_path / "job.toml"
    file.write_text(JOB if curve else JOB[: JOB.index("[[blank]]")])
    done = subprocess.run([sys.executable, "-c", CHECKED, str(file)], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == loaded
    told = json.loads(done.stdout)
    assert len(told["bending"]) == (2 if curve else 0)
    assert told["strength"]["wood"]["modulus_mpa"] == 11500
