"""Every sentence of the saw, the cut and the sled whole, from invented figures, and none left out of the tables."""

from __future__ import annotations

from typing import Any

import pytest
from scarfwright.models.lengths.say import Say

from tests import (
    sentences_of_hands_and_notches,
    sentences_of_the_sled,
    test_sentences_of_the_cut,
    test_sentences_of_the_saw,
)

TABLES: Any = (
    sentences_of_hands_and_notches,
    sentences_of_the_sled,
    test_sentences_of_the_cut,
    test_sentences_of_the_saw,
)
FOUND = [(table.SAID, *row) for table in TABLES for row in table.FOUND]


@pytest.mark.parametrize(("told", "code", "say", "numbers", "sentence"), FOUND, ids=[row[1] for row in FOUND])
def test_a_sentence_whole(told: Any, code: str, say: Say, numbers: dict[str, Any], sentence: str) -> None:
    assert told[code](say, **numbers) == sentence


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.__name__.rpartition(".")[2])
def test_every_sentence_is_here(table: Any) -> None:
    assert {code for code, *_ in table.FOUND} == set(table.SAID)
