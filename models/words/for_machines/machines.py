"""What is said about router, laser and paper: what does not fit, what a cutter or a beam can't do."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence

# -- router ----------------------------------------------------------------------------------------------------


def _spacing_small(say: Say, *, spacing_mm: float, cutter_mm: float, needed_mm: float) -> str:
    return (
        f'Set [router] spacing to {say.up(needed_mm)} ("auto"). Pieces {say(spacing_mm)} apart and a cutter of '
        f"{say(cutter_mm)}: cutting one piece would cut into the next."
    )


def _too_large(
    say: Say,
    *,
    part: str,
    title: str,
    grain: str,
    spacing_mm: float,
    needed_length_mm: float,
    needed_width_mm: float,
    sheet_length_mm: float,
    sheet_width_mm: float,
) -> str:
    along = f" with its length along the grain ({grain})" if grain else ""
    return (
        f"{title} ({part}){along} needs a sheet of {say.up(needed_length_mm)} x {say.up(needed_width_mm)}, "
        f"{say(spacing_mm)} round it included; the sheet is {say(sheet_length_mm)} x {say(sheet_width_mm)}."
    )


def _part_too_large(say: Say, **numbers: object) -> str:
    return _too_large(say, **numbers) + " It is left off the sheets. Use a larger sheet ([router] sheet)."  # type: ignore[arg-type]


def _sled_too_large(say: Say, **numbers: object) -> str:
    told = _too_large(say, **numbers)  # type: ignore[arg-type]
    return f"{told} Use a larger sheet ([router] sheet), or a shorter sled ([sled] length), or a plank."


def _too_tight(say: Say, *, part: str, title: str, feature: str, cutter_mm: float, widest_mm: float, **_: float) -> str:
    return (
        f"{title} ({part}), {feature}: a cutter of {say(cutter_mm)} does not get in, only one under "
        f"{say.down(widest_mm)}."
    )


def _part_too_tight(say: Say, **numbers: object) -> str:
    told = _too_tight(say, **numbers)  # type: ignore[arg-type]
    return f"{told} The part is left off the sheets. Use a narrower cutter ([router] cutter)."


def _sled_too_tight(say: Say, *, opening: float, **numbers: object) -> str:
    wider = ", or make the notch wider ([sled] notch_width)" if opening else ""
    return f"{_too_tight(say, **numbers)} Use a narrower cutter ([router] cutter){wider}."  # type: ignore[arg-type]


def _few_tabs(say: Say, *, part: str, title: str, asked: float, found: float, wide_mm: float) -> str:
    return (
        f"Hold it down besides: {title.lower()} ({part}) has room for {found:g} of the {asked:g} tabs, each "
        f"{say(wide_mm)} wide, on edges that neither guide nor measure."
    )


# -- laser -----------------------------------------------------------------------------------------------------


def _bed_small(
    say: Say,
    *,
    part: str,
    length_mm: float,
    width_mm: float,
    bed_x_mm: float,
    bed_y_mm: float,
    needed_mm: float,
    too_wide: float,
) -> str:
    if too_wide:
        why = f"cut across it is still {say(width_mm)} wide"
        way = f"a bed of {say.up(needed_mm)} or more both ways"
    else:
        why = "there is no stretch of it free of holes and wide enough for a keyed joint where one is needed"
        way = f"a bed longer than {say(needed_mm)}"
    return (
        f"{part} is not cut: it is {say(length_mm)} by {say(width_mm)}, the bed {say(bed_x_mm)} by {say(bed_y_mm)}, "
        f"and {why}. Use {way}, or the template on paper."
    )


def _kerf_closes(_say: Say, *, part: str, feature: str, width_mm: float, kerf_mm: float) -> str:
    return (
        f"{part} is not cut: {feature} is {width_mm:.2f} mm wide, narrower than the kerf of {kerf_mm:.2f} mm, so half "
        f"a kerf inside its edges nothing is left. Set [laser] kerf to what it measures, less than {width_mm:.2f} mm, "
        "or use the template on paper."
    )


def _web_burns(_say: Say, *, part: str, place: str, width_mm: float, kerf_mm: float) -> str:
    return (
        f"{part}: {place} only {max(width_mm, 0.0):.2f} mm is left, no more than the kerf of {kerf_mm:.2f} mm, and "
        "burns away. Set [laser] kerf to what it measures, or use the template on paper."
    )


# -- paper -----------------------------------------------------------------------------------------------------


def _roll_narrow(say: Say, *, roll_width_mm: float, taken_mm: float, needed_mm: float) -> str:
    return (
        f"paper/templates.pdf is not made: of a roll {say(roll_width_mm)} wide, margins, scales and overlap use "
        f"{say(taken_mm)}, and the drawing pages need {say(needed_mm)}. Set [files] roll_width to "
        f'{say.up(needed_mm)} or more, or paper = "A4".'
    )


def _roll_wide(say: Say, *, roll_width_mm: float, most_mm: float) -> str:
    return (
        f"paper/templates.pdf is not made: a roll {say(roll_width_mm)} wide is more than the {say(most_mm)} a PDF page "
        f"may measure. Set [files] roll_width to {say.down(most_mm)} or less."
    )


SENTENCES: dict[str, Sentence] = {
    "router.spacing_small": _spacing_small,
    "router.part_too_large": _part_too_large,
    "router.sled_too_large": _sled_too_large,
    "router.part_too_tight": _part_too_tight,
    "router.sled_too_tight": _sled_too_tight,
    "router.few_tabs": _few_tabs,
    "template.bed_small": _bed_small,
    "template.kerf_closes": _kerf_closes,
    "template.web_burns": _web_burns,
    "paper.roll_narrow": _roll_narrow,
    "paper.roll_wide": _roll_wide,
}
