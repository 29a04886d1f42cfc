"""Every finding: raised on the wrong side of its limit, silent on the good side, with a way out that leads out."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from scarfwright.models.findings import CODES, Finding, Level, finding, worst_first
from scarfwright.models.job.file import job_from_dict, job_from_text
from scarfwright.models.lengths.length import parse_length, rule_step
from scarfwright.models.lengths.say import say_in
from scarfwright.models.remedies.ways import WAYS
from scarfwright.models.solve import advised, work_out

from tests.finding_cases import BASE, CASES, Case, Change
from tests.test_advice import followed


def tables(*changes: Change) -> dict[str, Any]:
    """Plain tables from dotted keys, later changes over earlier ones."""
    out: dict[str, Any] = {}
    for key, value in {k: v for change in changes for k, v in change.items()}.items():
        table, name = key.split(".")
        out.setdefault(table, {})[name] = value
    return out


def raised(raw: dict[str, Any]) -> dict[str, Finding]:
    return {f.code: f for f in advised(job_from_dict(raw)).findings}


def told(case: Case, text: str, pattern: str, key: str) -> Change:
    """The change a user makes who follows the text."""
    match = re.search(pattern, text)
    assert match, f"{pattern} not in: {text}"
    figure = match[1]
    everything = {**BASE, **case.wrong}
    if key == "sled.plank":
        return {key: [everything["sled.plank"][0], f"{figure} mm"]}
    if key == "sled.plank thickness":
        return {"sled.plank": [f"{figure} mm", everything["sled.plank"][1]]}
    if key == "apart":
        first = float(parse_length(everything["sled.heel_station"]))
        return {"sled.extra_stations": [f"{first + float(parse_length(figure))} mm"]}
    return {key: float(figure) if key == "joint.ratio" else figure}


def test_every_code_has_its_case() -> None:
    """A new finding without a case fails here, here or in a test module of its own; so does a case for a code that is
    gone. The findings of cut advice, gauges, templates and machines are raised in theirs."""
    here = {case.code for case in CASES}
    assert here <= set(CODES)
    others = [p.read_text() for p in Path(__file__).parent.rglob("test_*.py")]
    assert not [code for code in set(CODES) - here if not any(f'"{code}"' in text for text in others)]


def test_the_base_job_has_no_finding() -> None:
    """But that a board of the length it takes for granted tips off the table's front without support, and that the
    plank is thinner than the board is high."""
    assert set(raised(tables(BASE))) == {"support.infeed_needed", "backing.partial"}


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.code)
def test_raised_on_the_wrong_side_and_silent_on_the_good_one(case: Case) -> None:
    found = raised(tables(BASE, case.wrong))
    assert case.code in found
    assert case.code not in raised(tables(BASE, case.wrong, case.good))
    one = found[case.code]
    assert one.level is CODES[case.code]
    for key, value in case.numbers.items():
        assert one.numbers[key] == pytest.approx(value, abs=2e-4), key


@pytest.mark.parametrize("case", [c for c in CASES if c.ways], ids=lambda c: c.code)
def test_following_the_text_removes_the_finding(case: Case) -> None:
    text = raised(tables(BASE, case.wrong))[case.code].text
    for pattern, key in case.ways:
        changed = tables(BASE, case.wrong, told(case, text, pattern, key))
        assert case.code not in raised(changed), (pattern, text)


@pytest.mark.parametrize("case", [c for c in CASES if c.code in WAYS], ids=lambda c: c.code)
def test_following_a_remedy_removes_the_finding(case: Case) -> None:
    """On a job whose only fault it is there is always one; each is written into the job and the job read again."""
    one = raised(tables(BASE, case.wrong))[case.code]
    assert one.remedies
    for remedy in one.remedies:
        after = work_out(followed(job_from_dict(tables(BASE, case.wrong)), remedy)).findings
        assert case.code not in {f.code for f in after}, (one.text, remedy)


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.code)
def test_a_text_reads_well_and_its_numbers_carry_units(case: Case) -> None:
    one = raised(tables(BASE, case.wrong))[case.code]
    assert "\n" not in one.text
    assert one.text[0].isupper()
    assert one.text.endswith((".", ")"))
    assert "  " not in one.text
    for word in ("nan", "inf ", "None", "-0 ", "auto mm"):
        assert word not in one.text
    for key, value in one.numbers.items():
        assert (
            isinstance(value, str)  # a word: which clamp, which end
            or key.split("_")[0].startswith("ratio")
            or key in ("least", "most", "screws")
            or key.endswith(("_mm", "_deg", "_percent"))
        ), key


# -- cases that one limit does not show -------------------------------------------------------------------


def text_of(code: str, *changes: Change) -> str:
    return raised(tables(BASE, *changes))[code].text


def test_a_heel_notch_that_grips_too_wide_is_told_a_thinner_web() -> None:
    wrong: Change = {"clamp.opening": "46.9 mm", "sled.nose_flat": 0, "sled.nose_station": "500 mm"}
    text = text_of("clamp.no_grip", wrong)  # web 25 + 22 = 47
    assert "set web to 24.9 mm" in text
    assert "clamp.no_grip" not in raised(tables(BASE, wrong, {"sled.web": "24.9 mm"}))
    assert "set web" not in text_of("clamp.no_grip", {**wrong, "clamp.opening": "30 mm"})  # 8 mm would break


def test_a_nose_notch_is_told_only_where_it_would_grip() -> None:
    assert "in a notch" in text_of("clamp.no_grip", {"clamp.opening": "50 mm"})
    assert "in a notch" not in text_of("clamp.no_grip", {"clamp.opening": "46 mm"})
    both = {"clamp.opening": "50 mm", "sled.nose_flat": 0}
    assert "clamp.no_grip" not in raised(tables(BASE, both))


def test_the_clamp_on_the_flat_is_not_told_to_move() -> None:
    """It slides by its own flat, and only a longer sled takes it further from the heel."""
    wrong: Change = {"sled.length": "380 mm", "saw.fence_front": "20 mm", "sled.plank": ["38 mm", "90 mm"],
                     "sled.heel_station": "300 mm"}  # fmt: skip
    work = advised(job_from_dict(tables(BASE, wrong)))
    flat = next(f for f in work.findings if f.code == "clamp.meets_blade" and f.numbers["where"] == "nose_flat")
    assert flat.remedies
    assert all("sled.length" in dict(remedy) for remedy in flat.remedies)


def test_a_sheet_sled_measured_thin_at_the_nose() -> None:
    """A measured nose may be a millimetre short of the wish; then only the wish can give way, the sled is made."""
    wrong: Change = {"sled.made_from": "sheet", "sled.nose_as_made": "23.9 mm", "sled.length": "900 mm"}
    text = text_of("sled.nose_thin", wrong)
    assert "plank" not in text
    assert "nose_min to 23.9 mm" in text
    assert "sled.nose_thin" not in raised(tables(BASE, wrong, {"sled.nose_min": "23.9 mm"}))
    assert "sled.nose_thin" not in raised(tables(BASE, wrong, {"sled.nose_as_made": "24.1 mm"}))


def test_rounding_the_mark_may_take_from_the_nose_what_the_exact_cut_left() -> None:
    """Exact: M 154.633, nose 25.21. Rounded to 155 the nose is 24.85, though the plank is wider and the sled shorter
    than the exact cut needs: what is told allows for the rounding."""
    wrong: Change = {"sled.length": "1538 mm", "sled.nose_min": "25 mm", "sled.plank": ["38 mm", "181.1 mm"],
                     "sled.round_marks": "1 mm"}  # fmt: skip
    told = [dict(remedy) for remedy in raised(tables(BASE, wrong))["sled.nose_thin"].remedies]
    assert [list(one) for one in told] == [["sled.length"], ["sled.plank"], ["sled.nose_min"]]
    assert float(parse_length(told[0]["sled.length"])) < 1538


def test_a_handle_hole_in_a_notch() -> None:
    wrong: Change = {"sled.handle_station": "1052 mm", "sled.extra_stations": ["1000 mm"], "sled.web": "26 mm"}
    assert "runs into a notch" in text_of("handle.breaks_out", wrong)


def test_work_too_high_for_any_blade_is_not_told_to_be_nothing() -> None:
    text = text_of("blade.too_low", {"saw.max_depth": "5 mm"})
    assert "0 mm or less" not in text
    assert text.endswith("Use a saw whose blade rises 66 mm.")


def test_a_notch_off_the_heel_end_is_not_sent_further_that_way() -> None:
    found = raised(tables(BASE, {"sled.extra_stations": ["26 mm"]}))
    assert "notch.breaks_fence_edge" not in found
    assert "27.8 mm to" in found["notch.off_sled"].text


def test_a_nose_notch_off_the_end_is_told_in_its_own_terms() -> None:
    wrong: Change = {"sled.nose_station": "10 mm", "sled.nose_flat": "5 mm"}
    match = re.search(r"can lie ([\d.]+ mm) to [\d.]+ mm from the nose end", text_of("notch.off_sled", wrong))
    assert match
    assert "notch.off_sled" not in raised(tables(BASE, wrong, {"sled.nose_station": match[1]}))


@pytest.mark.parametrize("length", ["auto", "1500 mm"])
def test_a_nose_notch_nowhere_on_the_sled_is_told_and_what_follows_from_it_is_not(length: str) -> None:
    wrong: Change = {"sled.nose_station": "3000 mm", "sled.nose_flat": 0, "sled.length": length}
    found = raised(tables(BASE, wrong))
    assert [f.code for f in found.values() if f.level is Level.FAULT] == ["notch.off_sled"]
    text = found["notch.off_sled"].text
    assert text.startswith("The nose notch at 3000 mm from the nose end reaches past the end of the sled.")
    assert found["notch.off_sled"].remedies
    for remedy in found["notch.off_sled"].remedies:
        after = raised(tables(BASE, wrong, dict(remedy)))
        assert not [f for f in after.values() if f.level is Level.FAULT]


def test_a_notch_that_is_partly_on_the_sled_keeps_what_is_told_of_its_clamp() -> None:
    found = raised(tables(BASE, {"sled.extra_stations": ["20 mm"]}))
    assert {"notch.off_sled", "clamp.meets_blade"} <= set(found)


def test_slope_in_both_forms() -> None:
    assert "slope of 5:1, 11.31°" in text_of("joint.slope_steep", {"joint.ratio": 5, "sled.length": "600 mm"})
    assert "slope of 25:1, 2.29°" in text_of("joint.slope_flat", {"joint.ratio": 25})


def test_inch_jobs_speak_inches() -> None:
    job = job_from_text(
        'units = "in"\n[stock]\nthickness = "3/4 in"\nheight = "2 1/2 in"\n[joint]\nratio = 12\n'
        "[clamp]\nopening = 1.5\nthroat = 1\n[saw]\nmax_depth = 2\n"
    )
    found = work_out(job).findings
    assert len(found) > 2
    for one in found:
        assert not re.search(r"\d mm", one.text), one.text


# -- the registry ----------------------------------------------------------------------------------------


def test_a_code_that_nobody_entered_is_no_finding() -> None:
    with pytest.raises(KeyError):
        finding("no.such_code", "text")


def test_worst_first_keeps_the_order_within_a_level() -> None:
    note, fault = Finding("a", Level.NOTE, "", {}), Finding("b", Level.FAULT, "", {})
    caution, second = Finding("c", Level.CAUTION, "", {}), Finding("d", Level.FAULT, "", {})
    assert [f.code for f in worst_first([note, fault, caution, second])] == ["b", "d", "c", "a"]


def test_what_is_told_lies_on_the_safe_side() -> None:
    for units in ("mm", "in"):
        say = say_in(units)
        for n in range(200):
            mm = n * 0.37 - 5
            up, down = (float(parse_length(t)) if mm > 1 else mm for t in (say.up(abs(mm)), say.down(abs(mm))))
            if mm > 1:
                assert down - 1e-6 <= mm <= up + 1e-6
                assert up - down <= rule_step(units) + 1e-6
