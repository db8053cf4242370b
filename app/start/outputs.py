"""The files that a command asks for: made all before the first is written, each whole or not."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any

from app.files.safe_files import RefusalError, file_errors, shown, write_atomically
from app.files.storage import Document, as_copy, bytes_of, carrying
from app.rider.inputs import InputError
from app.start.commands import Command
from app.start.mistakes import CommandError
from app.start.named_values import likeliest
from app.start.printing import remark
from app.words.language import speaking
from app.words.reasons import reason_phrase


def require_free(command: Command) -> None:
    """Refuse to overwrite anything, unless that is asked for.

    Raises:
        CommandError: names the first file concerned.
    """
    paths = [path for some in command.outputs.values() for path in some]
    real = [os.path.realpath(path) for path in paths]
    for i, path in enumerate(paths):
        if real[i] in real[:i]:
            raise CommandError(f"{shown(path)} cannot be written twice; give another name")
        if not command.force and os.path.lexists(path):
            raise CommandError(
                f"{shown(path)} is there already; give another name, or --force to overwrite it"
            )


def write(document: Document, command: Command) -> None:
    """Write all files that a command asks for.

    Raises:
        FileError: one cannot be made or written.
        CommandError: Qt cannot be loaded, or there is no memory for the picture.
    """
    made: list[tuple[Path, bytes]] = []
    if command.save is not None:
        with file_errors("save", command.save):
            own = as_copy(document) if document.read_only else document
            made.append((command.save, bytes_of(own)))
    made += [(path, _wedge(document, foot, path)) for foot, path in command.wedges]
    if command.web is not None:
        made.append((command.web, _web_page(document, command)))
    if any((command.sheet, command.snapshot, command.handout, command.clip)):
        made += _painted(document, command)
    for path, data in made:
        write_atomically(path, data)


def _wedge(document: Document, foot: str, path: Path) -> bytes:
    from app.features.wedge.stl_dxf import wedge_bytes  # noqa: PLC0415
    from app.features.wedge.words import MILLIMETRES  # noqa: PLC0415
    from app.numbers.hardware import wedge_for  # noqa: PLC0415

    try:
        part = wedge_for(document.setup, foot)
    except ValueError as error:
        with file_errors("save", path):
            raise RefusalError(reason_phrase(error, MILLIMETRES)) from error
    if not part.wedge.lift and not part.wedge.cant:
        remark(f"the {foot} foot asks for no lift and no cant: {shown(path)} is a flat plate")
    return wedge_bytes(path, part)


def _web_page(document: Document, command: Command) -> bytes:
    from app.features.webpage.document import web_page  # noqa: PLC0415
    from app.files.resources import ASSETS  # noqa: PLC0415

    with speaking(command.language, ASSETS / "texts"):
        return web_page(document.setup, date.today(), telling=command.telling)


def _painted(document: Document, command: Command) -> list[tuple[Path, bytes]]:
    """What is painted, without a screen."""
    app = _qt()
    made = []
    if command.sheet is not None:
        from app.features.paper.sheet_alone import sheet_pdf  # noqa: PLC0415

        made.append((command.sheet, sheet_pdf(document.setup)))
    if command.lesson:
        made += _lesson(command)
    elif command.handout is not None:
        from app.features.paper.sheet_alone import handout_alone  # noqa: PLC0415

        made.append((command.handout, handout_alone(document.setup)))
    if command.clip is not None and command.over is not None and not command.lesson:
        made.append((command.clip, _clip(document, command.clip, command.over, command.seconds)))
    if command.snapshot is not None:
        made.append((command.snapshot, _snapshot(document, command.snapshot, command)))
    del app
    return made


def _qt() -> Any:
    """Qt, running without a screen.

    Raises:
        CommandError: it cannot be loaded.
    """
    from app.start.display import why_no_qt  # noqa: PLC0415

    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    if obstacle := why_no_qt():
        raise CommandError(obstacle)
    from PySide6.QtWidgets import QApplication  # noqa: PLC0415

    return QApplication.instance() or QApplication(["kneeline"])


def _lesson(command: Command) -> list[tuple[Path, bytes]]:
    """The lesson as what is wanted of it, in the language that is wanted.

    Raises:
        FileError: the lesson cannot be read, or shows nothing.
        CommandError: there is no such lesson, or no memory for the clip.
    """
    from app.features.lessons.alone import lesson_clip, lesson_named, lesson_pages  # noqa: PLC0415
    from app.files.resources import ASSETS, OUR_LESSONS  # noqa: PLC0415

    name = command.lesson
    if name not in OUR_LESSONS and not os.path.exists(name):
        advice = likeliest(name, OUR_LESSONS) or f"there are {', '.join(OUR_LESSONS)}"
        raise CommandError(f"there is no lesson, and no file, named {shown(Path(name))}; {advice}")
    lesson, young = lesson_named(name), command.for_children
    made = []
    with speaking(command.language, ASSETS / "texts"):
        if command.clip is not None:
            with _refused(command.clip):
                ending = command.clip.suffix.lower()
                made.append((command.clip, lesson_clip(lesson, ending, young=young)))
        if command.handout is not None:
            with _refused(command.handout):
                made.append((command.handout, lesson_pages(lesson, young=young)))
    return made


@contextmanager
def _refused(path: Path) -> Iterator[None]:
    """Say of which file it is that something cannot be made.

    Raises:
        FileError: with the reason.
        CommandError: there is no memory for it.
    """
    try:
        yield
    except ValueError as error:
        with file_errors("save", path):
            raise RefusalError(reason_phrase(error)) from error
    except MemoryError as error:
        raise CommandError(str(error) or "there is no memory for the clip") from error


def _clip(document: Document, path: Path, over: tuple[str, float, float], seconds: float) -> bytes:
    from app.features.clip.alone import clip_alone  # noqa: PLC0415

    with _refused(path):
        try:
            return clip_alone(document.setup, path.suffix.lower(), over, seconds)
        except InputError as error:
            raise CommandError(f"--over: {error}") from error


def _snapshot(document: Document, path: Path, command: Command) -> bytes:
    from app.features.paper.snapshot import snapshot_png  # noqa: PLC0415
    from app.rider.sharing import without_rider  # noqa: PLC0415

    rider = not command.without_rider
    try:
        picture = snapshot_png(document.setup, command.scale, rider=rider)
    except MemoryError as error:
        raise CommandError(str(error)) from error
    with file_errors("save", path):
        return carrying(picture, document if rider else Document(without_rider(document.setup)))
