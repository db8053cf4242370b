"""A clip of a set-up, made without a window."""

from __future__ import annotations

from datetime import date

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

from app.features.clip.making import Look, clip_file
from app.features.clip.model import Extras, film_of, strip_of
from app.features.player.model import Sweep
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.lettering import load_fonts
from app.rider.setup import Setup


def clip_alone(
    setup: Setup,
    ending: str,
    over: tuple[str, float, float],
    seconds: float,
    on: date | None = None,
) -> bytes:
    """A sweep as the bytes of a file that moves; starts Qt where it is not running.

    Args:
        setup: whose input moves.
        ending: of the file.
        over: the input, where it begins and where it ends.
        seconds: how long the clip takes.
        on: the day that stands on it; today when None.

    Raises:
        InputError: nothing would move.
        ValueError: the leg dimensions contradict each other on the way.
        MemoryError: there is no memory for it.
    """
    app = QGuiApplication.instance() or QApplication(["kneeline"])
    load_fonts(ASSETS / "fonts")
    film = film_of(setup, Sweep(*over), Extras(seconds))
    data = clip_file(strip_of(film, frame), Look(), ending, on or date.today())
    del app
    return data
