"""Brings the chosen language to Qt: one catalogue for the program, Qt's own for its buttons."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from app.files.resources import ASSETS
from app.words.language import SOURCE, best_of, choose, tr

SYSTEM = "system"
"""Speak as the desktop does."""


class Translator(QTranslator):
    """Answers ``self.tr`` and its like from the program's catalogue, whatever their class."""

    def isEmpty(self) -> bool:  # noqa: N802
        return False

    def translate(
        self,
        _context: str,
        source: str,
        /,
        disambiguation: str | None = None,
        _n: int = -1,
    ) -> str | None:
        """The translation; None, which lets Qt look further, where there is none."""
        said = tr(source, disambiguation or "")
        return None if said == source else said


def speak(app: QCoreApplication, wanted: str) -> str:
    """Show all texts made from now on in a language; what is shown already stays as it is.

    Args:
        app: the running application.
        wanted: a code of :data:`app.words.language.NAMES`, or :data:`SYSTEM`.

    Returns:
        The language in force.
    """
    liked = QLocale.system().uiLanguages() if wanted == SYSTEM else [wanted]
    code = choose(best_of(liked), ASSETS / "texts")
    for former in app.findChildren(QTranslator):
        app.removeTranslator(former)
        former.deleteLater()
    if code != SOURCE:
        app.installTranslator(_buttons(app, code))
        app.installTranslator(Translator(app))
    return code


def _buttons(app: QCoreApplication, code: str) -> QTranslator:
    """The texts of Qt's own dialogs; empty where this Qt came without them."""
    texts = QTranslator(app)
    texts.load(f"qtbase_{code}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath))
    return texts
