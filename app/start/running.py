"""What a command leads to: reads the command line and does what it asks.

Qt is imported only when a window or a picture is wanted, and numpy with the numbers, so
late that every mistake in the command is answered before.
"""

from __future__ import annotations

import gc
import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from app.files.safe_files import FileError
from app.files.storage import Document
from app.rider.inputs import InputError
from app.rider.setup import Setup
from app.start import FROM_MENU
from app.start.commands import Command, require_for_one, understood
from app.start.mistakes import CommandError
from app.start.printing import printed, remark, say_how_far
from app.start.reading import (
    STDIN,
    Changes,
    Source,
    parts_in_file,
    read,
    set_up_in,
    sources_of,
)
from app.words.reasons import reason_phrase
from geometry.reasons import ImpossibleError

if TYPE_CHECKING:
    from app.numbers.question import Question

DONE, SOME_FAILED, REFUSED = 0, 1, 2
"""Exit codes."""


def run(arguments: Sequence[str]) -> int:
    """Run one command; the exit code.

    Args:
        arguments: what follows the program's name.
    """
    try:
        return _run(understood(arguments))
    except (CommandError, InputError, FileError, ImpossibleError) as error:
        remark(reason_phrase(error))
        return REFUSED


def _run(command: Command) -> int:
    if command.answer:
        printed(command.answer)
        return DONE
    if command.lines or len(command.files) > 1 or any(map(os.path.isdir, command.files)):
        return _print_lines(command)
    (source,) = sources_of(command.files) or [Source(None)]
    if command.outputs:
        from app.start.outputs import require_free  # noqa: PLC0415

        require_free(command)
    try:
        document = _document(source, command)
    except FileError:
        if not (command.wants_window and FROM_MENU in os.environ):
            raise
        # Opened from the desktop: nobody sees what is printed, so the window tells.
        return _show(Document(Setup()), None, refused=source.path)
    # Before anything is written: a question can contradict itself.
    told = _numbers(document, command) if command.numbers else ""
    if command.outputs:
        from app.start.outputs import write  # noqa: PLC0415

        write(document, command)
    if told:
        printed(told)
    return _show(document, source.path) if command.wants_window else DONE


def _print_lines(command: Command) -> int:
    from app.start.several import Task, print_lines  # noqa: PLC0415

    require_for_one(command)
    task = Task(_changes(command), _question(command))
    sources = sources_of(command.files) or [Source(None)]
    return DONE if print_lines(sources, task) else SOME_FAILED


def _numbers(document: Document, command: Command) -> str:
    from app.numbers import as_json  # noqa: PLC0415

    return as_json(document.setup, _question(command), say_how_far) + "\n"


def _document(source: Source, command: Command) -> Document:
    """The set-up asked for, with the changes and the parts asked for, solvable."""
    document, remarks = read(source, _changes(command))
    for text in remarks:
        remark(text)
    return document


def _changes(command: Command) -> Changes:
    parts = parts_in_file(command.parts) if command.parts is not None else None
    return Changes(command.changes, parts)


def _question(command: Command) -> Question:
    from app.numbers.question import question_of  # noqa: PLC0415

    last = _held_against(command.last_season) if command.last_season is not None else None
    also = [(path.stem, _held_against(path)) for path in command.also]
    return question_of(command.sections, command.asked, last, also, command.only)


def _held_against(path: Path) -> Setup:
    document, remarks = set_up_in(path)
    for text in remarks:
        remark(text)
    return document.setup


def _show(document: Document, path: Path | None, refused: Path | None = None) -> int:
    from app.start.display import why_no_qt, why_no_window  # noqa: PLC0415

    _require(why_no_window(os.environ))
    _require(why_no_qt())
    # Hardly anything is garbage before the window stands, and looking for it takes time.
    gc.disable()
    from app.window.program import open_window  # noqa: PLC0415

    return open_window(document, None if path == STDIN else path, refused)


def _require(obstacle: str) -> None:
    if obstacle:
        raise CommandError(obstacle)
