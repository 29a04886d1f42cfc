"""Lengths as people write them: read exactly, converted once, written back one way."""

from __future__ import annotations

import math
import pickle
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.lengths.length import (
    Length,
    LengthError,
    Unit,
    parse_length,
    round_to,
    round_up,
    rule_step,
    show,
)

INCH = Fraction(254, 10)

# text, exact mm, how it is written back
FORMS: list[tuple[str, Fraction, str]] = [
    ("22 mm", Fraction(22), "22 mm"),
    ("22mm", Fraction(22), "22 mm"),
    ("0.9 m", Fraction(900), "900 mm"),
    (".5 m", Fraction(500), "500 mm"),
    ("22. mm", Fraction(22), "22 mm"),
    ("2.2 cm", Fraction(22), "22 mm"),
    ("1 metre", Fraction(1000), "1000 mm"),
    ("3/4 in", INCH * 3 / 4, "3/4 in"),
    ("3 / 4 in", INCH * 3 / 4, "3/4 in"),
    ("1 1/2 in", INCH * 3 / 2, "1 1/2 in"),
    ("1-1/2 in", INCH * 3 / 2, "1 1/2 in"),
    ("1.5 in", INCH * 3 / 2, "1 1/2 in"),
    ("1½ in", INCH * 3 / 2, "1 1/2 in"),
    ("⅝ in", INCH * 5 / 8, "5/8 in"),
    ('3/4"', INCH * 3 / 4, "3/4 in"),
    ("3/4 inches", INCH * 3 / 4, "3/4 in"),
    ("5 ft 6 1/2 in", INCH * Fraction(133, 2), "66 1/2 in"),
    ("5' 6-1/2\"", INCH * Fraction(133, 2), "66 1/2 in"),
    ("5'6\"", INCH * 66, "66 in"),
    ("5′ 6″", INCH * 66, "66 in"),
    ("5' 6''", INCH * 66, "66 in"),
    ("5 ft", INCH * 60, "60 in"),
    ("1 foot 1 inch", INCH * 13, "13 in"),
    ("5 ft - 6 in", INCH * 66, "66 in"),
    ("1/64 in", INCH / 64, "1/64 in"),
    ("6/4 in", INCH * 3 / 2, "1 1/2 in"),
    ("0 mm", Fraction(0), "0 mm"),
    ("0", Fraction(0), "0 mm"),
    ("0.0", Fraction(0), "0 mm"),
    ("1,5 mm", Fraction(3, 2), "1.5 mm"),
    ("0,400 mm", Fraction(2, 5), "0.4 mm"),
    ("1200,500 mm", Fraction(2401, 2), "1200.5 mm"),
    ("22,25mm", Fraction(89, 4), "22.25 mm"),
    ("0,9 m", Fraction(900), "900 mm"),
    ("1,5 in", INCH * 3 / 2, "1 1/2 in"),
    ("5 ft, 6 in", INCH * 66, "66 in"),
    ("1,2345 m", Fraction(12345, 10), "1234.5 mm"),
    ("0 in", Fraction(0), "0 in"),
]


@pytest.mark.parametrize(("text", "mm", "written"), FORMS)
def test_every_form_is_read_exactly(text: str, mm: Fraction, written: str) -> None:
    length = parse_length(text)
    assert float(length) == mm.numerator / mm.denominator  # the nearest double to the exact value, no sum of roundings
    assert length.text == written
    assert parse_length(written).text == written


@pytest.mark.parametrize(
    ("value", "units", "written"),
    [(22, "mm", "22 mm"), (22.5, "mm", "22.5 mm"), (0.1, "mm", "0.1 mm"), (3, "in", "3 in"), (0.75, "in", "3/4 in")],
)
def test_bare_numbers_are_in_the_jobs_units(value: float, units: Unit, written: str) -> None:
    length = parse_length(value, units)
    assert length.text == written
    assert float(length) == pytest.approx(value * (1 if units == "mm" else 25.4), rel=1e-15)


def test_text_keeps_its_own_unit_in_a_job_of_the_other() -> None:
    assert parse_length("22 mm", "in").text == "22 mm"
    assert parse_length("3/4 in", "mm").text == "3/4 in"


REFUSED: list[tuple[object, str]] = [
    ("22", "unit is missing"),
    ("5 ft 6", "unit is missing"),
    ("1 2 mm", "unit is missing"),
    ("", "expected a length"),
    ("   ", "expected a length"),
    ("mm", "expected a length"),
    ("abc", "expected a length"),
    ("22 km", '"km" is no unit'),
    ("1e9 mm", '"e" is no unit'),
    ("3/0 in", "zero under the line"),
    ("1 1/0 in", "zero under the line"),
    ("3/00 in", "zero under the line"),
    ("1/٠ in", "expected a length"),  # a zero of another alphabet
    ("22 mm 3 in", "mixes units"),
    ("6 in 5 ft", "mixes units"),
    ("1 in 1 in", "mixes units"),
    ("22 mm -", "expected a length"),
    ("22 mm,", "expected a length"),
    ("-3 mm", "not negative"),
    ("- 3 mm", "not negative"),
    (-3, "not negative"),
    (-0.5, "not negative"),
    (math.inf, "finite"),
    (-math.inf, "finite"),
    (math.nan, "finite"),
    ("inf", "expected a length"),
    ("nan mm", "expected a length"),
    (1e9, "over 100 m"),
    ("1000000000 mm", "over 100 m"),
    (10**5000, "over 100 m"),  # more digits than Python prints
    ("101 m", "over 100 m"),
    (1e-300, "under a thousandth"),
    ("0.0001 mm", "under a thousandth"),
    ("1/" + "7" * 5000 + " in", "expected a length"),
    ("." + "1" * 70 + " in", "finer than any rule"),
    (True, "expected a length"),
    (None, "expected a length"),
    ([22], "expected a length"),
    ({"mm": 22}, "expected a length"),
]


@pytest.mark.parametrize(("value", "says"), REFUSED, ids=lambda v: str(v)[:20] if not isinstance(v, int) else "number")
def test_what_is_no_length_is_refused_with_what_was_found(value: object, says: str) -> None:
    with pytest.raises(LengthError) as caught:
        parse_length(value)
    message = str(caught.value)
    assert message.startswith("found ")
    assert says in message
    assert "expected" in message
    assert "digits; use sys" not in message
    assert len(message) < 250


def test_the_largest_and_smallest_lengths_pass() -> None:
    assert float(parse_length("100 m")) == 100_000
    assert parse_length("0.001 mm") == 0.001
    assert float(parse_length(0)) == 0
    assert parse_length(-0.0).text == "0 mm"


def read_or_refusal(value: object, units: Unit = "mm") -> Length | str:
    try:
        return parse_length(value, units)
    except LengthError as error:
        return str(error)


@given(st.text(alphabet="0123456789 ./-'\"inftmc½¼,", max_size=24))
def test_any_text_is_a_length_or_refused_in_one_sentence(text: str) -> None:
    length = read_or_refusal(text)
    if isinstance(length, str):
        assert length.startswith("found ")
    else:
        again = parse_length(length.text)
        assert (float(again), again.text) == (float(length), length.text)


@given(
    whole=st.integers(0, 300),
    steps=st.integers(0, 63),
    feet=st.integers(0, 20),
)
def test_feet_inches_and_64ths_are_exact(whole: int, steps: int, feet: int) -> None:
    length = parse_length(f"{feet} ft {whole} {steps}/64 in")
    exact = (feet * 12 + whole + Fraction(steps, 64)) * INCH
    assert float(length) == exact.numerator / exact.denominator
    assert parse_length(length.text) == length


@given(st.floats(0.001, 1e5), st.sampled_from(["mm", "in"]))
def test_every_number_is_written_back_exactly(value: float, units: Unit) -> None:
    length = read_or_refusal(value, units)
    if isinstance(length, str):
        assert value > 100_000 / 25.4
        assert "100 m" in length
        return
    again = parse_length(length.text)
    assert float(again) == float(length)
    assert again.text == length.text
    assert length.text.endswith(f" {units}")


def test_a_length_is_a_number_and_survives_copying() -> None:
    length = parse_length("1 1/2 in")
    assert length + 1 == pytest.approx(39.1)
    copy = pickle.loads(pickle.dumps(length))
    assert isinstance(copy, Length)
    assert copy.text == "1 1/2 in"


@pytest.mark.parametrize(
    ("mm", "units", "text"),
    [
        (22.0, "mm", "22 mm"),
        (22.04, "mm", "22 mm"),
        (22.06, "mm", "22.1 mm"),
        (-0.01, "mm", "0 mm"),
        (-3.5, "mm", "-3.5 mm"),
        (19.05, "in", "3/4 in"),
        (38.1, "in", "1 1/2 in"),
        (25.4, "in", "1 in"),
        (0.1, "in", "0 in"),
        (-38.1, "in", "-1 1/2 in"),
        (25.4 / 64, "in", "1/64 in"),
    ],
)
def test_lengths_read_like_a_rule(mm: float, units: Unit, text: str) -> None:
    assert show(mm, units) == text


def test_rounding_to_marks() -> None:
    assert round_up(395.43, 0.5) == 395.5
    assert round_up(395.5, 0.5) == 395.5
    assert round_up(395.43, 0) == 395.43
    assert round_to(154.49, 0.5) == 154.5
    assert round_to(154.2, 0.5) == 154.0
    assert round_to(154.49, 0) == 154.49
    assert rule_step("mm") == 0.1
    assert rule_step("in") == 25.4 / 64


@pytest.mark.parametrize("text", ["1,500 mm", "1,500", "12,250 in", "1,000,000 mm"])
def test_a_comma_before_three_digits_is_refused_with_both_readings(text: str) -> None:
    with pytest.raises(LengthError) as caught:
        parse_length(text)
    many, few = {"1,5": ("1500", "1.500"), "12,": ("12250", "12.250"), "1,0": ("1000", "1.000")}[text[:3]]
    assert f"may mean {many} or {few}" in str(caught.value)


def test_nothing_is_nothing_in_the_jobs_unit() -> None:
    assert parse_length("0", "in").text == "0 in"


@pytest.mark.parametrize(
    ("text", "units", "written"),
    [
        ("1 3/32", "in", "1 3/32 in"),
        ("1,5", "mm", "1.5 mm"),
        ("½", "in", "1/2 in"),
        ("3 mm", "in", "3 mm"),
        (" 7. ", "mm", "7 mm"),
    ],
)
def test_beside_its_unit_a_text_needs_none(text: str, units: Unit, written: str) -> None:
    assert parse_length(text, units, bare=True).text == written
    if "mm" not in text:
        with pytest.raises(LengthError, match="unit is missing"):
            parse_length(text, units)


@pytest.mark.parametrize("text", ["5 ft 6", "5 4", "3 1"])
def test_a_figure_after_another_needs_its_unit_all_the_same(text: str) -> None:
    with pytest.raises(LengthError, match="unit is missing"):
        parse_length(text, "in", bare=True)


def test_a_tab_in_a_fraction_is_space() -> None:
    assert parse_length("1\t/2 in").text == "1/2 in"


def test_nothing_has_no_sign() -> None:
    assert show(-0.004, "in", sixtyfourths=False) == "0.000 in"
    assert show(-0.004, "mm", places=2) == "0 mm"
    assert show(-0.254, "in", sixtyfourths=False) == "-0.010 in"
