"""What is to be set for both feet, as it stands on pages and as it is spoken."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from app.qt.literal import Markup, joined, markup
from app.qt.themes import current_theme
from app.words.language import msgid, tr

FEET: Final = {"front": msgid("Front foot."), "rear": msgid("Rear foot.")}
"""How what is said of each foot begins."""

_FOOT: Final = "<p><b style='color:{ink}'>{foot}</b> {words}</p>"

Settings = Sequence[tuple[str, str]]
"""For "front" and "rear", what is to be set."""


def feet_html(settings: Settings) -> Markup:
    """A paragraph for each foot, its name in the foot's colour."""
    return joined(
        markup(_FOOT, ink=current_theme().leg_text(foot), foot=tr(FEET[foot]), words=words)
        for foot, words in settings
    )


def paragraphs(texts: Iterable[str]) -> Markup:
    """A paragraph for each of the texts that says something."""
    return joined(markup("<p>{words}</p>", words=words) for words in texts if words)


def feet_words(settings: Settings) -> str:
    """The same without marks."""
    return " ".join(f"{tr(FEET[foot])} {words}" for foot, words in settings)
