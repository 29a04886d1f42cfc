"""Ways out as sentences: the changes to the job that were tried and found to do."""

from __future__ import annotations

from scarfwright.models.findings import Finding, Remedy, Written

_PHRASES = {
    "stock.thickness": "start from a board {} thick",
    "stock.height": "use a board {} high (rip it)",
    "stock.length": "use boards {} long",
    "stock.finished_thickness": "plan for a finished thickness of {}",
    "clamp.opening": "use clamps that open {}",
    "clamp.throat": "use clamps that reach {} down",
    "clamp.pad_height": "use pads {} high",
    "saw.blade_diameter": "use a blade of {}",
    "saw.fence_front": "slide the fence until its near end is {} from the blade's centre",
    "saw.max_depth": "use a saw whose blade rises {}",
    "sled.length": "make the sled {} long",
    "sled.heel_station": "put the heel notch {} from the heel",
    "sled.nose_station": "put the nose clamp {} from the nose end",
    "sled.hand_line": "put the hand line {} from the heel",
}


def ways_out(found: Finding) -> str:
    """One sentence with all remedies, or nothing."""
    if not found.remedies:
        return ""
    told = "; or ".join(said(remedy) for remedy in found.remedies)
    return f" {told[0].upper()}{told[1:]}."


def said(remedy: Remedy) -> str:
    """One way out as what to do."""
    if [key for key, _ in remedy] == ["stock.thickness", "stock.height"]:
        return "start from a board {} thick and stand it {} high".format(*(value for _, value in remedy))
    phrases = [_change(key, value) for key, value in remedy]
    return phrases[0] if len(phrases) == 1 else f"{', '.join(phrases[:-1])} and {phrases[-1]}"


def _change(key: str, value: Written) -> str:
    name = key.split(".")[1]
    if key == "sled.plank" and isinstance(value, list):
        return f"use a plank {value[1]} wide and {value[0]} thick"
    if key == "sled.extra_stations" and isinstance(value, list):
        return f"set extra_stations to {', '.join(value)}" if value else "leave out the extra notches"
    if key == "sled.layers":
        return f"glue the sled from {value} layers"
    if key == "joint.ratio":
        return f"set ratio = {value}"
    if key == "sled.nose_flat" and value == 0:
        return "hold the nose in a notch (nose_flat = 0)"
    if value == "auto":
        return f'set {name} to "auto"'
    return _PHRASES.get(key, f"set {name} to {{}}").format(value)
