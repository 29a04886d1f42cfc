"""Where the heel is, in words: never a travel below nothing. Thin, steep stock is cut before the heel gets to the
blade's centre."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say

OF = " of travel"


def heel_at(travel: float, say: Say, of: str = "") -> str:
    """When something is over or reached, to the nearest figure; `of` follows a travel (" of travel")."""
    if travel < 0:
        return f"with the heel {say(-travel)} short of the blade's centre"
    return f"at {say(travel)}{of}"


def from_centre(travel: float, say: Say) -> str:
    """A place of heel or stop block along the fence."""
    return f"{say(abs(travel))} {'short of' if travel < 0 else 'beyond'} the blade's centre"


def in_a_table(travel: float, say: Say) -> str:
    """A figure under a heading that calls it a travel."""
    return f"{say(-travel)} short of the centre" if travel < 0 else say(travel)


def limit_in_a_table(travel: float, say: Say) -> str:
    """The same for a travel that may not be passed: short, never long."""
    return f"{say.up(-travel)} short of the centre" if travel < 0 else say.down(travel)
