"""Files of ours that were opened as what they are not: what each is, and where it opens."""

from __future__ import annotations

from typing import Any, Final

from app.files.safe_files import RefusalError
from app.language import msgid, tr

SETTINGS: Final = frozenset({"theme", "limits", "recent"})
NUMBERS: Final = frozenset({"inputs", "body", "bend"})
"""Keys that stand together in no other file of ours."""

_NO_SETUP: Final = {
    "parts": msgid(
        "it is a parts list, not a set-up; open it on the page Parts, with Open… under List"
    ),
    "settings": msgid("it holds the program's settings, not a set-up"),
    "numbers": msgid("it holds results that were printed, not a set-up to open"),
}
_NO_PARTS: Final = {
    "setup": msgid("it is a set-up, not a parts list; open it with Open… in the menu File"),
    "settings": msgid("it holds the program's settings, not a parts list"),
    "numbers": msgid("it holds results that were printed, not a parts list"),
}


def require_no_other(raw: dict[str, Any], wanted: str) -> None:
    """Refuse a file of another kind before its first missing key is complained of.

    Args:
        raw: all that the file holds.
        wanted: what it should be, "setup" or "parts".

    Raises:
        RefusalError: it is another kind of file of ours; says where that one opens.
    """
    sentences = _NO_SETUP if wanted == "setup" else _NO_PARTS
    kind = _kind(raw)
    if kind in sentences:
        raise RefusalError(tr(sentences[kind]))


def _kind(raw: dict[str, Any]) -> str:
    """What a file holds, by the keys that only that kind has; "" where they do not tell."""
    # A set-up's parts are a group; those of a parts list stand in a row.
    if "schema" in raw:
        if isinstance(raw.get("parts"), list):
            return "parts" if "inputs" not in raw else ""
        return "setup" if "inputs" in raw else ""
    if raw.keys() >= SETTINGS:
        return "settings"
    return "numbers" if raw.keys() >= NUMBERS else ""
