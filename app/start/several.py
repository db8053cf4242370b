"""Several set-ups at once: a line of JSON for each, in their order, worked out on all cores."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Generator, Sequence
from contextlib import closing
from typing import TYPE_CHECKING, Final, NamedTuple

from app.files.safe_files import FileError, shown
from app.start.mistakes import CommandError
from app.start.printing import passing, printed, remark
from app.start.reading import Changes, Source, is_no_set_up, read
from app.words.reasons import reason_phrase

if TYPE_CHECKING:
    from app.numbers.question import Question

MOST_PROCESSES: Final = 60
"""Windows waits for no more."""


class Line(NamedTuple):
    """What came of one file.

    Attributes:
        text: a line of JSON; empty where there is nothing to tell.
        remarks: what there is to remark about the file.
        failed: whether there are no results.
    """

    text: str
    remarks: tuple[str, ...] = ()
    failed: bool = False


class Task(NamedTuple):
    """What is wanted of every file."""

    changes: Changes
    question: Question


def print_lines(sources: Sequence[Source], task: Task) -> bool:
    """Print a line for each source as soon as all before it are printed.

    Returns:
        Whether there are results of all.

    Raises:
        CommandError: there is none to tell of, no process can be started, or nothing can be
            printed.
    """
    told = failed = 0
    with closing(lines_of(sources, task)) as lines:
        for done, line in enumerate(lines, 1):
            for text in line.remarks:
                remark(text)
            told += bool(line.text)
            failed += line.failed
            if line.text and not printed(line.text + "\n"):
                break
            if not sys.stdout.isatty():
                passing(f"{done} of {len(sources)} files" if done < len(sources) else "")
    if not told:
        raise CommandError("there is no set-up in that folder, but other files of this program")
    if failed:
        files = "1 file has" if failed == 1 else f"{failed} files have"
        remark(f"{files} no results; see error there")
    return not failed


def lines_of(sources: Sequence[Source], task: Task) -> Generator[Line, None, None]:
    """A line for each source, in their order."""
    processes = min(cores(), len(sources), MOST_PROCESSES)
    if processes > 1:
        from app.start.helpers import Helpers  # noqa: PLC0415

        with Helpers(processes, line_of, task) as helpers:
            yield from helpers.done(sources, _given_up)
    else:
        yield from (line_of(task, source) for source in sources)


def line_of(task: Task, source: Source) -> Line:
    """The results of one source, or why there are none."""
    # Not before: the process that gives out the work needs none of it.
    from app.numbers import numbers, written  # noqa: PLC0415

    file = {"file": source.file}
    try:
        document, remarks = read(source, task.changes)
        told = numbers(document.setup, task.question)
    except (FileError, ValueError, MemoryError) as error:
        if source.found and is_no_set_up(error):
            return Line("")
        return Line(written({**file, "error": _why(error)}), failed=True)
    except Exception as error:
        why = f"the program failed, which should be reported: {type(error).__name__}: {error}"
        return Line(written({**file, "error": why}), failed=True)
    name = shown(source.name)
    said = tuple(each if name in each else f"{name}: {each}" for each in remarks)
    return Line(written({**file, **told}), said)


def _given_up(source: Source) -> Line:
    """What is told where a process ended before its work was done."""
    why = "its process ended before it was done, perhaps for want of memory; give it alone"
    return Line(json.dumps({"file": source.file, "error": why}), failed=True)


def _why(error: Exception) -> str:
    return "there is not enough memory" if isinstance(error, MemoryError) else reason_phrase(error)


def cores() -> int:
    """How many processes can work at the same time."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
