"""Starts the program: reads the command line and does what it asks.

Qt is imported only when a window or a picture is wanted, and so late that every
mistake in the command is answered before.
"""

from __future__ import annotations

import gc
import io
import os
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from app.files.parts_file import parts_opened
from app.files.safe_files import FileError, file_errors, shown, write_atomically
from app.files.storage import Document, carrying, newer_notice, older_notice, opened
from app.rider.inputs import FIELD, InputError, model
from app.rider.setup import DEMO, KNOWN_FIELDS, Setup, edited, estimated, kept_as_measured
from app.start.commands import Command, CommandError, understood
from app.words.reasons import reason_phrase
from geometry.reasons import ImpossibleError

DONE, REFUSED, INTERRUPTED = 0, 2, 130
"""Exit codes."""

KNOWN_NAMES = {"figures", *(field.name for field in KNOWN_FIELDS)}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    Args:
        arguments: what follows the program's name; taken from the command line
            when None.

    Returns:
        The exit code: 0, or 2 when the command cannot be followed, which one
        line on standard error explains.
    """
    try:
        return _run(understood(sys.argv[1:] if arguments is None else arguments))
    except (CommandError, InputError, FileError, ImpossibleError) as error:
        print(f"kneeline: {reason_phrase(error)}", file=sys.stderr)
        return REFUSED
    except KeyboardInterrupt:
        return INTERRUPTED


def _run(command: Command) -> int:
    if command.answer:
        return _print(command.answer)
    document = _document(command)
    if command.snapshot is not None:
        _write_snapshot(document, command.snapshot, command.scale)
    if command.numbers:
        return _print(_numbers(document.setup, command) + "\n")
    return _show(document, command.file) if command.wants_window else DONE


def _document(command: Command) -> Document:
    """The set-up asked for, with the changes and the parts asked for, solvable."""
    document = Document(Setup()) if command.file is None else _opened(command.file)
    setup = _changed(document.setup, command.changes)
    if command.parts is not None:
        setup = replace(setup, parts=parts_opened(command.parts).parts)
    model(setup.inputs)
    return replace(document, setup=setup)


def _opened(path: Path) -> Document:
    """The document in a file, with a remark where another version made it."""
    document = opened(path)
    remark = newer_notice(path, document) or older_notice(shown(path), document)
    if remark:
        print(f"kneeline: {remark}", file=sys.stderr)
    return document


def _changed(setup: Setup, changes: dict[str, float | str]) -> Setup:
    """The set-up with what is known of the body first, then what was measured."""
    known = {name: value for name, value in changes.items() if name in KNOWN_NAMES}
    by_hand = {name: value for name, value in changes.items() if name not in KNOWN_NAMES}
    if known:
        setup = estimated(setup, DEMO, **known)
        _say_what_stays(setup)
    return edited(setup, **by_hand)


def _say_what_stays(setup: Setup) -> None:
    """Tell which dimensions a body's height does not touch, since they were measured."""
    kept = [FIELD[name].label.lower() for name in kept_as_measured(setup)]
    if kept:
        print(f"kneeline: stays as it was measured: {', '.join(kept)}", file=sys.stderr)


def _numbers(setup: Setup, command: Command) -> str:
    from app.numbers import as_json  # noqa: PLC0415
    from app.numbers.question import question_of  # noqa: PLC0415

    last = _opened(command.last_season).setup if command.last_season is not None else None
    also = [(path.stem, _opened(path).setup) for path in command.also]
    question = question_of(command.sections, command.asked, last, also)
    return as_json(setup, question, _say_how_far)


def _say_how_far(done: float) -> None:
    """Tell those who wait at a terminal how far a search is, on a line that goes again."""
    if sys.stderr.isatty():
        words = f"kneeline: searching, {100.0 * done:.0f} %" if done < 1.0 else ""
        print(f"\r{words:<40}", end="" if words else "\r", file=sys.stderr, flush=True)


def _show(document: Document, path: Path | None) -> int:
    from app.start.display import why_no_qt, why_no_window  # noqa: PLC0415

    _require(why_no_window(os.environ))
    _require(why_no_qt())
    # Hardly anything is garbage before the window stands, and looking for it takes time.
    gc.disable()
    from app.window.program import open_window  # noqa: PLC0415

    return open_window(document, path)


def _write_snapshot(document: Document, path: Path, scale: float) -> None:
    from app.start.display import why_no_qt  # noqa: PLC0415

    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    _require(why_no_qt())
    from app.features.paper.snapshot import snapshot_png  # noqa: PLC0415

    try:
        picture = snapshot_png(document.setup, scale)
    except MemoryError as error:
        raise CommandError(str(error)) from error
    with file_errors("save", path):
        data = carrying(picture, document)
    write_atomically(path, data)


def _require(obstacle: str) -> None:
    if obstacle:
        raise CommandError(obstacle)


def _print(text: str) -> int:
    """Print a text in UTF-8, which JSON is in on every system.

    A reader that has gone away has read enough, so that is not an error.

    Raises:
        CommandError: the text cannot be written.
    """
    if isinstance(sys.stdout, io.TextIOWrapper):
        # Half a letter, which a file can name, as the escape that JSON knows.
        sys.stdout.reconfigure(encoding="utf-8", errors="backslashreplace")
    try:
        print(text, end="", flush=True)
    except OSError as error:
        # What is left unwritten would be tried again, and complained of, at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if not isinstance(error, BrokenPipeError):
            raise CommandError(f"cannot print: {error.strerror}") from error
    return DONE


if __name__ == "__main__":
    sys.exit(main())
