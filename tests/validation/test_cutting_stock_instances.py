"""Cutting stock without joints: the least number of stock lengths of four published instances.

Sources: a widely published encyclopaedia case (stock 5600, 13 lengths); V. Chvatal, Linear Programming (1983), ch. 13
(stock 100; data from memory, optimum recomputed); R. Fourer, D. M. Gay, B. W. Kernighan, AMPL, the cut data (stock
110); a published modelling example (stock 6450). A joint is forbidden all along every blank and the kerf is 0.
"""

from __future__ import annotations

import pytest
from scarfwright.models.plan.data import Blank, Board, Request, Rules
from scarfwright.models.plan.planner import plan

from tests.plan_checker import complaints

INSTANCES = [
    (
        5600,
        "1380x22 1520x25 1560x12 1710x14 1820x18 1880x18 1930x20 2000x10 2050x12 2100x14 2140x16 2150x18 2200x20",
        73,
    ),
    (100, "45x97 36x610 31x395 14x211", 453),
    (110, "20x48 45x35 50x24 55x10 75x8", 47),
    (6450, "677x10 756x40 1746x33 1876x10", 18),
]


@pytest.mark.parametrize(("stock", "orders", "least"), INSTANCES)
def test_published_least_number_of_stock_lengths_is_reached_and_proved(stock: int, orders: str, least: int) -> None:
    pairs = [tuple(map(int, order.split("x"))) for order in orders.split()]
    blanks = tuple(Blank(str(length), length, many, keep_clear=((0, length),)) for length, many in pairs)
    request = Request(Rules(1, 1, 0, kerf=0, keep=0), (Board("stock", stock, count=least + 40, price=1),), blanks)
    found = plan(request)
    assert (found.verdict, found.joints, found.boards_used) == ("made", 0, least)
    assert found.price == least
    assert found.wood_proved
    assert found.bound_price == least
    assert complaints(request, found) == []


@pytest.mark.parametrize(("stock", "orders", "least"), INSTANCES[2:])
def test_one_stock_length_fewer_is_never_a_plan(stock: int, orders: str, least: int) -> None:
    pairs = [tuple(map(int, order.split("x"))) for order in orders.split()]
    blanks = tuple(Blank(str(length), length, many, keep_clear=((0, length),)) for length, many in pairs)
    rules = Rules(1, 1, 0, kerf=0, keep=0, effort=0.2)
    found = plan(Request(rules, (Board("stock", stock, count=least - 1),), blanks))
    assert found.verdict != "made"
