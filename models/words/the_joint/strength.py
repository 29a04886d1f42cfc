"""Strength in words: what the slope keeps, what a flatter one costs, the bend test of a sample."""

from __future__ import annotations

from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import Say
from scarfwright.models.strength.bend_test import BendTest
from scarfwright.models.strength.slope import row_behind, slope_rows, strength_share
from scarfwright.models.strength.strength import Strength
from scarfwright.models.strength.wood import Wood
from scarfwright.models.words.sentence import Sentence
from scarfwright.models.words.the_joint.figures import Figures, percent, slope_text

NOT_DESIGN = (
    "Averages of clear wood, not design values. Class rules, the designer and licensed practice decide what a member "
    "may carry."
)
LEAST_GAIN = 0.005  # a step that adds less is not worth a sentence


def keeps(ratio: float) -> str:
    """What a slope keeps and where that figure comes from, in a clause. Raises TooSteepError."""
    row, rows = row_behind(ratio), slope_rows()
    beyond = "; nothing published shows more for a flatter one" if ratio > rows[-1].ratio else ""
    unsure = f", {row.status}" if row.status.startswith("from memory") else ""
    return (
        f"{percent(strength_share(ratio))} of the strength of clear wood ({row.source.split(' (')[0]}{unsure}{beyond})"
    )


def step_words(found: Strength, units: Unit) -> list[str]:
    """One line for each flatter slope that keeps noticeably more: what it keeps, and the length it costs."""
    if found.share is None:
        return []
    say, least = drawn_in(units), found.share + LEAST_GAIN
    return [
        f"{slope_text(step.ratio)} keeps {percent(step.share)}; each joint is {say(step.extra)} longer"
        for step in found.steps
        if step.share > least
    ]


def sample_rows(test: BendTest, wood: Wood, units: Unit) -> list[tuple[str, str]]:
    """The bend test: label and figure."""
    say, fig, beam = drawn_in(units), Figures(units), test.beam
    ripped = f", ripped to {say(beam.width)} wide so that a bathroom scale can read it" if test.ripped else ""
    scale = test.scale_reads
    return [
        ("Sample", f"{wood.name}, {say(beam.depth)} thick, {say(beam.width)} wide, {say.up(test.length)} long{ripped}"),
        ("Span", f"{say(beam.span)} between the supports, the load in the middle"),
        ("Joint", f"the tip on the lower face under the load; the joint runs from there {say(test.reach)} to one side"),
        ("Proof", f"scale {fig.weight(test.proof_reads)}: nearly every well made joint holds it"),
        ("Sag then", f"{say(test.sag.mean)}; with the scatter of wood {say(test.sag.low)} to {say(test.sag.high)}"),
        (
            "Breaks at",
            f"scale {fig.weight(scale.mean)} on average, {fig.weight(scale.low)} to {fig.weight(scale.high)}",
        ),
    ]


def sample_steps(test: BendTest, units: Unit) -> list[str]:
    """How to do the test with a bathroom scale."""
    fig = Figures(units)
    return [
        "Glue the sample from the same boards, with the same glue and clamps; plane it as the real one; let it cure "
        "fully.",
        "Rest it on two round bars, one of them on a board on the scale. The scale then reads half of the load. Set "
        "it to "
        "zero with the sample on it.",
        "Pull the middle down with a clamp hooked to the bench, a rag over the joint; never with your own weight.",
        f"Load slowly, a minute or more to {fig.weight(test.proof_reads)}. Wait there a minute, then read the sag.",
        "Go on until it breaks if you like. Wood torn along the break: the glue is as good as the wood. Bare glue: "
        "it is not; "
        "change glue, pressure or fit and test again.",
    ]


TEST_CAUTION = (
    "A stick that breaks flies: stand clear to the side, eyes protected, nobody in line with it, load slowly."
)


def _wood_unknown(_say: Say, *, name: str, nearest: str, bends: int) -> str:
    what = f'The table has no figures for "{name}"' if name else "The job names no wood"
    need = "so nothing is said of the bend" if bends else "so no bend test is worked out"
    near = f"name one of the table (nearest: {nearest})" if nearest else "name a wood of the table"
    return f"{what}, {need}: {near}, or give [stock] modulus and rupture of your own."


SENTENCES: dict[str, Sentence] = {"wood.unknown": _wood_unknown}
