"""Texts for people in the source, and the catalogues that translate them.

As a program it brings the catalogues up to date: new texts are added without a
translation, those that are gone are kept at the end of the file until they come
back, and the compiled files are written::

    sh tests/texts.sh
"""

from __future__ import annotations

import ast
import io
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final, NamedTuple

from babel.messages.catalog import Catalog, Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

ROOT: Final = Path(__file__).parents[2]
TEXTS: Final = ROOT / "assets" / "texts"

TEXTS_OF: Final = {
    "tr": (0,),
    "msgid": (0,),
    "ntr": (0, 1),
    "Field": (2, 7),
    "adjustable": (2, 7),
    "Guide": (1, 2, 3),
    "_entry": (0, 1),
}
"""Calls whose arguments at these places are texts for people.

``ntr`` has a singular and a plural; the others may give a context after the text.
"""


class Text(NamedTuple):
    """One text for people in the source.

    Attributes:
        message: in English; the singular where there are two.
        plural: in English; empty where there is none.
        context: tells texts apart that are alike in English.
        file: where it stands.
    """

    message: str
    plural: str
    context: str
    file: str


def texts() -> list[Text]:
    """All texts marked in the source, each once for every file in which it stands."""
    found = (
        text
        for path in sorted((ROOT / "app").rglob("*.py"))
        for text in _texts_of(ast.parse(path.read_text("utf-8")), path.relative_to(ROOT).as_posix())
    )
    return list(dict.fromkeys(found))


def unmarkable() -> list[str]:
    """Calls of ``tr`` and its like with texts put together on the spot: none can translate them."""
    return [
        f"{path.relative_to(ROOT).as_posix()}:{call.lineno}"
        for path in sorted((ROOT / "app").rglob("*.py"))
        for call in _calls(ast.parse(path.read_text("utf-8")))
        if any(isinstance(each, ast.JoinedStr | ast.BinOp) for each in _at_places(call))
    ]


def _calls(tree: ast.AST) -> Iterator[ast.Call]:
    calls = [each for each in ast.walk(tree) if isinstance(each, ast.Call)]
    yield from sorted(
        (each for each in calls if _name(each) in TEXTS_OF),
        key=lambda each: (each.lineno, each.col_offset),
    )


def _name(call: ast.Call) -> str:
    """What is called, by its last name: "tr" for ``self.tr`` as well."""
    called = call.func
    return called.attr if isinstance(called, ast.Attribute) else getattr(called, "id", "")


def _at_places(call: ast.Call) -> list[ast.expr]:
    return [call.args[i] for i in TEXTS_OF[_name(call)] if i < len(call.args)]


def _texts_of(tree: ast.AST, file: str) -> Iterator[Text]:
    for call in _calls(tree):
        said = [each.value for each in _at_places(call) if _is_text(each)]
        if _name(call) == "ntr" and len(said) == 2:
            yield Text(said[0], said[1], "", file)
        elif _name(call) in {"tr", "msgid"}:
            contexts = [each.value for each in call.args[1:2] if _is_text(each)]
            yield from (Text(each, "", "".join(contexts), file) for each in said if each)
        else:
            yield from (Text(each, "", "", file) for each in said if each)


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


class _Catalog(Catalog):
    """A catalogue whose head says what its readers need and nothing that changes by itself."""

    @property
    def mime_headers(self) -> list[tuple[str, str]]:
        return [
            ("Language", str(self.locale_identifier)),
            ("MIME-Version", "1.0"),
            ("Content-Type", "text/plain; charset=utf-8"),
            ("Content-Transfer-Encoding", "8bit"),
            ("Plural-Forms", self.plural_forms),
        ]


def languages() -> list[str]:
    """The languages into which the program is translated."""
    return sorted(path.stem for path in TEXTS.glob("*.po"))


def translated(language: str) -> dict[tuple[str, str], Message]:
    """What stands in a catalogue, by context and message, with what is out of use."""
    with (TEXTS / f"{language}.po").open("rb") as file:
        read = read_po(file, locale=language)
    all_of_them = [*read, *read.obsolete.values()]
    return {(each.context or "", _first(each)): each for each in all_of_them if each.id}


def _first(message: Message) -> str:
    return message.id if isinstance(message.id, str) else message.id[0]


def current(language: str) -> Catalog:
    """The catalogue as the source asks for it, with every translation there is."""
    before = translated(language)
    catalogue = _Catalog(locale=language, charset="utf-8", fuzzy=False)
    catalogue.header_comment = f"# Kneeline's texts in {language!r}; see DEVELOPERS.md."
    for text in texts():
        key = text.context, text.message
        said = before[key].string if key in before else ""
        both = (text.message, text.plural) if text.plural else text.message
        if isinstance(said, str) == bool(text.plural):
            said = ""  # a text that has got another form for many, or lost it, is a new one
        catalogue.add(both, said, context=text.context or None, locations=[(text.file, 0)])
    used = {(each.context or "", _first(each)) for each in catalogue if each.id}
    for key, message in before.items():
        if key not in used and message.string:
            catalogue.obsolete[key[::-1] if key[0] else key[1]] = message
    return catalogue


def as_po(catalogue: Catalog) -> bytes:
    """A catalogue as the file that translators edit."""
    file = io.BytesIO()
    write_po(file, catalogue, width=100, include_lineno=False)
    return file.getvalue()


def as_mo(catalogue: Catalog) -> bytes:
    """A catalogue as the file that the program reads; what is not translated is left out."""
    file = io.BytesIO()
    write_mo(file, catalogue)
    return file.getvalue()


def main() -> None:
    """Bring every catalogue up to date and say what is left to translate."""
    for language in languages():
        catalogue = current(language)
        (TEXTS / f"{language}.po").write_bytes(as_po(catalogue))
        (TEXTS / f"{language}.mo").write_bytes(as_mo(catalogue))
        open_ones = [each for each in catalogue if each.id and not each.string]
        print(f"{language}: {len(catalogue)} texts, {len(open_ones)} not translated")


if __name__ == "__main__":
    sys.exit(main())
