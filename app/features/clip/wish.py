"""What one wishes of a clip, and what it comes to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final, NamedTuple

from PySide6.QtGui import QImage

from app.drawing.theme import Theme
from app.features.clip.encoding import ENDINGS
from app.features.clip.making import Drawing, Look, Reel, Studio
from app.features.clip.model import Extras, Strip, film_of, strip_of, usual_seconds
from app.features.player.choosing import OWN, SWEEP, sweep_usual, titles
from app.features.player.examples import EXAMPLES
from app.features.player.model import Played, Sweep, comes_back
from app.features.player.words import NOT_MEASURED
from app.files.safe_files import write_atomically
from app.qt.painting.page_painting import bytes_of
from app.rider.setup import Setup
from app.words.language import tr
from app.words.lengths import Lengths
from geometry.fitting.steps import Steps

NUMBERED: Final = "numbered"
"""In place of an ending: each picture is a file of its own."""
TOLD: Final = "told"
"""Stands for what is told, a lesson, among what can be shown."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What one wishes of a clip.

    Attributes:
        kind: what moves, a key of :func:`app.features.player.choosing.titles`; or
            :data:`TOLD`.
        sweep: the input that moves, where it is one.
        seconds: how long it is; as long as what moves when None.
        back: whether it goes back to where it began; None for whatever suits what moves.
        ending: of the file, one of :data:`app.features.clip.encoding.ENDINGS`; or
            :data:`NUMBERED`.
        scale: device pixels to each logical one.
        named: whether the set-up's name stands on it.
    """

    kind: str
    sweep: Sweep
    seconds: float | None = None
    back: bool | None = None
    ending: str = ENDINGS[0]
    scale: float = 1.0
    named: bool = False

    def played(self, setup: Setup) -> Played | None:
        """What moves; None for what is told, and while there is no movement of the rider's own."""
        if self.kind == TOLD:
            return None
        if self.kind == SWEEP:
            return self.sweep
        if self.kind == OWN:
            return setup.movement if setup.movement.postures else None
        return EXAMPLES[self.kind].movement

    def goes_back(self, played: Played) -> bool:
        """Whether it goes back to where it began."""
        return not comes_back(played) if self.back is None else self.back

    def lasts(self, played: Played) -> float:
        """How long it is (s)."""
        if self.seconds is not None:
            return self.seconds
        return usual_seconds(played, back=self.goes_back(played))


def wish_of(setup: Setup, kind: str = "", sweep: Sweep | None = None) -> Wish:
    """What one begins with: what is chosen already, or a sweep of the front binding angle."""
    return Wish(kind or SWEEP, sweep or sweep_usual(setup.inputs, "front_angle_deg"))


@dataclass(frozen=True, slots=True)
class Seen:
    """What a wish comes to.

    Attributes:
        picture: from the middle of the clip.
        count: of its pictures.
        size: of its file, or of all of them, foretold (bytes).
    """

    picture: QImage
    count: int
    size: int


class Told(NamedTuple):
    """What is told instead of a set-up that moves.

    Attributes:
        title: what it is called.
        strip: gives its pictures; raises ValueError where they cannot be had, with the reason.
    """

    title: str
    strip: Callable[[], Strip]


@dataclass(frozen=True, slots=True)
class Subject:
    """Whose clip it is, and how that is shown.

    Attributes:
        setup: whose inputs move.
        draw: solves and draws a set-up.
        theme: the colours.
        lengths: writes lengths.
        told: what is told, where it is not the set-up that moves.
    """

    setup: Setup
    draw: Drawing
    theme: Theme
    lengths: Lengths
    told: Told | None = None

    def titles(self) -> dict[str, str]:
        """What can be shown, by its key."""
        return titles() if self.told is None else {TOLD: self.told.title}

    def studio(self, wish: Wish) -> Studio:
        """What paints the clip that is wished for.

        Raises:
            ValueError: it cannot be made, with the reason.
        """
        return Studio(self.strip(wish), Look(self.theme, wish.scale, wish.named), date.today())

    def strip(self, wish: Wish) -> Strip:
        """What the clip that is wished for shows.

        Raises:
            ValueError: it cannot be made, with the reason.
        """
        if self.told is not None:
            return self.told.strip()
        played = wish.played(self.setup)
        if played is None:
            why = tr("there is no movement of your own yet; make one on the page Motion")
            raise ValueError(why)
        extras = Extras(
            seconds=wish.lasts(played),
            back=wish.goes_back(played),
            title=titles()[wish.kind],
            about="" if wish.kind == SWEEP else tr(NOT_MEASURED),
        )
        return strip_of(film_of(self.setup, played, extras, self.lengths), self.draw)

    def seen(self, wish: Wish) -> Steps[Seen]:
        """What the wish comes to, in short steps.

        Raises:
            ValueError: it cannot be made, with the reason.
            MemoryError: there is no memory for it.
        """
        studio = self.studio(wish)
        yield
        count = len(studio.strip.shots)
        picture = studio.picture(count // 2)
        yield
        if wish.ending == NUMBERED:
            return Seen(picture, count, count * len(png_of(picture)))
        size = yield from studio.foretold(wish.ending)
        return Seen(picture, count, size)

    def reel(self, wish: Wish) -> Steps[Reel]:
        """The pictures of a file that moves, in short steps; raises what :meth:`seen` does."""
        studio = self.studio(wish)
        yield
        return (yield from studio.reel())

    def numbered(self, wish: Wish) -> Steps[list[bytes]]:
        """All pictures as PNG files, in short steps; raises what :meth:`seen` does."""
        studio = self.studio(wish)
        yield
        files = []
        for place in range(len(studio.strip.shots)):
            files.append(png_of(studio.picture(place)))
            yield
        return files


def png_of(picture: QImage) -> bytes:
    """A picture as the bytes of a PNG file."""
    data = bytes_of(lambda device: picture.save(device, "PNG"))  # type: ignore[call-overload]
    if not data:
        raise OSError(tr("the picture cannot be turned into a PNG file"))
    return data


def numbered_paths(folder: Path, name: str, count: int) -> list[Path]:
    """The files of numbered pictures, so that they are listed in their order."""
    digits = max(3, len(str(count)))
    return [folder / f"{name} {place + 1:0{digits}}.png" for place in range(count)]


def write_all(
    paths: list[Path], files: list[bytes], write: Callable[[Path, bytes], object] = write_atomically
) -> None:
    """Write all files, or leave none of those behind that were not there before.

    Raises:
        FileError: one cannot be written.
    """
    made: list[Path] = []
    try:
        for path, data in zip(paths, files, strict=True):
            new = not path.exists()
            write(path, data)
            if new:
                made.append(path)
    except BaseException:
        for path in made:
            path.unlink(missing_ok=True)
        raise
