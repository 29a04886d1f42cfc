"""Reading and writing job files: one message for whatever is wrong, and the same text back."""

from __future__ import annotations

import os
import re
import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from scarfwright.models.job.file import job_from_text, job_to_toml, read_job
from scarfwright.models.job.paper import A4, LETTER, drawing_size
from scarfwright.models.job.problems import JobError
from scarfwright.models.job.shop import PRINTED
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Length
from scarfwright.models.parts import own_parts

from tests.strategies import jobs

GOOD = """\
title = "Rail of a small dinghy"
[stock]
thickness = "22 mm"
height = "60 mm"
[joint]
ratio = 12
"""
LENGTHS = 'expected a length with a unit such as "22 mm"'


def message(text: str) -> str:
    with pytest.raises(JobError) as caught:
        job_from_text(text, "boat.toml")
    said = str(caught.value)
    assert "\n" not in said
    assert said.isprintable()
    for word in ("Input should", "instance of", "a valid ", "Exceeds", "dict", "Traceback", "pydantic"):
        assert word not in said
    assert len(said) < 400
    return said


def thickness(value: str) -> str:
    return GOOD.replace('"22 mm"', value)


# what is wrong, the text, where the message says it is, what was found, what was expected
BAD: dict[str, tuple[str, str, str, str]] = {
    "no table": ("", "boat.toml: stock:", "is missing", "a table [stock] with at least thickness, height"),
    "no joint": (GOOD[: GOOD.index("[joint]")], "boat.toml: joint:", "is missing", "[joint] with at least ratio"),
    "no height": (GOOD.replace('height = "60 mm"', ""), "[stock] height:", "is missing", 'such as "22 mm"'),
    "no ratio": (GOOD.replace("ratio = 12", ""), "[joint] ratio:", "is missing", 'such as "12:1"'),
    "stock a number": ("stock = 3\n[joint]\nratio = 12\n", "line 1: stock:", "found 3", "expected a table [stock]"),
    "stock a text": ('stock = "oak"\n', "line 1: stock:", 'found "oak"', "expected a table [stock]"),
    "stock twice": ('[[stock]]\nheight = "1 m"\n[joint]\nratio = 9\n', "line 1: stock:", "found [", "[stock], once"),
    "saw a number": ("saw = 5\n" + GOOD, "line 1: saw:", "found 5", "expected a table [saw]"),
    "unknown key": (GOOD + '[sled]\nlenght = "3 m"\n', "line 8: [sled] lenght:", '"lenght"', '"length"'),
    "unknown table": (GOOD + "[slde]\nx = 1\n", "line 7: slde:", 'unknown table "slde"', '"sled"'),
    "unknown top key": ('titel = "x"\n' + GOOD, "line 1: titel:", 'unknown key "titel"', '"title"'),
    "unknown quoted key": (GOOD + '"rat io" = 3\n', "line 7: [joint] rat io:", "unknown key", '"ratio"'),
    "unknown dotted key": (GOOD + "saw.kerf = 3\n", "line 7: [joint] saw:", "unknown key", '"ratio"'),
    "key called auto": (GOOD + "[sled]\nauto = 3\n", "line 8: [sled] auto:", 'unknown key "auto"', "nearest known"),
    "empty key": ('"" = 1\n' + GOOD, 'line 1: "":', "unknown key", "nearest known"),
    "key of two lines": (GOOD + '"a\\nb" = 3\n', "[joint] a\\nb:", "unknown key", "nearest known"),
    "key a table": (GOOD + "[saw.kerf]\nx = 1\n", "line 7: [saw] kerf:", "found {x = 1}", LENGTHS),
    "inline table": (
        'stock = {thickness = 22, heigth = 60}\n[joint]\nratio = 12\n', "line 1: [stock] heigth", "", "height"),
    "list": (thickness('["22 mm"]'), "line 3: [stock] thickness:", 'found ["22 mm"]', LENGTHS),
    "true": (thickness("true"), "line 3: [stock] thickness:", "found true", LENGTHS),
    "date": (thickness("2020-01-01"), "line 3: [stock] thickness:", "found 2020-01-01", LENGTHS),
    "no unit": (thickness('"22"'), "line 3: [stock] thickness:", 'found "22"', "or a bare number"),
    "no such unit": (thickness('"22 km"'), "line 3: [stock] thickness:", '"km" is no unit', LENGTHS),
    "two units": (thickness('"22 mm 3 in"'), "line 3: [stock] thickness:", "mixes units", LENGTHS),
    "3/0": (thickness('"3/0 in"'), "line 3: [stock] thickness:", 'found "3/0 in"', LENGTHS),
    "infinite": (thickness("inf"), "line 3: [stock] thickness:", "found inf", "a finite number"),
    "nan": (thickness("nan"), "line 3: [stock] thickness:", "found nan", "a finite number"),
    "negative": (thickness("-3"), "line 3: [stock] thickness:", "found -3", "not negative"),
    "negative text": (thickness('"-3 mm"'), "line 3: [stock] thickness:", 'found "-3 mm"', "not negative"),
    "zero": (thickness("0"), "line 3: [stock] thickness:", "found 0 mm", "more than zero"),
    "zero inches": (thickness('"0 in"'), "line 3: [stock] thickness:", "found 0 in", "more than zero"),
    "absurd": (thickness("1e9"), "line 3: [stock] thickness:", "found 1000000000.0", "from a boat shop"),
    "absurdly fine": (thickness("1e-9"), "line 3: [stock] thickness:", "found 1e-09", "expected a length"),
    "quarters": (thickness('"7/4 S2S"'), "line 3: [stock] thickness:", 'found "7/4 S2S"', "4/4 S2S"),
    "sled of no length": (GOOD + "[sled]\nlength = 0\n", "line 8: [sled] length:", "found 0 mm", "more than zero"),
    "sled length": (GOOD + '[sled]\nlength = "autos"\n', "line 8: [sled] length:", 'found "autos"', 'or "auto"'),
    "as made auto": (GOOD + '[sled]\nheel_as_made = "auto"\n', "line 8: [sled] heel_as_made:", 'found "auto"', LENGTHS),
    "plank": (GOOD + '[sled]\nplank = "3x8"\n', "line 8: [sled] plank:", 'found "3x8"', 'such as "2x8"'),
    "plank number": (GOOD + "[sled]\nplank = 3\n", "line 8: [sled] plank:", "found 3", 'such as "2x8"'),
    "plank three": (GOOD + "[sled]\nplank = [1, 2, 3]\n", "line 8: [sled] plank:", "found [1, 2, 3]", "two lengths"),
    "plank zero": (GOOD + "[sled]\nplank = [0, 2]\n", "line 8: [sled] plank:", "found 0 mm", "more than zero"),
    "layers half": (GOOD + "[sled]\nlayers = 1.5\n", "line 8: [sled] layers:", "found 1.5", "a whole number"),
    "layers true": (GOOD + "[sled]\nlayers = true\n", "line 8: [sled] layers:", "found true", "a whole number"),
    "layers text": (GOOD + '[sled]\nlayers = "2"\n', "line 8: [sled] layers:", 'found "2"', "a whole number"),
    "layers none": (GOOD + "[sled]\nlayers = 0\n", "line 8: [sled] layers:", "found 0", "expected 1 or more"),
    "layers many": (GOOD + "[sled]\nlayers = 13\n", "line 8: [sled] layers:", "found 13", "expected 12 or less"),
    "rpm text": (GOOD + '[saw]\nrpm = "fast"\n', "line 8: [saw] rpm:", 'found "fast"', "expected a number"),
    "rpm nan": (GOOD + "[saw]\nrpm = nan\n", "line 8: [saw] rpm:", "found nan", "expected"),
    "rpm huge": (GOOD + "[saw]\nrpm = 1e9\n", "line 8: [saw] rpm:", "found 1000000000.0", "expected 30000 or less"),
    "ratio thousands": (GOOD.replace("12", '"1,200"'), "line 6: [joint] ratio:", "may mean 1200 or 1.200", "expected"),
    "comma": (thickness('"1,500 mm"'), "line 3: [stock] thickness:", "may mean 1500 or 1.500", "without the comma"),
    "shop": ('shop_has = ["mill"]\n' + GOOD, "line 1: shop_has:", 'found "mill"', '"printer", "router" and "laser"'),
    "shop a text": ('shop_has = "printer"\n' + GOOD, "line 1: shop_has:", 'found "printer"', "expected a list"),
    "gauges": (GOOD + '[printer]\ngauges = "some"\n', "line 8: [printer] gauges:", 'found "some"', '"useful", "all"'),
    "gauge": (GOOD + '[printer]\ngauges = ["fork"]\n', "line 8: [printer] gauges:", 'found "fork"', "nearest is"),
    "paper": (GOOD + '[files]\npaper = "A3"\n', "line 8: [files] paper:", 'found "A3"', '"A4", "Letter" or "roll"'),
    "side": (GOOD + '[saw]\nfence_side = "up"\n', "line 8: [saw] fence_side:", 'found "up"', '"right" or "left"'),
    "stations a text": (GOOD + '[sled]\nextra_stations = "1 m"\n', "extra_stations:", 'found "1 m"', "list of lengths"),
    "a station": (GOOD + "[sled]\nextra_stations = [1, 'x']\n", "line 8: [sled] extra_stations[1]:", '"x"', LENGTHS),
    "stations many": (GOOD + f"[sled]\nextra_stations = {[9] * 21}\n", "extra_stations:", "found [", "at most 20"),
    "bed of two": (GOOD + "[printer]\nbed = [1, 2]\n", "line 8: [printer] bed:", "found 2 values", "3 lengths"),
    "bed of four": (GOOD + "[printer]\nbed = [1, 2, 3, 4]\n", "line 8: [printer] bed:", "found [1, 2", "at most 3"),
    "bed a number": (GOOD + "[printer]\nbed = 3\n", "line 8: [printer] bed:", "found 3", "3 lengths such as"),
    "bed of zero": (GOOD + "[printer]\nbed = [1, 2, 0]\n", "line 8: [printer] bed[2]:", "found 0 mm", "more than zero"),
    "units": ('units = "cm"\n' + GOOD, "line 1: units:", 'found "cm"', 'expected "mm" or "in"'),
    "units a number": ("units = 3\n" + GOOD, "line 1: units:", "found 3", 'expected "mm" or "in"'),
    "title a number": (GOOD.replace('"Rail of a small dinghy"', "3"), "line 1: title:", "found 3", "text in quotes"),
    "title long": (GOOD.replace("Rail", "R" * 99), "line 1: title:", 'found "RRR', "at most 80 characters"),
    "ratio zero": (GOOD.replace("12", "0"), "line 6: [joint] ratio:", "found 0", "from 1 to 100"),
    "ratio nan": (GOOD.replace("12", "nan"), "line 6: [joint] ratio:", "found nan", "from 1 to 100"),
    "ratio infinite": (GOOD.replace("12", "inf"), "line 6: [joint] ratio:", "found inf", "from 1 to 100"),
    "ratio true": (GOOD.replace("12", "true"), "line 6: [joint] ratio:", "found true", "from 1 to 100"),
    "ratio huge": (GOOD.replace("12", "9" * 400), "line 6: [joint] ratio:", "found 999", "from 1 to 100"),
    "ratio degrees": (GOOD.replace("12", '"5 degrees"'), "line 6: [joint] ratio:", "5 degrees", "are not a ratio"),
    "ratio word": (GOOD.replace("12", '"steep"'), "line 6: [joint] ratio:", 'found "steep"', "from 1 to 100"),
    "broken header": (GOOD + "[saw\n", "boat.toml, line 7, column 5", "Expected ']'", "expected TOML"),
    "broken value": (GOOD + "x = \n", "boat.toml, line 7, column 5", "Invalid value", "expected TOML"),
    "key twice": (GOOD + "ratio = 12\n", "boat.toml, line 7, column", "Cannot overwrite", "expected TOML"),
    "open quote at the end": (GOOD + 'x = "abc', "line 7, column 9 (end of the file)", "Unterminated", " TOML"),
    "open text at the end": (GOOD + 'x = """abc\n\n', "line 7, column 11 (end of the file)", "Unterminated", ""),
    "half a line at the end": (GOOD + "kerf", "line 7, column 5 (end of the file)", "after a key", "expected TOML"),
    "control character": (GOOD + 'x = "\x1b"\n', "line 7, column 6", "Illegal character", "expected TOML"),
    "too deep": ("a = " + "[" * 3000, "boat.toml:", "nested too deeply", "expected a job file in TOML"),
    "too many digits": (thickness("1" + "0" * 5000), "boat.toml:", "thousands of digits", "a job file in TOML"),
    "too many hex digits": (thickness("0x" + "f" * 5000), "line 3:", "thousands of digits", "from a boat shop"),
    "units of many digits": ("units = 0x" + "f" * 5000, "line 1: units:", "thousands of digits", '"mm" or "in"'),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_what_is_wrong_is_said_in_one_line_with_its_place(name: str) -> None:
    text, where, found, expected = BAD[name]
    said = message(text)
    assert said.startswith("boat.toml")
    assert where in said
    assert found in said
    assert expected in said


def test_a_slip_of_the_key_is_told_before_what_it_left_missing() -> None:
    assert "heigth" in message(GOOD.replace("height", "heigth"))


def test_no_line_is_better_than_a_wrong_one() -> None:
    text = 'title = """\n[stock]\nthickness = 3\n"""\n' + GOOD.split("\n", 1)[1].replace('"22 mm"', '"22"')
    assert ", line" not in message(text)


def test_lines_are_counted_as_editors_count_them() -> None:
    """U+2028 and U+0085 end a line for some readers, not for TOML."""
    assert "line 3" in message(GOOD.replace("small", "sm\u2028\u0085all").replace('"22 mm"', '"22"'))


# -- files ---------------------------------------------------------------------------------------------


def file_message(path: Path) -> str:
    with pytest.raises(JobError) as caught:
        read_job(path)
    said = str(caught.value)
    assert said.startswith(str(path))
    assert "\n" not in said
    return said


def test_no_such_file(tmp_path: Path) -> None:
    said = file_message(tmp_path / "none.toml")
    assert "no such file; expected a job file" in said
    assert f"scarfwright start {tmp_path / 'none.toml'}" in said


def test_a_folder(tmp_path: Path) -> None:
    assert "is a folder; expected a job file" in file_message(tmp_path)


def test_a_file_inside_a_file(tmp_path: Path) -> None:
    (tmp_path / "plain").write_text("x")
    assert "no such file" in file_message(tmp_path / "plain" / "job.toml")


def test_a_name_too_long_for_the_system(tmp_path: Path) -> None:
    assert "can't be read" in file_message(tmp_path / ("x" * 5000))


def test_a_name_of_two_lines_stays_one_message(tmp_path: Path) -> None:
    with pytest.raises(JobError) as caught:
        read_job(tmp_path / "a\nb.toml")
    assert "\n" not in str(caught.value)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no pipes with names")
def test_a_pipe_is_refused_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert "is not an ordinary file" in file_message(tmp_path / "pipe")


@pytest.mark.parametrize("content", [b"", b" \n\n\t "])
def test_empty(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(content)
    assert "the file is empty; expected at least [stock]" in file_message(path)


@pytest.mark.parametrize("content", [bytes(range(256)), b"\x7fELF\x02\x01\x01\x00\xff", b"\x89PNG\r\n\x1a\n\0\0"])
def test_binary(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(content)
    assert "is not UTF-8 text" in file_message(path)


def test_zeros(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(GOOD.encode() + b"\0")
    assert "holds binary data" in file_message(path)


def test_larger_than_any_job(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"#" * 1_000_001)
    assert "larger than 1000000 bytes" in file_message(path)


def test_a_file_with_line_ends_and_mark_of_another_system(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert float(read_job(path).stock.thickness) == 22


# -- defaults and writing --------------------------------------------------------------------------------


def test_inch_jobs_have_defaults_on_a_rule() -> None:
    job = job_from_text('units = "in"\n[stock]\nthickness = "3/4 in"\nheight = 2.5\n[joint]\nratio = 12\n')
    assert job.stock.height.text == "2 1/2 in"
    assert job.saw.kerf.text == "1/8 in"
    assert job.saw.fence_gap.text == "1/64 in"
    assert job.clamp.opening.text == "2 in"
    assert job.sled.round_marks.text == "1/32 in"
    assert [x.text for x in job.router.sheet] == ["96 in", "48 in"]


def test_metric_jobs_have_the_defaults_of_the_design() -> None:
    job = job_from_text(GOOD)
    assert job.sled.length == job.sled.heel_station == job.sled.nose_flat == "auto"
    saw = {"blade_diameter": 254, "kerf": 3.2, "plate": 2.2, "riving_knife": 2.5, "max_depth": 79, "fence_gap": 0.4,
           "blade_above_work": 6, "table_front": 430, "table_back": 380, "fence_front": 450, "fence_height": 65,
           "travel_margin": 50, "side_clearance": 10, "clear_gap": 5}  # fmt: skip
    assert {key: float(getattr(job.saw, key)) for key in saw} == saw
    clamp = {"opening": 50, "throat": 60, "pad_width": 25, "pad_height": 20, "jaw_outer": 12, "jaw_inner": 12}
    assert {key: float(getattr(job.clamp, key)) for key in clamp} == clamp
    sled = {"sheet_thickness": 18, "round_marks": 0.5, "nose_min": 25, "web": 25, "notch_length": 50, "notch_width": 16}
    assert {key: float(getattr(job.sled, key)) for key in sled} == sled
    assert (job.saw.fence_side, job.saw.end_of_cut, job.sled.made_from, job.sled.layers) == (
        "right",
        "hold",
        "plank",
        2,
    )


@pytest.mark.parametrize(
    ("written", "ratio"),
    [
        ("12", 12),
        ('"1 in 12"', 12),
        ('"1:8"', 8),
        ("12.5", 12.5),
        ('"12:1"', 12),
        ('"12 to 1"', 12),
        ('"12"', 12),
        ('"12,5:1"', 12.5),
        ('"1 to 9"', 9),
        ('" 10 : 1 "', 10),
        ('"1:1"', 1),
    ],
)
def test_a_slope_is_written_as_people_say_it(written: str, ratio: float) -> None:
    assert job_from_text(GOOD.replace("12", written)).joint.ratio == ratio


def test_awkward_titles_survive() -> None:
    title = 'quote " slash \\ tab \t bell \a del \x7f line \n é ″'
    job = job_from_text(GOOD)
    again = job_from_text(job_to_toml(job.model_copy(update={"title": title})))
    assert again.title == title


WRITTEN = re.compile(r"\d+(\.\d+)? mm|(\d+ )?\d+/\d+ in|\d+ in")


@settings(derandomize=True, max_examples=100, deadline=None)
@given(jobs())
def test_a_job_written_out_reads_back_the_same(job: Job) -> None:
    text = job_to_toml(job)
    again = job_from_text(text)
    assert again == job
    assert job_to_toml(again) == text


@settings(derandomize=True, max_examples=50, deadline=None)
@given(jobs())
def test_lengths_are_written_only_as_mm_or_as_inch_fractions(job: Job) -> None:
    written = tomllib.loads(job_to_toml(job))
    seen = 0
    for table, keys in written.items():
        for key, value in keys.items() if isinstance(keys, dict) else []:
            held = getattr(getattr(job, table), key)
            pairs = zip(held, value, strict=True) if isinstance(value, list) else [(held, value)]
            for length, text in pairs:
                if isinstance(length, Length):
                    assert WRITTEN.fullmatch(text), (key, text)
                    seen += 1
    assert seen > 40


def test_auto_stays_auto() -> None:
    assert 'heel_station = "auto"' in job_to_toml(job_from_text(GOOD))


# -- all that is wrong, as data ----------------------------------------------------------------------------


def test_all_problems_are_found_at_once() -> None:
    wrong = GOOD.replace('"22 mm"', '"22"').replace("ratio = 12", "ratio = 0") + "[saw]\nkerf = 0\nteeth = 1\n"
    with pytest.raises(JobError) as caught:
        job_from_text(wrong, "boat.toml")
    found = {(p.line, p.key): (p.found, p.expected) for p in caught.value.problems}
    assert set(found) == {(3, "[stock] thickness"), (6, "[joint] ratio"), (8, "[saw] kerf"), (9, "[saw] teeth")}
    assert found[8, "[saw] kerf"] == ("0 mm", "more than zero")
    assert found[9, "[saw] teeth"] == ("1", "2 or more")
    assert all(p.file == "boat.toml" and p.text.startswith("boat.toml, line") for p in caught.value.problems)


def test_what_a_slip_left_missing_is_not_told_besides() -> None:
    with pytest.raises(JobError) as caught:
        job_from_text(GOOD.replace("height", "heigth").replace("ratio", "ration"), "boat.toml")
    assert [p.key for p in caught.value.problems] == ["[stock] heigth", "[joint] ration"]


# -- the shop ------------------------------------------------------------------------------------------------


def test_a_job_without_a_word_of_the_shop_has_no_machine() -> None:
    assert job_from_text(GOOD).shop_has == ()


def test_machines_are_kept_in_one_order_once() -> None:
    job = job_from_text('shop_has = ["laser", "printer", "laser"]\n' + GOOD)
    assert job.shop_has == ("printer", "laser")
    assert 'shop_has = ["printer", "laser"]' in job_to_toml(job)


def test_the_names_a_list_of_gauges_may_hold_are_the_printed_parts() -> None:
    assert set(PRINTED) == {kind.name for kind in own_parts().values() if "print" in kind.goes_to}


@pytest.mark.parametrize(
    ("units", "written", "paper"),
    [("mm", "", "A4"), ("in", "", "Letter"), ("in", 'paper = "a4"', "A4"), ("mm", 'paper = "LETTER"', "Letter")],
)
def test_paper_is_the_units_own_unless_told(units: str, written: str, paper: str) -> None:
    job = job_from_text(f'units = "{units}"\n{GOOD}[files]\n{written}\n')
    assert job.files.paper == paper
    assert drawing_size(job.files) == (LETTER if paper == "Letter" else A4)
    bare = job_from_text(f'units = "{units}"\n{GOOD}')
    assert bare.files.paper == ("Letter" if units == "in" else "A4")


def test_the_old_key_for_both_jaws_is_still_read() -> None:
    """[clamp] jaw of older jobs stands for both; a newer key beside it comes first; the job is written with the new."""
    both = job_from_text(GOOD + "[clamp]\njaw = 9\n").clamp
    assert [float(both.jaw_outer), float(both.jaw_inner)] == [9, 9]
    inch = job_from_text('units = "in"\n' + GOOD + '[clamp]\njaw = "3/4 in"\njaw_inner = "1/4 in"\n')
    assert (inch.clamp.jaw_outer, inch.clamp.jaw_inner) == pytest.approx((19.05, 6.35))
    assert "\njaw = " not in job_to_toml(inch)
    with pytest.raises(JobError, match="jaw"):
        job_from_text(GOOD + '[clamp]\njaw = "wide"\n')
