"""What the checkout's scripts ask for: the program itself, or a Python to test it with."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, NoReturn

from app.start.checkout.environments import (
    ROOT,
    Environment,
    current_in,
    held,
    own_home,
    requirements_of,
    spare_home,
    tidy_up,
    writable_home,
)
from app.start.checkout.words import SetUpError, in_words, say

if TYPE_CHECKING:
    from collections.abc import Sequence

REFUSED, INTERRUPTED = 2, 130
"""Exit codes."""


def start(words: Sequence[str]) -> int:
    """Do what a script asks; the exit code, unless the program takes this process's place.

    Args:
        words: ``run`` and what follows the program's name; ``python`` and the names of
            the optional dependencies that have to be in the environment, whose
            interpreter is then printed; or ``package`` and the folder for the stand-alone.
    """
    try:
        return _done(words[0], words[1:])
    except SetUpError as error:
        say(str(error))
    except OSError as error:
        say(in_words(error))
    except KeyboardInterrupt:
        say("interrupted; what was there is as it was, and the next start begins again")
        return INTERRUPTED
    return REFUSED


def _done(task: str, words: Sequence[str]) -> int:
    if task == "python":
        path = ready_environment(words).python
        sys.stdout.buffer.write(os.fsencode(path) + b"\n")
        return 0
    if task == "package":
        from app.start.standalone.packing import package  # noqa: PLC0415

        return package(words)
    if words[:1] in (["--install"], ["--uninstall"]):
        from app.start.checkout import desktop  # noqa: PLC0415

        return desktop.install() if words[0] == "--install" else desktop.uninstall()
    return _become_the_program(words)


def _become_the_program(words: Sequence[str]) -> NoReturn:
    environment = _held_environment()
    if not (environment.home / "offered").exists():
        from app.start.checkout import desktop  # noqa: PLC0415

        desktop.offer(environment.home)
    sys.stdout.flush()
    # -I: neither the folder it is started from nor PYTHONPATH may shadow the program's modules.
    command = [str(environment.python), "-I", "-m", "app", *words]
    os.execv(command[0], command)


def ready_environment(extras: Sequence[str]) -> Environment:
    """An environment that has what this checkout needs, made where there is none.

    Raises:
        SetUpError: there can be none.
    """
    wanted = requirements_of(ROOT, extras)
    for home in (own_home, spare_home):
        found = current_in(home())
        if found and found.serves(wanted):
            tidy_up(found)
            return found
    from app.start.checkout.making import made_ready  # noqa: PLC0415

    return made_ready(writable_home(), extras)


def _held_environment() -> Environment:
    """A ready environment, which no other start removes as long as this process lives."""
    environment = ready_environment(())
    for _ in range(3):
        folder = held(environment)
        if folder is not None:
            os.set_inheritable(folder, True)
            break
        # Another start has replaced it since.
        environment = ready_environment(())
    return environment
