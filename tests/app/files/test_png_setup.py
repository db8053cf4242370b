"""Pictures that carry their set-up: what goes in comes out, and nothing else is believed."""

from __future__ import annotations

import struct
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.files.png_setup import (
    KEYWORD,
    SIGNATURE,
    chunks,
    is_picture,
    setup_in_png,
    with_setup,
)
from app.files.safe_files import LARGEST, RefusalError


def chunk(kind: bytes, data: bytes) -> bytes:
    """A chunk by PNG (Third Edition), 5.3: length, kind, data, CRC over kind and data."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


HEADER = chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
REST = chunk(b"IDAT", zlib.compress(b"\0\xff")) + chunk(b"IEND", b"")
PLAIN = SIGNATURE + HEADER + REST
TEXT = '{"name": "Ærø −3.5°"}\n'.encode()
NAMED = KEYWORD + b"\0"


def picture(*extra: bytes) -> bytes:
    return SIGNATURE + HEADER + b"".join(extra) + REST


def refused(png: bytes) -> str:
    with pytest.raises(RefusalError) as error:
        setup_in_png(png)
    return str(error.value)


@given(st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"])))
def test_whatever_text_goes_in_comes_out_byte_for_byte(text: str) -> None:
    assert setup_in_png(with_setup(PLAIN, text.encode())) == text.encode()


def test_the_picture_itself_stays_as_it_was_around_the_new_chunk() -> None:
    carrying = with_setup(PLAIN, TEXT)
    assert [each.kind for each in chunks(carrying)] == [b"IHDR", b"iTXt", b"IDAT", b"IEND"]
    assert all(each.sound for each in chunks(carrying))
    added = len(carrying) - len(PLAIN)
    assert carrying[:33] + carrying[33 + added :] == PLAIN


@pytest.mark.parametrize(
    "moved",
    [
        chunk(b"iTXt", NAMED + b"\1\0en\0\0" + zlib.compress(TEXT)),
        chunk(b"iTXt", NAMED + b"\0\0\0set-up\0" + TEXT),
        chunk(b"tEXt", NAMED + TEXT),
        chunk(b"zTXt", NAMED + b"\0" + zlib.compress(TEXT)),
    ],
)
def test_a_text_that_another_program_packed_or_moved_is_read(moved: bytes) -> None:
    assert setup_in_png(picture(chunk(b"tEXt", b"Title\0a stance"), moved)) == TEXT


def test_latin_letters_in_an_old_text_chunk_are_read_as_such() -> None:
    assert setup_in_png(picture(chunk(b"tEXt", NAMED + b'"\xc6r\xf8"'))) == '"Ærø"'.encode()


@pytest.mark.parametrize("others", [b"", chunk(b"tEXt", b"kneeline-setup-2\0{}")])
def test_a_picture_without_a_set_up_says_who_may_have_dropped_it(others: bytes) -> None:
    assert "carries no set-up" in refused(picture(others))
    assert "another program has dropped" in refused(picture(others))


def test_one_changed_bit_anywhere_in_the_set_up_is_noticed() -> None:
    carrying = with_setup(PLAIN, TEXT)
    for at in range(33 + 8 + len(NAMED), len(carrying) - len(REST)):
        damaged = bytearray(carrying)
        damaged[at] ^= 1
        assert refused(bytes(damaged)) == "the set-up in this picture is damaged"


@pytest.mark.parametrize("left", range(8, 33 + 70))
def test_a_picture_cut_off_before_the_end_of_its_set_up_says_so(left: int) -> None:
    assert refused(with_setup(PLAIN, b" " * 200)[:left]) == "the picture is cut off"


def test_a_picture_cut_off_behind_its_set_up_still_gives_it() -> None:
    assert setup_in_png(with_setup(PLAIN, TEXT)[: -len(REST)]) == TEXT


@pytest.mark.parametrize(
    "data",
    [b"\0", b"", b"\1\0\0\0not packed", b"\1\0\0\0" + zlib.compress(TEXT)[:-5], b"\2\0\0\0{}"],
)
def test_a_sound_chunk_with_senseless_contents_is_damaged(data: bytes) -> None:
    assert refused(picture(chunk(b"iTXt", NAMED + data))) == "the set-up in this picture is damaged"


def test_a_text_that_unpacks_to_something_huge_is_not_unpacked_whole() -> None:
    bomb = chunk(b"zTXt", NAMED + b"\0" + zlib.compress(b" " * (LARGEST + 1)))
    assert refused(picture(bomb)) == "the set-up in this picture is larger than 5 MB"


def test_impossible_lengths_and_kinds_are_damage() -> None:
    assert refused(SIGNATURE + b"\xff\xff\xff\xffIHDR" + b"\0" * 50) == "the picture is damaged"
    assert refused(SIGNATURE + b"\0\0\0\0\0\0\0\0" + b"\0" * 50) == "the picture is damaged"


@pytest.mark.parametrize(
    "data", [b"\xff\xd8\xff\xe0 JFIF", b"GIF89a", b"RIFF\0\0\0\0WEBP", b"\0\0\0 ftypheic"]
)
def test_a_picture_turned_into_another_kind_says_that_the_set_up_is_lost(data: bytes) -> None:
    assert is_picture(data)
    assert "another program has dropped the set-up" in refused(data)


@pytest.mark.parametrize("data", [b"", b"\x89PNG", b"{}", b"RIFF\0\0\0\0WAVE"])
def test_what_is_no_png_is_refused(data: bytes) -> None:
    assert not is_picture(data)
    assert refused(data) == "it is not a PNG picture"


@given(st.binary(max_size=200))
def test_no_bytes_behind_a_signature_do_more_than_be_refused(rest: bytes) -> None:
    with pytest.raises(RefusalError):
        setup_in_png(SIGNATURE + rest)
