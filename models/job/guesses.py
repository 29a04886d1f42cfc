"""Which sizes of the user's own saw and clamps are still the tool's guess."""

from __future__ import annotations

from scarfwright.models.job.tables import Clamp, Job, Saw
from scarfwright.models.lengths.length import Length, parse_length


def is_default(value: object, table: type[Clamp] | type[Saw], key: str, job: Job) -> bool:
    """Whether a length is the tool's guess about the user's own tools, as far as can be told from what it is."""
    extra = table.model_fields[key].json_schema_extra
    if not isinstance(extra, dict) or not isinstance(value, Length):
        return False
    written = extra.get("inch" if job.units == "in" else "default")
    return isinstance(written, str) and value == parse_length(written, job.units)


def guessed(job: Job) -> list[str]:
    """The sizes of the user's own saw and clamps that are still the tool's guess."""
    held = {Saw: job.saw, Clamp: job.clamp}
    return [key for table, key in _guesses() if is_default(getattr(held[table], key), table, key, job)]


def nothing_measured(job: Job) -> bool:
    """Whether all of them are."""
    return len(guessed(job)) == len(_guesses())


def _guesses() -> list[tuple[type[Clamp] | type[Saw], str]]:
    """The keys that a builder measures and the tool must guess until then."""
    tables: tuple[type[Clamp] | type[Saw], ...] = (Saw, Clamp)
    return [
        (table, key)
        for table in tables
        for key, field in table.model_fields.items()
        if isinstance(field.json_schema_extra, dict) and field.json_schema_extra.get("guess")
    ]
