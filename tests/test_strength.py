"""Kinds of wood by name, and the bend test of a sample joint."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.strength.bend_test import (
    GRAVITY,
    LEAST_WIDTH,
    SCALE_CARRIES,
    Beam,
    bend_test,
    kilograms,
    pounds,
)
from scarfwright.models.strength.wood import Wood, find_species, nearest_species, species, wood_of

ASH = Wood("ash", rupture=103.0, modulus=12000.0)


@pytest.mark.parametrize("name", ["Sitka spruce", "SITKA-SPRUCE", "spruce, Sitka", " sitka  spruce "])
def test_spelling_does_not_count(name: str) -> None:
    wood = find_species(name)
    assert wood is not None
    assert wood.name == "Sitka spruce"


@pytest.mark.parametrize(
    ("name", "first"),
    [("sitka", "Sitka spruce"), ("whte ash", "white ash"), ("larch", "western larch"), ("teek", "teak")],
)
def test_nearest_names(name: str, first: str) -> None:
    assert find_species(name) is None
    assert nearest_species(name)[0] == first


def test_no_wood_is_near_a_word_that_is_none() -> None:
    assert nearest_species("xylophone") == []


def test_every_name_and_second_name_is_found() -> None:
    for wood in species():
        assert [find_species(name) for name in (wood.name, *wood.also)] == [wood] * (1 + len(wood.also))


def test_own_values_go_first() -> None:
    own = wood_of("white ash", modulus=10000.0)
    assert own is not None
    assert (own.modulus, own.rupture, own.kind) == (10000.0, 103.0, "hardwood")
    assert "your own values" in own.source
    bare = wood_of("beech", 14000.0, 120.0)
    assert bare is not None
    assert (bare.name, bare.modulus, bare.rupture, bare.kind) == ("beech", 14000.0, 120.0, None)
    assert wood_of("beech", 14000.0, None) is None
    assert wood_of("", None, None) is None


def test_sample_by_hand() -> None:
    """60 x 10 over 650: 2 x 60 x 100 x 92.7 / (3 x 650) = 570.5 N; a scale under one support shows 29.1 kg."""
    test = bend_test(ASH, 0.9, 300.0, 60.0, 10.0, "mm")
    assert test is not None
    assert test.beam == Beam(650.0, 60.0, 10.0)  # 2 (300 + 20) = 640, to the next 50
    assert test.breaks.mean == pytest.approx(570.46, abs=0.01)
    assert test.scale_reads.mean == pytest.approx(29.086, abs=0.001)
    assert test.proof == pytest.approx(0.68 * 570.46, abs=0.01)
    assert test.sag.mean == pytest.approx(0.68 * 570.46 * 650**3 / (48 * 12000 * 5000), rel=1e-4)
    assert test.sag.low < test.sag.mean < test.sag.high
    assert not test.ripped


def test_too_strong_for_a_scale_is_ripped() -> None:
    test = bend_test(ASH, 0.9, 240.0, 60.0, 20.0, "mm")
    assert test is not None
    assert test.ripped
    assert test.beam.width == 40.0
    assert 0.85 * SCALE_CARRIES < test.scale_reads.high <= SCALE_CARRIES


def test_a_beam_of_a_stick_is_left_to_others() -> None:
    assert bend_test(Wood("iron", 400.0, 20000.0), 0.9, 200.0, 100.0, 90.0, "mm") is None


def test_kilograms_and_pounds() -> None:
    assert kilograms(GRAVITY * 70) == pytest.approx(70)
    assert pounds(70) == pytest.approx(154.32, abs=0.01)  # 1 lb = 0.45359237 kg, exact


@given(
    depth=st.floats(5, 80),
    run=st.floats(25, 1200),
    width=st.floats(10, 200),
    share=st.floats(0.65, 0.9),
    units=st.sampled_from(["mm", "in"]),
)
def test_any_sample(depth: float, run: float, width: float, share: float, units: str) -> None:
    """The joint lies between load and support, and the scale carries it."""
    test = bend_test(ASH, share, run, width, depth, units)  # type: ignore[arg-type]
    if test is None:
        narrow = Beam(2 * (run + 2 * depth), LEAST_WIDTH, depth)
        assert 1.32 * narrow.load(103 * share) / 2 / GRAVITY > 0.6 * SCALE_CARRIES  # steps of span and width
        return
    assert test.reach + 2 * depth <= test.beam.span / 2 + 1e-9
    assert test.beam.span >= 14 * depth - 1e-9
    assert test.scale_reads.high <= SCALE_CARRIES + 1e-6
    assert LEAST_WIDTH <= test.beam.width <= width + 1e-9
    assert test.length > test.beam.span
