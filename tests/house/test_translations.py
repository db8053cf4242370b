"""The translations are whole: every text is there, says as much, and is compiled."""

from __future__ import annotations

from string import Formatter

import pytest
from texts import ROOT, TEXTS, as_mo, as_po, current, languages, texts, translated, unmarkable

from app.words.language import NAMES, SOURCE


def places(template: str) -> list[str]:
    """The places that are filled in a template, the unnamed ones by their number."""
    found = [name for _, name, _, _ in Formatter().parse(template) if name is not None]
    return sorted(name or f"unnamed {i}" for i, name in enumerate(found))


def test_there_is_a_catalogue_for_every_language_but_the_source() -> None:
    assert languages() == sorted(set(NAMES) - {SOURCE})


def test_no_text_for_people_is_put_together_where_it_is_to_be_translated() -> None:
    assert not unmarkable()


@pytest.mark.parametrize("language", languages())
def test_every_text_in_the_source_is_translated(language: str) -> None:
    there = translated(language)
    missing = [text for text in texts() if not _said(there.get((text.context, text.message)))]
    assert not missing, "run sh tests/texts.sh and translate what is new"


def _said(message: object) -> bool:
    string = getattr(message, "string", "")
    return bool(string) if isinstance(string, str) else bool(string) and all(string)


@pytest.mark.parametrize("language", languages())
def test_a_translation_fills_the_places_of_its_original(language: str) -> None:
    for message in translated(language).values():
        originals = (message.id,) if isinstance(message.id, str) else message.id
        said = (message.string,) if isinstance(message.string, str) else message.string
        # A single thing may be told without its number.
        allowed = [places(each) for each in originals]
        assert all(places(each) in allowed for each in said), message.id


@pytest.mark.parametrize("language", languages())
def test_a_translation_keeps_the_white_space_at_its_ends(language: str) -> None:
    for message in translated(language).values():
        if isinstance(message.id, str):
            ends = (message.id[:1].isspace(), message.id[-1:].isspace())
            assert ends == (message.string[:1].isspace(), message.string[-1:].isspace()), message.id


@pytest.mark.parametrize("language", languages())
def test_the_compiled_texts_are_those_of_the_catalogue(language: str) -> None:
    catalogue = current(language)
    assert (TEXTS / f"{language}.po").read_bytes() == as_po(catalogue)
    assert (TEXTS / f"{language}.mo").read_bytes() == as_mo(catalogue)


def test_a_text_is_found_wherever_it_is_marked() -> None:
    found = {(text.message, text.file) for text in texts()}
    assert ("Front lift", "app/rider/inputs.py") in found
    assert ("out of its plane", "app/stance/findings.py") in found
    assert ("Undo", "app/window/window.py") in found
    assert all((ROOT / file).is_file() for _, file in found)
