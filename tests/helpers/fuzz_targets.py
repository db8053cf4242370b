"""What reads files from anywhere, each as one function of bytes that says what is wrong.

Every input must end in what it stands for or in one line of words.  What it stands for must
come back the same from what would be written of it, or be refused in words before it is.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from app.files.parts_file import PartsDocument, _as_json, parts_in
from app.files.png_setup import KEYWORD, SIGNATURE, with_setup
from app.files.recovery import LARGEST_KEPT, _with_origin, _without_origin
from app.files.safe_files import RefusalError
from app.files.settings import Settings, _sound
from app.files.settings import _as_json as settings_as_json
from app.files.storage import SCHEMA, Document, as_copy, bytes_of, document_in
from app.files.strict_json import parsed, written

ROOT = Path(__file__).parents[2]
HEADER = struct.pack(">I4s13sI", 13, b"IHDR", bytes(13), zlib.crc32(b"IHDR" + bytes(13)))
END = struct.pack(">I4sI", 0, b"IEND", zlib.crc32(b"IEND"))
TEXTS = (b"iTXt", b"tEXt", b"zTXt")


def setup(data: bytes) -> None:
    """A set-up's file."""
    _comes_back(document_in(data))


def picture(data: bytes) -> None:
    """A picture, whose first byte says how much of it is sound."""
    how, rest = data[:1], data[1:]
    if how and how[0] < len(TEXTS):
        body = TEXTS[how[0]] + KEYWORD + b"\0" + rest
        chunk = struct.pack(">I", len(body) - 4) + body + struct.pack(">I", zlib.crc32(body))
        data = SIGNATURE + HEADER + chunk + END
    elif how and how[0] == len(TEXTS):
        data = with_setup(SIGNATURE + HEADER + END, rest)
    _comes_back(document_in(data))


def parts(data: bytes) -> None:
    """A parts list."""
    document = parts_in(data)
    if not document.read_only:
        again = parts_in(written(_as_json(document)))
        assert again == document, (again, document)


def settings(data: bytes) -> None:
    """The settings: each that cannot be taken falls back by itself."""
    raw = parsed(data)
    if isinstance(raw, dict):
        taken = Settings(**dict(_sound(raw)))
        again = Settings(**dict(_sound(parsed(written(settings_as_json(taken))))))
        assert again == taken, (again, taken)


def recovery(data: bytes) -> None:
    """A copy of unsaved work."""
    unsaved = _without_origin(document_in(data))
    document = unsaved.document
    kept = bytes_of(_with_origin(unsaved), LARGEST_KEPT)
    again = _without_origin(document_in(kept))
    if document.read_only:
        assert again.document == as_copy(document)
    else:
        assert again == replace(unsaved, document=replace(document, schema=SCHEMA))


TARGETS: dict[str, Callable[[bytes], None]] = {
    "setup": setup,
    "picture": picture,
    "parts": parts,
    "settings": settings,
    "recovery": recovery,
}


def outcome(target: str, data: bytes) -> str:
    """What is said of an input; "" where it is taken.

    Raises:
        AssertionError: it does not come back as it was, or is not refused in one line.
    """
    try:
        TARGETS[target](data)
    except RefusalError as error:
        said = str(error)
        assert said, "nothing is said"
        assert said.isprintable(), repr(said)
        return said
    return ""


def seeds(target: str) -> list[bytes]:
    """Sound files to begin with."""
    set_ups = [document_in(each.read_bytes()) for each in _files("hard*", "soft*", "grow*")]
    set_ups.append(document_in((ROOT / "tests/cases/layouts/layout-1.json").read_bytes()))
    whole = [bytes_of(replace(each, schema=SCHEMA)) for each in set_ups]
    if target == "picture":
        packed = b"\2\0" + zlib.compress(whole[0])
        return [b"\3" + whole[0], b"\0\0\0\0\0" + whole[0], b"\1" + whole[0], packed]
    if target == "parts":
        return [each.read_bytes() for each in _files("parts*")]
    if target == "settings":
        place = b'{"x": 1, "y": 2, "width": 3, "height": 4, "maximised": true}'
        rest = written(settings_as_json(Settings(folder="/a", recent=("/a/b.json",))))
        return [rest[:-3] + b', "place": ' + place + b"}"]
    if target == "recovery":
        origin = b'"recovery": {"path": "/a/b.json", "fingerprint": "ab"}'
        return [each[: each.rindex(b"}")] + b", " + origin + b"}" for each in whole]
    return [*whole, *(each.read_bytes() for each in sorted(LAYOUTS.glob("*.json")))]


LAYOUTS = ROOT / "tests" / "cases" / "layouts"


def _files(*patterns: str) -> list[Path]:
    return sorted(path for each in patterns for path in (ROOT / "shared").glob(each + ".json"))


def _comes_back(document: Document | PartsDocument) -> None:
    assert isinstance(document, Document)
    if document.read_only:
        document = as_copy(document)
    again = document_in(bytes_of(document))
    assert again == replace(document, schema=SCHEMA), (again, document)
