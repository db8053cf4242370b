"""A lesson taken home without a window."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from PySide6.QtCore import QLocale

from app.features.clip.making import Look, clip_file
from app.features.lessons.film import lesson_strip
from app.features.lessons.handout import lesson_pdf
from app.features.lessons.model import Going
from app.features.paper.fit_sheet import usual_paper
from app.features.paper.sheet_alone import ready_to_paint
from app.files.lesson_file import lesson_opened
from app.files.resources import OUR_LESSONS, lessons
from app.rider.lessons import Lesson


def lesson_named(name: str) -> Lesson:
    """One of our lessons by its name, or else the one in a file.

    Raises:
        FileError: the file cannot be read, or holds no sound lesson.
    """
    ours = dict(zip(OUR_LESSONS, lessons(), strict=True))
    return lesson_opened(ours.get(name, Path(name))).lesson


def lesson_clip(lesson: Lesson, ending: str, *, young: bool, on: date | None = None) -> bytes:
    """A lesson as the bytes of a file that moves; starts Qt where it is not running.

    Args:
        lesson: what is shown.
        ending: of the file.
        young: whether it is told the way it is told to children.
        on: the day that stands on it; today when None.

    Raises:
        ValueError: it cannot be shown, with the reason.
        MemoryError: there is no memory for it.
    """
    app = ready_to_paint()
    strip = lesson_strip(Going(lesson), young=young)
    data = clip_file(strip, Look(), ending, on or date.today())
    del app
    return data


def lesson_pages(lesson: Lesson, *, young: bool, on: date | None = None) -> bytes:
    """A lesson as the bytes of a PDF file, on the paper that is usual here, in the same way."""
    app = ready_to_paint()
    day = (on or date.today()).isoformat()
    data = lesson_pdf(Going(lesson), usual_paper(QLocale.system()), day, young=young)
    del app
    return data
