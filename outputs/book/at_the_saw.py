"""Chapters of the saw: setting it, the cut, the test joint."""

from __future__ import annotations

from scarfwright.models.lengths.say import say_in
from scarfwright.models.planning.planned import Planned
from scarfwright.models.words.at_the_saw import endings, feed
from scarfwright.models.words.at_the_saw.procedure import FIRST, before_the_cut, order_of_work
from scarfwright.models.words.the_book.leads import TEST_FIRST
from scarfwright.models.words.the_book.of_the_saw import setting_figures, travel_figures
from scarfwright.models.words.the_joint.accuracy import expected_inside
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.blocks import (
    Block,
    Cautions,
    Drawings,
    Facts,
    Hole,
    Points,
    Step,
    Steps,
    Table,
    Text,
    steps,
)
from scarfwright.outputs.narrow.at_the_saw import setup_scenes
from scarfwright.outputs.narrow.endings import ending_scenes
from scarfwright.outputs.test_joint_sheet.texts import HAND, ORDER
from scarfwright.outputs.test_joint_sheet.texts import figures as to_measure


def saw(work: Workup, _planned: Planned | None) -> list[Block]:
    """What to set, and the walk round the saw before the cut."""
    checks = tuple(Step(check.text, check.what) for check in before_the_cut(work))
    return [
        Text(FIRST, strong=True),
        Facts("To set", setting_figures(work)),
        Drawings(tuple(setup_scenes(work)), "paper/setup-card.pdf"),
        Steps("walk", "The walk round the saw", checks, numbered=False),
    ]


def cut(work: Workup, _planned: Planned | None) -> list[Block]:
    """The travels, the order of work, the ways to end it."""
    say, advice = say_in(work.job.units), work.cut.advice
    told = [endings.start(advice.start, say), endings.offcut(advice.offcut, say), endings.go_on(advice, say)]
    told += [endings.limit(advice, say), feed.feed(work.cut.feed, say)]
    rows = tuple(
        (
            endings.NAMES[one.name] + (" (as the job says)" if one.asked else ""),
            endings.HOW[one.name],
            endings.why(one, say),
            _risk(one.name),
        )
        for one in advice.endings
    )
    return [
        Cautions((_risk(work.job.saw.end_of_cut),), "At the end of this cut"),
        Hole("moving_cut", "The cut, moment by moment"),
        Facts("The heel's travel past the blade's centre", travel_figures(work)),
        Drawings(tuple(ending_scenes(work))),
        Points("What happens", tuple(told)),
        steps("order", "Order of work", order_of_work(work)),
        Points("Feed and burning", tuple(feed.advice(work.cut.feed, say))),
        Table("Ways to end the cut", ("Way", "How", "Here", "Risk"), rows),
    ]


def testing(work: Workup, _planned: Planned | None) -> list[Block]:
    """The first joint, in scrap: what to measure, and what it says."""
    say = say_in(work.job.units)
    found: list[Block] = [Text(TEST_FIRST, strong=True)]
    if work.outlook is not None:
        found.append(Text(f"Expected inside the limits: {expected_inside(work.outlook)}."))
    rows = tuple(
        (f"{one.letter}  {one.name}", one.how, one.planned, "each board" if one.each else "the pair")
        for one in to_measure(work.joint, say)
    )
    return [
        *found,
        Text(ORDER),
        Hole("tune", "What your test joint says"),
        Table("What to measure", ("What", "How", "Planned", "On"), rows),
        Text(HAND),
        Drawings((), "paper/test-joint.pdf"),
    ]


def _risk(ending: str) -> str:
    """What can go wrong, without the word that heads it on other sheets."""
    told = endings.RISKS[ending].removeprefix("Risk: ")
    return told[0].upper() + told[1:]
