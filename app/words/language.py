"""Texts in the user's language.

English is the source, and every English text is its own key in the catalogues
``assets/texts/*.mo``.  As long as English is spoken no file is read, and
:func:`tr` does no more than fill the places of its template.

Translate at the point of display and never at import: tables keep their English
texts, marked by :func:`msgid`, until they are shown.  What is data stays English:
keys, names on the command line, everything in files.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from gettext import GNUTranslations

SOURCE: Final = "en"
"""The language in which the program is written."""
NAMES: Final = {SOURCE: "English", "de": "Deutsch"}
"""The languages by their codes, each by its own name."""
_DECIMAL_MARKS: Final = {"de": ","}
_GROUPING_MARKS: Final = {"de": "."}
_CAPITAL_NOUNS: Final = frozenset({"de"})


@dataclass(slots=True)
class _Spoken:
    """The language in force; there is one in a running program."""

    code: str = SOURCE
    catalogue: GNUTranslations | None = None


_spoken: Final = _Spoken()


def spoken() -> str:
    """The code of the language in force."""
    return _spoken.code


def choose(code: str, texts: Path) -> str:
    """Speak a language from now on.

    Args:
        code: one of :data:`NAMES`; any other counts as English.
        texts: the folder of the catalogues.

    Returns:
        The language in force: English where the catalogue is missing or broken.
    """
    catalogue = None if code == SOURCE or code not in NAMES else _catalogue(texts / f"{code}.mo")
    _spoken.code = SOURCE if catalogue is None else code
    _spoken.catalogue = catalogue
    return _spoken.code


def _catalogue(path: Path) -> GNUTranslations | None:
    """The texts in a file, or None where they cannot be had."""
    # Not needed for English, and so not imported for it.
    from gettext import GNUTranslations  # noqa: PLC0415

    try:
        with path.open("rb") as file:
            return GNUTranslations(file)
    except Exception:  # the reader checks little, and what it meets in broken bytes is endless
        return None


def best_of(wanted: Iterable[str]) -> str:
    """The first language asked for that there is, or else English.

    Args:
        wanted: names as systems give them, the best liked first: "de-AT", "de_DE.UTF-8".
    """
    for name in wanted:
        code = name.replace("_", "-").partition("-")[0].casefold()
        if code in NAMES:
            return code
    return SOURCE


def msgid(message: str, context: str = "", /) -> str:  # noqa: ARG001
    """The message itself, marked for the catalogues: it is translated where it is shown.

    Args:
        message: English text.
        context: tells messages apart that are alike in English; the same must be
            given to :func:`tr`.
    """
    return message


def tr(message: str, context: str = "", /, **values: object) -> str:
    """A message in the language in force.

    Args:
        message: English text, a template if there are values: "from {low} to {high}".
        context: tells messages apart that are alike in English.
        values: what the places named in the template are filled with, as text;
            numbers are put into words by :mod:`app.words.units` and :mod:`app.words.sentences`.
    """
    catalogue = _spoken.catalogue
    if catalogue is None:
        return message.format(**values) if values else message
    return _filled(_translated(catalogue, message, context), message, values)


def ntr(one: str, many: str, count: int, /, **values: object) -> str:
    """A message about so many things, which can be named as ``{count}``.

    Args:
        one: English template for a single thing.
        many: English template for none or several.
        count: of the things.
        values: what the other places are filled with.
    """
    values["count"] = count
    english = one if count == 1 else many
    catalogue = _spoken.catalogue
    said = english if catalogue is None else catalogue.ngettext(one, many, count)
    return _filled(said, english, values)


@contextmanager
def in_english() -> Iterator[None]:
    """Speak English while something is written that stays English, whoever wrote it: a file."""
    before = _spoken.code, _spoken.catalogue
    _spoken.code, _spoken.catalogue = SOURCE, None
    try:
        yield
    finally:
        _spoken.code, _spoken.catalogue = before


@contextmanager
def speaking(code: str, texts: Path) -> Iterator[None]:
    """Speak a language while something is written in it; arguments as in :func:`choose`."""
    before = _spoken.code, _spoken.catalogue
    choose(code, texts)
    try:
        yield
    finally:
        _spoken.code, _spoken.catalogue = before


def with_decimal_mark(figure: str) -> str:
    """A figure written with a decimal point, as the language in force writes it."""
    return figure.replace(".", _DECIMAL_MARKS.get(_spoken.code, "."))


def with_grouping_mark(figure: str) -> str:
    """A whole figure grouped with commas, as the language in force groups it: "12.480"."""
    return figure.replace(",", _GROUPING_MARKS.get(_spoken.code, ","))


def within(label: str) -> str:
    """A label as it stands within a sentence: small, but for languages with capital nouns."""
    return label if _spoken.code in _CAPITAL_NOUNS else label.lower()


def _translated(catalogue: GNUTranslations, message: str, context: str) -> str:
    if context:
        return catalogue.pgettext(context, message)
    # The catalogue's own description stands under the empty message.
    return catalogue.gettext(message) if message else message


def _filled(said: str, english: str, values: dict[str, object]) -> str:
    """A template with its places filled; the English one where the other has gone wrong."""
    if not values:
        return said
    try:
        return said.format(**values)
    except (KeyError, IndexError, ValueError, AttributeError):
        return english.format(**values)
