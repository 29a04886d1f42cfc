"""What is said of a job that comes back: versions, numbers, files, whose saw it is for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.say import Say
from scarfwright.models.sharing.compared import Compared, Difference
from scarfwright.models.sharing.manifest import Manifest
from scarfwright.models.sharing.versions import Other
from scarfwright.models.words.passing_on.papers import whose_saw

MOST = 8  # of a list that is spelled out on a terminal; JSON has all
_PLACE = re.compile(r"\[(\d+)\]")
_UNITS = {
    "mm2": "mm2", "mm3": "mm3", "mm4": "mm4", "deg": "degrees", "rad": "rad", "n": "N", "mpa": "MPa", "gpa": "GPa",
    "g": "g", "kg": "kg", "s": "s", "min": "min", "h": "h", "m_s": "m/s", "w": "W", "percent": "%",
}  # fmt: skip


def some(names: Sequence[str], most: int = MOST) -> str:
    """The first names, and how many more there are."""
    rest = len(names) - most
    return ", ".join(names[:most]) + (f" and {rest} more" if rest > 0 else "")


def versions_line(manifest: Manifest, others: Sequence[Other]) -> str:
    """Which versions made it, and which are others here."""
    if not others:
        return f"Made by scarfwright {manifest.tool}, with the same libraries as here."
    names = [f"{one.name} {one.there or 'none'} there, {one.here or 'none'} here" for one in others]
    return f"Made by scarfwright {manifest.tool}. Other versions: {some(names)}."


def plug_in_lines(others: Iterable[Other], manifest: Manifest) -> list[str]:
    """Plug-ins it was made with that are not here: their parts are missing from what is made now."""
    names = {one.name for one in manifest.terms.plug_ins}
    gone = [one for one in others if one.name in names and one.here is None]
    return [f"Needs the plug-in {one.name} {one.there}, not found here: its parts are left out." for one in gone]


def numbers_lines(say: Say, found: Compared) -> list[str]:
    """Whether the numbers are the same, else which are others and by how much."""
    if found.same:
        return [f"Numbers worked out again: the same, all {found.figures}."]
    lines = [f"Numbers worked out again: OTHERS, {len(found.others)} of {found.figures}."] if found.others else []
    lines += [f"  {difference_line(say, one)}" for one in found.others[:MOST]]
    if len(found.others) > MOST:
        lines.append(f"  and {len(found.others) - MOST} more (--json has all)")
    if not found.others:
        lines.append(f"Numbers worked out again: the same, all {found.figures}; but the findings are OTHERS.")
    lines += [f"  now found, not when it was made: {code}" for code in found.came]
    lines += [f"  found when it was made, not now: {code}" for code in found.went]
    return lines


def difference_line(say: Say, one: Difference) -> str:
    """ "sled length: 900 mm as passed on, 850 mm worked out here, 50 mm less"."""
    name, unit = _named(one.path)
    if not (_number(one.there) and _number(one.here)):
        return f"{name}: {_shown(one.there)} as passed on, {_shown(one.here)} worked out here"
    try:
        there, here = float(one.there), float(one.here)
    except OverflowError:
        return f"{name}: not a number that could be, as passed on; {one.here} worked out here"
    if unit == "mm" and abs(there) < 1e9 and abs(here) < 1e9:
        shown = say.apart(there, here)
        by = say(abs(here - there))
        by = by if by != say(0.0) else say.fine(abs(here - there))
    else:
        tail = f" {unit}" if unit and unit != "mm" else ""
        shown, by = (f"{there:.6g}{tail}", f"{here:.6g}{tail}"), f"{abs(here - there):.6g}{tail}"
    return f"{name}: {shown[0]} as passed on, {shown[1]} worked out here, {by} {'more' if here > there else 'less'}"


def _named(path: str) -> tuple[str, str]:
    """A path in words, and its unit: "sled.notches[0].web_mm" is the web of notch 1, in mm."""
    plain = _PLACE.sub(lambda m: f" {int(m[1]) + 1}", path)
    for ending, unit in sorted({**_UNITS, "mm": "mm"}.items(), key=lambda one: -len(one[0])):
        if re.search(rf"_{ending}( \d+)*$", plain):
            plain = re.sub(rf"_{ending}(?=( \d+)*$)", "", plain)
            return plain.replace(".", " ").replace("_", " "), unit
    return plain.replace(".", " ").replace("_", " "), ""


def _number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _shown(value: object) -> str:
    text = "none" if value is None else str(value).lower() if isinstance(value, bool) else str(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def files_lines(listed: int, changed: Sequence[str], missing: Sequence[str], unlisted: Sequence[str]) -> list[str]:
    """How a folder's files stand to its manifest."""
    lines = []
    if not (changed or missing):
        lines.append(f"Files: all {listed} whole, byte for byte as they were made.")
    if changed:
        lines.append(f"CHANGED since it was made: {some(changed)}. Do not cut from these.")
    if missing:
        lines.append(f"MISSING: {some(missing)}.")
    return [*lines, *unlisted_lines(unlisted)]


def unlisted_lines(unlisted: Sequence[str]) -> list[str]:
    """Files that were put beside those that were made."""
    if not unlisted:
        return []
    return [f"NOT of this job, put there by somebody: {some(unlisted)}. Nothing here vouches for them."]


def read_back_lines(groups: Iterable[tuple[str, int, str, Sequence[str]]]) -> list[str]:
    """What was read back by what, kind by kind: suffix, how many, the reader ("" for none), what was wrong."""
    by_reader: dict[str, list[str]] = {}
    lines = []
    for suffix, count, reader, faults in groups:
        by_reader.setdefault(reader, []).append(f"{count} {suffix.removeprefix('.').upper()}")
        lines += [
            f"NOT as the job's numbers have it, or not to be read: {fault}. Do not cut from it." for fault in faults
        ]
    read = [f"{', '.join(kinds)} by {reader}" for reader, kinds in by_reader.items() if reader]
    if read:
        lines.append(f"Read back: {'; '.join(read)}.")
    unread = by_reader.get("", [])
    if any(not kind.endswith("STEP") for kind in unread):
        lines.append(f'Not read back: {", ".join(unread)} (pip install "scarfwright[verify]" reads all but STEP).')
    elif unread:
        lines.append(f"Not read back: {', '.join(unread)}, for which no reader is known but the one that wrote it.")
    return lines


def zip_files_line(listed: int) -> str:
    """What reading the two entries of a zip tells of its files."""
    return (
        f"Files: all {listed} there, of the size they were made. Their bytes were not read: make it anew, or unpack it "
        "and check the folder."
    )


def bytes_lines(same: Sequence[str], other: Sequence[str], absent: Sequence[str], others: Sequence[Other]) -> list[str]:
    """Files made anew against those that were passed on."""
    lines = []
    if not (other or absent):
        lines.append(f"Made anew: all {len(same)} files have the same bytes as those passed on.")
    if other:
        why = "; its versions are others, see above" if others else ", on the same versions"
        lines.append(f"Made anew: {len(other)} of {len(same) + len(other)} files have OTHER bytes{why}: {some(other)}.")
    if absent:
        lines.append(f"Passed on but not made here: {some(absent)}.")
    return lines


def whose_line(job: Job, own: str) -> str:
    """Whose saw it is for. `own`: the command that makes it one's own."""
    return f"FOR THE SAW AND CLAMPS OF ITS MAKER: {whose_saw(job)}. Not yours? Make it your own first: {own}"


def plain_key(key: str) -> str:
    """A key of the job in words: "saw.fence_gap" is the saw's fence gap."""
    return "machines" if key == "shop_has" else key.replace(".", " ").replace("_", " ")


def shop_line(name: str, kept: Sequence[str], taken: Sequence[str]) -> str:
    """Where a job's saw and machines came from, and what the job keeps of its own."""
    words = [plain_key(key) for key in kept]
    line = f"Shop: {', '.join(map(plain_key, taken))} from {name}." if taken else f"Shop: nothing from {name}."
    return f"{line} The job's own, to other values, stay: {some(words)}." if words else line
