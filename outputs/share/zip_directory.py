"""The directory of a zip file, read strictly (APPNOTE 6.3, the parts every tool writes): whatever two readers could
take two ways is refused.

Read here rather than by Python's own reader because that one, before 3.12, lets entries overlap, takes a name with a
NUL for a shorter one, and believes the directory where the entry's own header says otherwise.
"""

from __future__ import annotations

import stat
import struct
import zlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import BinaryIO

from scarfwright.models.sharing.names import clash, wrong_name

MOST_ENTRIES = 5000
LARGEST_DIRECTORY = 2_000_000  # bytes
LARGEST_UNPACKED = 1_000_000_000  # bytes, all entries together: fifty times the largest job there is
MOST_TIMES = 1000  # how much larger an entry may unpack; text reaches tens

STORED, DEFLATED = 0, 8
_END, _CENTRAL, _LOCAL = b"PK\x05\x06", b"PK\x01\x02", b"PK\x03\x04"
_END_FORM = struct.Struct("<4s4H2LH")
_CENTRAL_FORM = struct.Struct("<4s6H3L5H2L")
_LOCAL_FORM = struct.Struct("<4s5H3L2H")
_ENCRYPTED, _SIZES_FOLLOW, _STRONG, _UTF8, _MASKED = 1, 1 << 3, 1 << 6, 1 << 11, 1 << 13
_ZIP64_LONG, _ZIP64_SHORT = 0xFFFFFFFF, 0xFFFF
_METHODS = {12: "bzip2", 14: "LZMA", 93: "zstandard", 95: "XZ", 9: "deflate64"}


class ZipError(ValueError):
    """A zip that can't be used; `str()` says what was found and what was expected."""


@dataclass(frozen=True)
class Entry:
    """One file in a zip: its name, how it is packed, its checksum, sizes [bytes] and where its bytes begin."""

    name: str
    method: int
    crc: int
    packed: int
    size: int
    header: int
    begins: int


@dataclass(frozen=True)
class _Raw:
    """An entry as the directory has it."""

    made_on: int
    flags: int
    method: int
    crc: int
    packed: int
    size: int
    mode: int
    header: int
    raw_name: bytes
    name: str


def read_directory(file: BinaryIO) -> dict[str, Entry]:
    """Every file of a zip by its name, in the directory's order; folders are left out.

    Raises ZipError for what is damaged, hides something or could do harm when unpacked.
    """
    length = file.seek(0, 2)
    directory, begins, count = _directory(file, length)
    found = list(_entries(directory, count))
    for one in found:
        _refuse(one)
    _bounded(found)
    entries = [(_located(file, one, begins), one.name.endswith("/")) for one in found]
    _apart([entry for entry, _ in entries], begins)
    names = [entry.name for entry, _ in entries]
    both = clash(names)
    if both:
        raise ZipError(f"found {both[0]} and {both[1]}, which fall on one file, expected each name once")
    return {entry.name: entry for entry, is_folder in entries if not is_folder}


def _directory(file: BinaryIO, length: int) -> tuple[bytes, int, int]:
    """The directory's bytes, where it begins, and how many entries it should have."""
    tail = min(length, _END_FORM.size + 0xFFFF)
    file.seek(length - tail)
    data = file.read(tail)
    at = data.rfind(_END)
    while at >= 0:
        if len(data) - at >= _END_FORM.size:
            end = _END_FORM.unpack_from(data, at)
            if at + _END_FORM.size + end[7] == len(data):
                break
        at = data.rfind(_END, 0, at)
    else:
        raise ZipError("found no end of a zip's directory, expected a whole zip: was it cut short?")
    _, disk, first_disk, here, count, size, begins, _ = end
    if _ZIP64_SHORT in (disk, first_disk, here, count) or _ZIP64_LONG in (size, begins):
        raise ZipError("found the zip64 form, expected an ordinary zip of at most 4 GB")
    if disk or first_disk or here != count:
        raise ZipError("found one part of a zip in several, expected a whole one")
    if count > MOST_ENTRIES or size > LARGEST_DIRECTORY:
        raise ZipError(f"found {count} entries, expected at most {MOST_ENTRIES}")
    if begins + size != length - len(data) + at:
        raise ZipError("found its directory not where it says, expected a whole zip with nothing before or after it")
    file.seek(begins)
    return file.read(size), begins, count


def _entries(directory: bytes, count: int) -> Iterable[_Raw]:
    at = 0
    for _ in range(count):
        if len(directory) - at < _CENTRAL_FORM.size:
            raise ZipError(f"found its directory damaged, expected {count} entries")
        found = _CENTRAL_FORM.unpack_from(directory, at)
        signature, made_by, _, flags, method, _, _, crc, packed, size = found[:10]
        name_length, extra_length, comment_length, disk, _, outer, header = found[10:]
        at += _CENTRAL_FORM.size
        raw = directory[at : at + name_length]
        at += name_length + extra_length + comment_length
        if signature != _CENTRAL or at > len(directory) or disk:
            raise ZipError(f"found its directory damaged, expected {count} entries")
        if _ZIP64_LONG in (packed, size, header):
            raise ZipError("found the zip64 form, expected an ordinary zip of at most 4 GB")
        yield _Raw(
            made_by >> 8, flags, method, crc, packed, size, outer >> 16, header, raw, _decoded(raw, bool(flags & _UTF8))
        )
    if at != len(directory):
        raise ZipError(f"found more in its directory than its {count} entries, expected nothing besides")


def _decoded(raw: bytes, utf8: bool) -> str:
    try:
        return raw.decode("utf-8" if utf8 else "cp437")
    except UnicodeDecodeError:
        raise ZipError("found a name that is not UTF-8 as it says, expected plain names") from None


def _refuse(one: _Raw) -> None:
    """What must not be in a zip that is passed on."""
    shown = one.name.encode("unicode_escape").decode()[:60]
    wrong = wrong_name(one.name.removesuffix("/"))
    if wrong:
        raise ZipError(f"found {wrong} ({shown}), expected plain names below one folder")
    kind = stat.S_IFMT(one.mode)
    if stat.S_ISLNK(one.mode):
        raise ZipError(f"{shown}: found a link, expected files only")
    if kind and not (stat.S_ISREG(one.mode) or stat.S_ISDIR(one.mode)):
        raise ZipError(f"{shown}: found a device or pipe, expected files only")
    if one.flags & (_ENCRYPTED | _STRONG | _MASKED):
        raise ZipError(f"{shown}: found it encrypted, expected files that can be read")
    if one.method not in (STORED, DEFLATED):
        name = _METHODS.get(one.method, f"method {one.method}")
        raise ZipError(f"{shown}: found it packed by {name}, expected stored or deflated files")
    if one.name.endswith("/") and one.size:
        raise ZipError(f"{shown}: found a folder with content, expected files and plain folders")
    if one.method == STORED and one.packed != one.size:
        raise ZipError(f"{shown}: found two sizes of a stored file, expected one")


def _bounded(found: list[_Raw]) -> None:
    total = sum(one.size for one in found)
    if total > LARGEST_UNPACKED:
        raise ZipError(f"found {total} bytes when unpacked, expected at most {LARGEST_UNPACKED}")
    for one in found:
        if one.size > MOST_TIMES * max(one.packed, 1) + 1000:
            raise ZipError(f"{one.name}: found {one.size} bytes packed into {one.packed}, expected no bomb")


def _located(file: BinaryIO, one: _Raw, ends: int) -> Entry:
    """The entry with its bytes' place, its own header compared with the directory."""
    file.seek(one.header)
    data = file.read(_LOCAL_FORM.size)
    if len(data) < _LOCAL_FORM.size or one.header + _LOCAL_FORM.size > ends:
        raise ZipError(f"{one.name}: found no file where the directory says, expected a whole zip")
    signature, _, flags, method, _, _, crc, packed, size, name_length, extra_length = _LOCAL_FORM.unpack(data)
    raw = file.read(name_length)
    if signature != _LOCAL:
        raise ZipError(f"{one.name}: found no file where the directory says, expected a whole zip")
    if raw != one.raw_name or method != one.method or (flags ^ one.flags) & (_ENCRYPTED | _UTF8):
        raise ZipError(f"{one.name}: found another name or kind in its own header, expected what the directory says")
    told = (crc, packed, size)
    later = flags & _SIZES_FOLLOW or _ZIP64_LONG in (packed, size)
    if not later and told != (one.crc, one.packed, one.size):
        raise ZipError(f"{one.name}: found other sizes in its own header, expected what the directory says")
    begins = one.header + _LOCAL_FORM.size + name_length + extra_length
    name = one.name.removesuffix("/")
    return Entry(name, one.method, one.crc, one.packed, one.size, one.header, begins)


def _apart(entries: list[Entry], ends: int) -> None:
    """No two files share a byte, nor one with the directory."""
    before: Entry | None = None
    for one in sorted(entries, key=lambda entry: (entry.header, entry.begins)):
        if before is not None and one.header < before.begins + before.packed:
            raise ZipError(f"found {before.name} and {one.name} overlapping, expected files beside each other")
        before = one
    if before is not None and before.begins + before.packed > ends:
        raise ZipError(f"{before.name}: found it reaching into the directory, expected a whole zip")


def read_entry(file: BinaryIO, entry: Entry, most: int) -> bytes:
    """The bytes of one file, at most `most` of them, its checksum tested. Raises ZipError."""
    if entry.size > most:
        raise ZipError(f"{entry.name}: found {entry.size} bytes, expected at most {most}")
    if entry.packed > 2 * most + 1000:
        raise ZipError(f"{entry.name}: found {entry.packed} bytes packed, expected at most {most}")
    file.seek(entry.begins)
    data = file.read(entry.packed)
    if entry.method == DEFLATED:
        unpacking = zlib.decompressobj(-zlib.MAX_WBITS)
        try:
            data = unpacking.decompress(data, entry.size + 1)
        except zlib.error:
            raise ZipError(f"{entry.name}: found it damaged, expected a whole file") from None
        if not unpacking.eof or unpacking.unused_data:
            data = b"" if entry.size else b"?"
    if len(data) != entry.size or zlib.crc32(data) != entry.crc:
        raise ZipError(f"{entry.name}: found it damaged or of another size than it says, expected a whole file")
    return data


def without_folder(entries: Mapping[str, Entry], wanted: str) -> tuple[str, dict[str, Entry]]:
    """The entries without the one folder that holds them all, where `wanted` is in it; and that folder ("" for none).

    What the system that packed them left beside it (see is_litter) counts for nothing.
    """
    mine = {name: entry for name, entry in entries.items() if not is_litter(name)}
    if wanted in mine:
        return "", mine
    tops = {name.partition("/")[0] for name in mine}
    if len(tops) != 1:
        return "", mine
    folder = tops.pop() + "/"
    return folder, {name.removeprefix(folder): entry for name, entry in mine.items() if name.startswith(folder)}


def is_litter(name: str) -> bool:
    """Files that desktops leave in folders and zips by themselves."""
    last = name.rpartition("/")[2]
    return name.startswith("__MACOSX/") or last in (".DS_Store", "Thumbs.db", "desktop.ini")
