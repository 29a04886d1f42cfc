"""EN 1870-19:2013: a push stick 400 mm or longer comes with every bench. Followed by EN ISO 19085-9 (2019, 2024), of
which only the scope was read."""

from __future__ import annotations

from scarfwright.models.lengths.length import parse_length
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw.at_every_cut import at_every_cut, push_stick

from tests.cut_jobs import worked


def test_push_stick_of_400_mm_or_more() -> None:
    assert parse_length(push_stick("mm")) >= 400
    assert parse_length(push_stick("in")) >= 400


def test_what_holds_at_every_cut_is_said_for_any_sheet() -> None:
    """Guard, riving knife, dust and "wait until it has stopped", for the sled's own cuts too."""
    told = at_every_cut(worked().cut.knife, say_in("mm"))
    for words, text in zip(("crown guard", "Riving knife: Keep it fitted", "dust mask", "STOPPED"), told, strict=True):
        assert words in text
        assert text.endswith(".")
