"""Characters that no markup may hold are shown as what can't be shown."""

from __future__ import annotations

_NEVER = (*range(0x20), *range(0x7F, 0xA0), 0xFFFE, 0xFFFF)  # HTML: controls and noncharacters are errors
_SEEN = {code: "\ufffd" for code in _NEVER if chr(code) not in "\n\t"}


def seen(markup: str) -> str:
    """The same markup, controls and noncharacters replaced; JSON in it has none that is not escaped."""
    return markup.translate(_SEEN)
