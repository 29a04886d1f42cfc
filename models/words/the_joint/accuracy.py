"""What is said about errors to be expected."""

from __future__ import annotations

import math

from scarfwright.models.accuracy.effects import edge_gap, twist
from scarfwright.models.accuracy.outlook import Outlook
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.length import Unit, show
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence

SOURCES = {
    "tilt": "how square the blade is to the table",
    "edge_lean": "how square the sled's work edge is to the table",
    "seat": "how tight the boards lie on the work edge",
    "edge_bow": "how straight the work edge is",
    "board_bow": "how straight the boards are",
    "slide": "how well the boards are held to their overlap marks",
}
NOBODY = 1e-9  # a share that small is none


def hundred(share: float) -> str:
    """A share as so many of 100: never all, never none unless it is so (to one in a thousand million)."""
    count = round(100 * share)
    if share < 1 - NOBODY:
        count = min(count, 99)
    if share > NOBODY:
        count = max(count, 1)
    return f"{count} of 100"


def expected_inside(ahead: Outlook) -> str:
    """The line `check` has about it."""
    return f"about {hundred(ahead.budget.inside)}, if blade and sled are squared until no light shows"


def outlook_lines(ahead: Outlook, joint: Joint, units: Unit) -> list[tuple[str, str]]:
    """What a careful set-up leads to: label and text. Angles and steps are one standard deviation."""
    found, limits = ahead.budget, ahead.limits
    degree = math.radians(1.0)

    def fine(mm: float) -> str:
        return show(mm, units, places=2, sixtyfourths=False)

    over = "" if limits.twist is None else f", twist at most {math.degrees(limits.twist):g} degrees"
    lines = [
        ("inside the limits", f"{expected_inside(ahead)} (gap at most {fine(limits.gap)}{over})"),
        (
            "1 degree of lean",
            f"opens the glue line {fine(edge_gap(degree, joint.height))} held flat, or twists the pair "
            f"{math.degrees(twist(degree, joint.angle)):.2f} degrees closed tight; "
            f"{math.degrees(ahead.lean_allowed):.3f} degrees are allowed",
        ),
    ]
    ranked = sorted(found.sources, key=lambda one: -one.share)
    lines.append(("what opens it", "; ".join(f"{100 * one.share:.0f} % {SOURCES[one.name]}" for one in ranked)))
    best = next((one for one in found.sources if one.name == found.improve_first), None)
    if best is not None:
        gained = f"half the error there gives {hundred(best.inside_if_halved)}"
        lines.append(("improve first", f"{SOURCES[best.name]}: {gained}"))
    lines.append(
        (
            "besides",
            f"faces out of flush {fine(found.step)}, kink {math.degrees(found.kink):.3f} degrees, thickness "
            f"{fine(found.thickness)}, stiffness {100 * found.stiffness:.1f} % (one standard deviation; spreads of the "
            "set-up are common practice, no source)",
        )
    )
    return lines


def _few_inside(
    say: Say,
    *,
    inside_percent: float,
    gap_limit_mm: float,
    twist_limit_deg: float | None,
    lean_allowed_deg: float,
    improve_first: str,
    inside_if_halved_percent: float,
) -> str:
    limit = f"the gap limit of {show(gap_limit_mm, say.units, places=2, sixtyfourths=False)}"
    if twist_limit_deg is not None:
        limit += f" and the twist limit of {twist_limit_deg:g} degrees"
    return (
        f"Blade and sled squared until no light shows, about {hundred(inside_percent / 100)} joints come out inside "
        f"{limit}: the cut may lean by {lean_allowed_deg:.3f} degrees (spreads of the set-up are common practice, no "
        "source). Before the real cut, cut a test joint, measure it on the sheet test-joint and run tune. Otherwise "
        f"most is gained by {SOURCES[improve_first]}: half the error there gives "
        f"{hundred(inside_if_halved_percent / 100)}."
    )


SENTENCES: dict[str, Sentence] = {"accuracy.few_inside": _few_inside}
