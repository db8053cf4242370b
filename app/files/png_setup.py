"""A set-up inside a picture: one text chunk of a PNG file.

A PNG file is a signature and a row of chunks, each with its length, its kind,
its data and a check sum over kind and data.  Programs that do not know a text
chunk leave it alone or drop it, and the picture looks the same either way.

Source: W3C, Portable Network Graphics (PNG) Specification (Third Edition),
sections 5.2 (signature), 5.3 (chunk layout) and 11.3.3 (text chunks).
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator
from typing import Final, NamedTuple

from app.files.safe_files import LARGEST, RefusalError
from app.words.language import msgid, tr

SIGNATURE: Final = b"\x89PNG\r\n\x1a\n"
KEYWORD: Final = b"kneeline-setup"
"""Names the chunk among other texts that a picture may carry."""

_LOST: Final = msgid(
    "this picture carries no set-up: it was not made by Kneeline, or another program has "
    "dropped the set-up; open the picture as it was saved, or the set-up's own file"
)
_DAMAGED: Final = msgid("the set-up in this picture is damaged")
_CUT_OFF: Final = msgid("the picture is cut off")
_LONGEST: Final = 2**31 - 1
"""Data bytes of a chunk that the format allows."""
_PLAIN: Final = b"\0\0\0\0\0"
"""After the keyword: its end, no compression, method 0, no language, no translation."""
_HEADER_END: Final = len(SIGNATURE) + 4 + 4 + 13 + 4


class Chunk(NamedTuple):
    """One chunk of a PNG file.

    Attributes:
        kind: four letters, as "IHDR".
        data: what it holds.
        sound: whether its check sum is right.
    """

    kind: bytes
    data: bytes
    sound: bool


def is_png(data: bytes) -> bool:
    """Whether bytes begin as a PNG file does."""
    return data.startswith(SIGNATURE)


def is_picture(data: bytes) -> bool:
    """Whether bytes begin as some kind of picture does into which programs turn PNG files.

    The first bytes of JPEG, GIF, WebP, and of what is kept in ISO media files (HEIC,
    AVIF), all from memory.
    """
    return (
        is_png(data)
        or data.startswith((b"\xff\xd8\xff", b"GIF8"))
        or (data.startswith(b"RIFF") and data[8:12] == b"WEBP")
        or data[4:8] == b"ftyp"
    )


def with_setup(png: bytes, setup: bytes) -> bytes:
    """The picture with a set-up's file inside, right behind the header.

    Args:
        png: a PNG file that carries none yet.
        setup: the set-up as the bytes of its own file, UTF-8 without a zero byte.
    """
    body = b"iTXt" + KEYWORD + _PLAIN + setup
    chunk = struct.pack(">I", len(body) - 4) + body + struct.pack(">I", zlib.crc32(body))
    return png[:_HEADER_END] + chunk + png[_HEADER_END:]


def setup_in_png(png: bytes) -> bytes:
    """The set-up that a picture carries, as the bytes of its file.

    Other programs may have packed the text, or moved it into one of the older
    kinds of text chunk; each is read.

    Raises:
        RefusalError: it is no PNG file, is damaged or cut off, or carries no set-up.
    """
    if not is_png(png):
        raise RefusalError(tr(_LOST) if is_picture(png) else tr("it is not a PNG picture"))
    for chunk in chunks(png):
        if chunk.kind in {b"iTXt", b"tEXt", b"zTXt"} and chunk.data.startswith(KEYWORD + b"\0"):
            if not chunk.sound:
                raise RefusalError(tr(_DAMAGED))
            return _text(chunk)
    raise RefusalError(tr(_LOST))


def chunks(png: bytes) -> Iterator[Chunk]:
    """The chunks of a PNG file in their order, up to its end chunk.

    Raises:
        RefusalError: the file ends before its end chunk, or a length is impossible.
    """
    at = len(SIGNATURE)
    while True:
        if at + 8 > len(png):
            raise RefusalError(tr(_CUT_OFF))
        length, kind = struct.unpack_from(">I4s", png, at)
        end = at + 8 + length
        if length > _LONGEST or not kind.isalpha():
            raise RefusalError(tr("the picture is damaged"))
        if end + 4 > len(png):
            raise RefusalError(tr(_CUT_OFF))
        (check,) = struct.unpack_from(">I", png, end)
        yield Chunk(kind, png[at + 8 : end], zlib.crc32(png[at + 4 : end]) == check)
        if kind == b"IEND":
            return
        at = end + 4


def _text(chunk: Chunk) -> bytes:
    """The text of a chunk as UTF-8."""
    rest = chunk.data[len(KEYWORD) + 1 :]
    if chunk.kind == b"tEXt":
        return _from_latin(rest)
    if chunk.kind == b"zTXt":
        return _from_latin(_unpacked(rest[1:]))
    parts = rest[2:].split(b"\0", 2)
    if len(rest) < 2 or rest[0] > 1 or len(parts) < 3:
        raise RefusalError(tr(_DAMAGED))
    return _unpacked(parts[2]) if rest[0] else parts[2]


def _from_latin(text: bytes) -> bytes:
    """UTF-8 from a chunk that should be Latin-1, though programs put UTF-8 there as well."""
    try:
        text.decode("utf-8")
    except UnicodeDecodeError:
        return text.decode("latin-1").encode("utf-8")
    return text


def _unpacked(packed: bytes) -> bytes:
    """Text unpacked, up to the size of the largest set-up file."""
    unpacker = zlib.decompressobj()
    try:
        text = unpacker.decompress(packed, LARGEST)
    except zlib.error as error:
        raise RefusalError(tr(_DAMAGED)) from error
    if unpacker.unconsumed_tail:
        raise RefusalError(
            tr("the set-up in this picture is larger than {size} MB", size=f"{LARGEST / 1e6:g}")
        )
    if not unpacker.eof:
        raise RefusalError(tr(_DAMAGED))
    return text
