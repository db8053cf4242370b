"""A clip being made, picture by picture: for a window that must not stand still, or at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Final, NamedTuple, TypeAlias

from PySide6.QtGui import QColor, QImage

from app.drawing.theme import LIGHT, Theme, printed
from app.features.clip.encoding import Alike, Colour, Inked, Inks, encoded, foretold, inked, inks_of
from app.features.clip.model import Strip
from app.features.clip.painting import Caption, painted, pixels_of, words_height
from app.frame import Frame
from app.rider.setup import Setup
from geometry.fitting.steps import Steps, finished

SAMPLES: Final = 4
"""Pictures from which the inks are chosen."""
PAIRS: Final = 8
"""Places of a clip at which it is looked how much changes from one picture to the next."""


Drawing: TypeAlias = Callable[[Setup], Frame]
"""Solves and draws a set-up, as a window does or as a command does."""


class Look(NamedTuple):
    """How a clip looks.

    Attributes:
        theme: its colours.
        scale: device pixels to each logical one.
        named: whether the set-up's name stands on it.
    """

    theme: Theme = LIGHT
    scale: float = 1.0
    named: bool = False


class Studio:
    """Paints the pictures of one clip.

    Args:
        strip: what stands on them.
        look: how it is shown.
        on: the day that stands on it.
    """

    def __init__(self, strip: Strip, look: Look, on: date) -> None:
        self.strip = strip
        self._look = look._replace(theme=printed(look.theme))
        self._day = on.isoformat()
        self._name = strip.name if look.named else ""
        # One height for all pictures, so that nothing jumps from one text to the next.
        self._words_height = max(words_height(shot.words) for shot in strip.shots)

    def picture(self, place: int) -> QImage:
        """The picture in a place."""
        shot = self.strip.shots[place]
        share = (place + 1) / len(self.strip.shots)
        caption = Caption(shot.place or self._name, share, self._day, self._words_height)
        return painted(shot, caption, self._look.theme, self._look.scale)

    def inks(self) -> Inks:
        """The inks of all pictures."""
        last = len(self.strip.shots) - 1
        places = sorted({round(last * i / (SAMPLES - 1)) for i in range(SAMPLES)})
        return inks_of([pixels_of(self.picture(place)) for place in places], self._flat())

    def _flat(self) -> list[Colour]:
        """The theme's own colours, the paper's last."""
        theme = self._look.theme
        named = [
            *(theme.rule, theme.faint, theme.quiet, theme.ink, theme.accent, theme.accent_text),
            *(theme.rear, theme.rear_text, theme.front, theme.front_text, theme.paper),
        ]
        colours = map(QColor, dict.fromkeys(named))
        return [(colour.red(), colour.green(), colour.blue()) for colour in colours]

    def foretold(self, ending: str) -> Steps[int]:
        """About how large a file of this ending will be (bytes)."""
        inks = self.inks()
        cuts = sorted(self.strip.cuts - {0})
        others = [place for place in range(1, len(self.strip.shots)) if place not in set(cuts)]
        groups = []
        for places in filter(None, (others, cuts)):
            pairs = []
            for place in _spread(places):
                yield
                pairs.append((self._inked(place - 1, inks), self._inked(place, inks)))
            groups.append(Alike(len(places), pairs))
        yield
        return foretold(ending, self._inked(0, inks), groups, inks)

    def _inked(self, place: int, inks: Inks) -> Inked:
        return inked(pixels_of(self.picture(place)), inks)

    def reel(self) -> Steps[Reel]:
        """All pictures in the inks of the clip; stops after each."""
        inks = self.inks()
        pictures = []
        for place in range(len(self.strip.shots)):
            pictures.append(self._inked(place, inks))
            yield
        return Reel(pictures, inks, self.strip.durations_ms)


def _spread(places: Sequence[int]) -> list[int]:
    """Some of these places, from all over them."""
    count = len(places)
    return [places[i] for i in sorted({int(count * (k + 0.5) / PAIRS) for k in range(PAIRS)})]


class Reel(NamedTuple):
    """The pictures of a clip, ready to be put together; knows nothing of Qt.

    Attributes:
        pictures: one after another.
        inks: of all of them.
        durations_ms: how long each is there.
    """

    pictures: list[Inked]
    inks: Inks
    durations_ms: tuple[int, ...]

    def file(self, ending: str) -> bytes:
        """The clip as the bytes of a file, one of :data:`ENDINGS`."""
        return encoded(ending, self.pictures, self.inks, self.durations_ms)


def clip_file(strip: Strip, look: Look, ending: str, on: date) -> bytes:
    """A clip as the bytes of a file, made at once.

    Raises:
        MemoryError: there is no memory for a picture that large.
    """
    return finished(Studio(strip, look, on).reel()).file(ending)
