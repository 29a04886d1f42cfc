"""Licences by their names in the SPDX License List (ISO/IEC 5962): which there are, and the nearest to a slip."""

from __future__ import annotations

import difflib
import re

LONGEST = 200  # characters; a name has thirty, and several are joined by AND and OR


class LicenceError(ValueError):
    """No name of the list; `str()` says what was found and the nearest."""


def licence_named(text: str) -> str:
    """The SPDX expression as the list writes it ("cc-by-4.0" is CC-BY-4.0). Raises LicenceError."""
    from boolean import ParseError  # a tenth of a second: only for who names a licence
    from license_expression import ExpressionError, get_spdx_licensing

    if len(text) > LONGEST:
        raise LicenceError(f"found {len(text)} characters, expected a name of the SPDX list such as CC-BY-4.0")
    listed = get_spdx_licensing()
    try:
        found = listed.parse(text, validate=True, strict=True)
    except (ExpressionError, ParseError, AttributeError, ValueError, TypeError):
        found = None  # the parser has errors of its own beside those it names
    if found is None or any(str(one).startswith("LicenseRef") for one in found.symbols):
        near = _nearest(text, [name for name in listed.known_symbols if not name.startswith("LicenseRef")])
        raise LicenceError(f'found "{text}", expected a name of the SPDX list; the nearest is {near}')
    return str(found)


def _nearest(text: str, names: list[str]) -> str:
    """By the text without blanks and case: "cc by 4" is near CC-BY-4.0."""
    plain = {re.sub(r"[\s_]+", "-", name.lower()): name for name in names}
    wanted = re.sub(r"[\s_]+", "-", text.strip().lower())
    return plain[difflib.get_close_matches(wanted, plain, 1, 0.0)[0]]
