"""Glue spread: 1 lb per 1000 ft2 = 4.88243 g/m2 (computed); 50 to 70 lb -> 244.1 to 341.8, the resorcinol row
(an aircraft kit's manual, quoted). AC 43.13-1B: softwoods 125-150 psi (862-1034 kPa), hardwoods 150-200."""

from __future__ import annotations

import pytest
from scarfwright.models.adhesives.kinds import find_kind
from scarfwright.models.quantities.quantity import FORCE, PRESSURE, SPREAD, STRESS, TIME, parse_quantity


def test_pounds_per_thousand_square_feet() -> None:
    assert parse_quantity("1 lb/1000 ft2", SPREAD) == pytest.approx(4.88243, abs=5e-6)
    assert parse_quantity("50 lb/1000 ft2", SPREAD) == pytest.approx(244.1, abs=0.05)
    assert parse_quantity("70 lb/1000 ft2", SPREAD) == pytest.approx(341.8, abs=0.05)


def test_resorcinol() -> None:
    kind = find_kind("Resorcinol")
    assert kind is not None
    assert kind.spread == pytest.approx((244.1, 341.8), abs=0.3)
    for wood, psi in (("softwood", (125, 150)), ("hardwood", (150, 200))):
        told = tuple(parse_quantity(f"{p} psi", PRESSURE) for p in psi)
        assert kind.pressure(wood) == pytest.approx(told, rel=0.001)
    assert kind.pressure(None) == (kind.softwood[0], kind.hardwood[1])


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("180 lb", FORCE, 800.679871),
        ("50 kg", FORCE, 490.3325),
        ("1.5 Mpsi", STRESS, 10342.1359),
        ("12 GPa", STRESS, 12000.0),
        ("24 h", TIME, 1440.0),
        (250, SPREAD, 250.0),
        ("0.7", PRESSURE, 0.7),
    ],
)
def test_units(text: object, kind: object, value: float) -> None:
    """1 psi = 6.894757 kPa, 1 lbf = 4.448222 N, exact definitions behind both."""
    assert parse_quantity(text, kind) == pytest.approx(value, rel=1e-6)  # type: ignore[arg-type]
