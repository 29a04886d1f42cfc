"""The table of woods against figures that the sources print in another unit or another place.

Wood Handbook (FPL-GTR-190) inch table; quoted single figures; a public database as a range (Port-Orford-cedar). Metric
and inch editions are each rounded: within 1 %. Scatter: ASTM D2555, read for baldcypress, eastern hemlock and lodgepole
pine, surveyed species 13 to 16 % in rupture.
"""

from __future__ import annotations

import pytest
from scarfwright.models.quantities.quantity import PSI
from scarfwright.models.strength.wood import SCATTER_MODULUS, SCATTER_RUPTURE, find_species, species


def test_quoted_inch_figures() -> None:
    pine, sitka = find_species("eastern white pine"), find_species("Sitka spruce")
    assert pine is not None
    assert sitka is not None
    assert pine.modulus == pytest.approx(1.24e6 * PSI, rel=0.01)
    assert sitka.compression == pytest.approx(5610 * PSI, rel=0.01)


def test_port_orford_cedar_lies_near_the_database() -> None:
    cedar = find_species("Port Orford cedar")
    assert cedar is not None
    assert (cedar.rupture, cedar.modulus, cedar.compression) == pytest.approx((84.8, 11350, 41.9), rel=0.05)


def test_every_wood_is_wood() -> None:
    """Clear wood: modulus 80 to 180 times the rupture, compression along the grain 40 to 75 % of the rupture."""
    found = species()
    assert len(found) == 29
    assert len({wood.name for wood in found}) == 29
    for wood in found:
        assert 80 < wood.modulus / wood.rupture < 180, wood.name
        assert wood.compression is None or 0.40 < wood.compression / wood.rupture < 0.75, wood.name
        assert wood.source
        assert wood.status


def test_scatter() -> None:
    assert (SCATTER_RUPTURE, SCATTER_MODULUS) == (0.16, 0.22)
