"""What is said about parts as such: shapes that make no body, labels, and how they lie on a printer's bed."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _impossible(_say: Say, *, part: str, wrong: str) -> str:
    return f"With these sizes the {part.replace('_', ' ')} {wrong.replace('; ', ' and ')}. Change the sizes named."


def _plug_in_failed(_say: Say, *, package: str, version: str, part: str, why: str) -> str:
    return (
        f"The {part.replace('_', ' ')} of {package} {version} can't be made for this job: {why}. Tell whoever made the "
        "package, or take it off."
    )


def _plug_in_not_loaded(_say: Say, *, package: str, version: str, part: str, why: str) -> str:
    return (
        f"{package} {version} adds a part called {part.replace('_', ' ')} that can't be had: {why}. Look for another "
        f"version of the package, or take it off: pip uninstall {package}."
    )


def _too_tall(say: Say, *, title: str, height_mm: float, bed_z_mm: float) -> str:
    return (
        f"{title}: {say(height_mm)} high, and the printer reaches {say(bed_z_mm)}. It is left out of the prints; make "
        f"it {say.up(height_mm - bed_z_mm)} lower or use another printer."
    )


def _overhang(say: Say, *, title: str, area_mm2: float, height_mm: float, turned_over: float) -> str:
    lies = "turned over" if turned_over else "as it lies"
    return (
        f"Print it with supports: of {title[:1].lower() + title[1:]}, printed {lies}, {area_mm2:.0f} mm2 hang over "
        f"nothing, {say(height_mm)} or more above the bed and level, so steeper than the 45 degrees that print without "
        "help (common practice, no source)."
    )


def _no_place(
    say: Say,
    *,
    title: str,
    length_mm: float,
    width_mm: float,
    bed_x_mm: float,
    bed_y_mm: float,
    margin_mm: float,
    too_wide: float,
) -> str:
    why = (
        "cut across it is still too wide"
        if too_wide
        else "there is no straight stretch, free of holes and letters, for a keyed joint where one is needed"
    )
    edge = f" ({say(margin_mm)} kept free on each side)" if margin_mm else ""
    return (
        f"{title}: {say(length_mm)} by {say(width_mm)} does not go on a bed of {say(bed_x_mm)} by {say(bed_y_mm)}"
        f"{edge}, and {why}. It is left out of the prints; use a larger bed ([printer] bed), or make it otherwise."
    )


def _too_loose(say: Say, *, title: str, clearance_mm: float, most_mm: float) -> str:
    return (
        f"{title}: too long for the bed, and keys {say(clearance_mm)} loose join no sections. It is left out of the "
        f"prints; measure what the printer holds and set [printer] tolerance to that: {say.down(most_mm)} or less."
    )


def _replaced(_say: Say, *, what: str, missing: str, reads: str) -> str:
    return f'{what}: the letters {" ".join(missing)} are not in the letter set; the label reads "{reads}".'


def _too_long(say: Say, *, what: str, reads: str, width_mm: float, room_mm: float) -> str:
    return (
        f'{what}: no room for its label; write "{reads}" on it by hand. The label is {say(width_mm)} long, the place '
        f"{say(max(room_mm, 0.0))}."
    )


def _too_small(say: Say, *, what: str, height_mm: float, needed_mm: float) -> str:
    return f"{what}: letters {say(height_mm)} high close up when printed; make them {say(needed_mm)} or higher."


SENTENCES: dict[str, Sentence] = {
    "part.impossible": _impossible,
    "plug_in.failed": _plug_in_failed,
    "plug_in.not_loaded": _plug_in_not_loaded,
    "print.too_tall": _too_tall,
    "print.overhang": _overhang,
    "split.no_place": _no_place,
    "split.too_loose": _too_loose,
    "label.replaced": _replaced,
    "label.too_long": _too_long,
    "label.too_small": _too_small,
}
