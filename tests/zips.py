"""Zips built byte by byte, so that every field can be made to lie; and small ones as a job is passed on in."""

from __future__ import annotations

import hashlib
import json
import struct
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from scarfwright.models.job.file import job_from_text, job_to_toml
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.sharing.manifest import Manifest, Sealed, Terms, kept_numbers, manifest_text
from scarfwright.models.sharing.versions import library_versions, tool_version
from scarfwright.models.solve import work_up

from tests.cli_runs import GOOD


@dataclass(frozen=True)
class One:
    """An entry: what is None is as it should be; `outer` fields are the directory's, the others the file's own."""

    name: str | bytes
    data: bytes = b""
    method: int = 0
    flags: int = 0
    size: int | None = None
    packed: int | None = None
    crc: int | None = None
    outer_name: bytes | None = None
    outer_size: int | None = None
    offset: int | None = None
    mode: int = 0
    made_on: int = 0
    disk: int = 0
    sizes_follow: bool = False
    extra: bytes = b""

    @property
    def raw(self) -> bytes:
        return self.name if isinstance(self.name, bytes) else self.name.encode()

    @property
    def body(self) -> bytes:
        if self.method != 8:
            return self.data
        packing = zlib.compressobj(9, zlib.DEFLATED, -15)
        return packing.compress(self.data) + packing.flush()


def raw_zip(
    entries: Sequence[One],
    *,
    before: bytes = b"",
    after: bytes = b"",
    comment: bytes = b"",
    count: int | None = None,
    shift: int = 0,
    disk: int = 0,
) -> bytes:
    """The bytes of a zip of these entries, with what is to be wrong about it."""
    out, places = bytearray(before), []
    for one in entries:
        places.append(len(out) if one.offset is None else one.offset)
        size = len(one.data) if one.size is None else one.size
        packed = len(one.body) if one.packed is None else one.packed
        crc = zlib.crc32(one.data) if one.crc is None else one.crc
        flags = one.flags | (8 if one.sizes_follow else 0)
        told = (0, 0, 0) if one.sizes_follow else (crc, packed, size)
        out += struct.pack(
            "<4s5H3L2H", b"PK\x03\x04", 20, flags, one.method, 0, 33, *told, len(one.raw), len(one.extra)
        )
        out += one.raw + one.extra + one.body
        if one.sizes_follow:
            out += struct.pack("<4s3L", b"PK\x07\x08", crc, packed, size)
    begins = len(out)
    for one, place in zip(entries, places, strict=True):
        name = one.raw if one.outer_name is None else one.outer_name
        size = len(one.data) if one.size is None else one.size
        size = size if one.outer_size is None else one.outer_size
        packed = len(one.body) if one.packed is None else one.packed
        crc = zlib.crc32(one.data) if one.crc is None else one.crc
        flags = one.flags | (8 if one.sizes_follow else 0)
        out += struct.pack(
            "<4s6H3L5H2L",
            b"PK\x01\x02", one.made_on << 8 | 20, 20, flags, one.method, 0, 33, crc, packed, size,
            len(name), 0, 0, one.disk, 0, one.mode << 16, place,
        )  # fmt: skip
        out += name
    number = len(entries) if count is None else count
    length = len(out) - begins
    out += struct.pack("<4s4H2LH", b"PK\x05\x06", disk, disk, number, number, length, begins + shift, len(comment))
    return bytes(out + comment + after)


@cache
def passed_on() -> Mapping[str, bytes]:
    """The files of a small job as it is passed on: true numbers, a few files that stand for all."""
    job = job_from_text(GOOD)
    return files_for(kept_numbers(numbers(work_up(job))))


def files_for(kept: Mapping[str, Any], job: str = "", **changes: Any) -> dict[str, bytes]:
    """The same with these numbers; `changes` are fields of the manifest's JSON to be others."""
    files = {
        "READ-FIRST.txt": b"first\n",
        "LICENCE.txt": b"licence\n",
        "cad/sled.step": b"ISO-10303-21;\n" * 50,
        "cut/sled.dxf": b"0\nEOF\n",
        "job.toml": (job or job_to_toml(job_from_text(GOOD))).encode(),
        "numbers.json": b"{}\n",
    }
    sealed = {name: Sealed(hashlib.sha256(data).hexdigest(), len(data)) for name, data in files.items()}
    text = manifest_text(Manifest(tool_version(), library_versions(), kept, sealed, Terms()))
    if changes:
        text = json.dumps({**json.loads(text), **changes})
    return {"manifest.json": text.encode(), **files}


def entries_of(files: Mapping[str, bytes], **fields: Any) -> list[One]:
    return [One(name, data, **fields) for name, data in files.items()]
