"""Makes an environment beside the one in force, proves it, and only then puts it in force.

What can be linked from the old environment is: that takes seconds, hardly any room, and asks
the network for no more than what has changed.  Linked files are safe to share because pip
never writes into a file: it removes and makes anew.

An environment need not stay where it was made: only its Python is ever called, which finds
its packages from where it lies, and the link to the checkout is relative.
"""

from __future__ import annotations

import errno
import os
import shutil
import sys
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from app.start.checkout import examining
from app.start.checkout.environments import (
    FORMER,
    ROOT,
    Environment,
    alone_in,
    current_in,
    interpreter_of,
    numbers_in,
    put_in_force,
    remove,
    remove_others,
    requirements_of,
    write_whole,
)
from app.start.checkout.running import run
from app.start.checkout.system_packages import bring_system_packages
from app.start.checkout.words import (
    FULL_DISK_SIGN,
    SetUpError,
    in_words,
    last_complaint,
    say,
    why_not_installed,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

ROOM_MB, ROOM_WITH_TOOLS_MB = 800, 1200
"""Room that an environment takes while it is made, without and with what tests need."""

QUIET_PIP = {
    "PIP_USER": "0",
    "PIP_NO_INPUT": "1",
    "PIP_DISABLE_PIP_VERSION_CHECK": "1",
    "PIP_ROOT_USER_ACTION": "ignore",
}


class DoesNotRunError(SetUpError):
    """A new environment was made and then found wanting."""


def made_ready(home: Path, extras: Sequence[str]) -> Environment:
    """The environment in ``home``, made or mended until it has what this checkout needs.

    Raises:
        SetUpError: it cannot be made ready; what was there before is as it was.
    """
    wanted = requirements_of(ROOT, extras)
    with alone_in(home) as lock:
        found = current_in(home)
        if found and found.serves(wanted):
            return found
        lacking = shortcomings(found, wanted) if found else None
        if found and lacking == []:
            return confirmed(found, wanted)
        try:
            fresh = built(home, found, extras, lock=lock, to_link=bool(lacking))
        except SetUpError as error:
            raise SetUpError(f"{error}{what_is_kept(lacking)}") from error
        put_in_force(fresh)
        remove_others(home, fresh)
        return fresh


def confirmed(found: Environment, wanted: Iterable[str]) -> Environment:
    """The same environment, put in force as one that meets ``wanted`` too."""
    interpreter = interpreter_of(found.folder)
    sure = found._replace(interpreter=interpreter, met=found.met.union(wanted))
    put_in_force(sure)
    return sure


def what_is_kept(lacking: Sequence[str] | None) -> str:
    """What to add to the reason for a failure where an old environment runs, but lacks much."""
    if not lacking:
        return ""
    return (
        f"\nThe installed environment lacks what this version needs: {', '.join(lacking)}"
        "\nIt was left as it is, so that the version before this one still starts."
    )


def shortcomings(environment: Environment, wanted: Sequence[str]) -> list[str] | None:
    """Which requirements ``environment`` does not meet; None where it does not run at all."""
    if not interpreter_of(environment.folder):
        return None
    link_to_checkout(environment.folder)
    script = str(Path(examining.__file__))
    code, output = run([str(environment.python), "-I", script, *wanted])
    return None if code else examining.lacking_in(output)


def link_to_checkout(folder: Path) -> None:
    """Let the Python of the environment in ``folder`` find the checkout's packages.

    Python reads the file in the locale's encoding, so it has to be plain ASCII.
    """
    site = next(folder.glob("lib/*/site-packages"), None)
    if site is None:
        return
    # What an earlier version put there instead; it ended Python in a POSIX locale.
    remove(site / "_editable_impl_kneeline.pth")
    link = os.path.relpath(ROOT, site)
    if not folder.is_relative_to(ROOT):
        link = f"import sys; sys.path.append({str(ROOT)!a})"
    file = site / "kneeline.pth"
    if not file.exists() or file.read_text("ascii") != link:
        write_whole(file, link)


def built(
    home: Path, found: Environment | None, extras: Iterable[str], *, lock: int, to_link: bool
) -> Environment:
    """A new environment in ``home``, proven to meet what the checkout declares.

    Args:
        home: where it lies.
        found: the one in force; None where there is none.
        extras: optional dependencies; those in ``found`` come with them.
        lock: descriptor that keeps other starts out.
        to_link: whether to begin with what ``found`` has.

    Raises:
        SetUpError: there is none, and nothing is left of it.
    """
    bring_system_packages()
    remove_others(home, found)
    together = tuple(sorted({*extras, *(found.extras if found else ())}))
    number = max(numbers_in(home), default=0) + 1
    plan = Environment(home, str(number), "", together, frozenset(requirements_of(ROOT, together)))
    if found and to_link and found.name != FORMER:
        say("bringing the environment up to date")
        with suppress(DoesNotRunError):
            return _filled(plan, lock, found)
    say("installing what the program needs; the first time this takes some minutes")
    return _filled(plan, lock, None)


def _filled(plan: Environment, lock: int, old: Environment | None) -> Environment:
    """The environment as planned, made from the ``old`` one or from nothing."""
    try:
        if old:
            shutil.copytree(old.folder, plan.folder, symlinks=True, copy_function=_linked)
        else:
            make_empty(plan)
        install(plan, lock)
        lacking = shortcomings(plan, sorted(plan.met))
        if lacking != []:
            told = ", ".join(lacking or ["its Python or its packages cannot be loaded"])
            raise DoesNotRunError(f"the environment was made, but it does not run: {told}")
        # All of it is on the disk before a power cut can find it in force.
        os.sync()
    except OSError as error:
        remove(plan.folder)
        raise SetUpError(reason_of(error, plan)) from error
    except BaseException:
        remove(plan.folder)
        raise
    return plan._replace(interpreter=interpreter_of(plan.folder))


def _linked(source: str, target: str) -> None:
    """Link a file, or copy it on a disk that knows no links."""
    try:
        os.link(source, target)
    except OSError:
        shutil.copy2(source, target)


def make_empty(plan: Environment) -> None:
    """Make an environment with nothing but pip in it.

    Raises:
        OSError: there is no room for what is to come.
        SetUpError: Python cannot make one.
    """
    if shutil.disk_usage(plan.home).free < room_mb(plan) * 1e6:
        raise OSError(errno.ENOSPC, FULL_DISK_SIGN)
    code, output = run([sys.executable, "-I", "-m", "venv", str(plan.folder)])
    if code:
        raise SetUpError(f"no Python environment could be made: {last_complaint(output)}")


def install(plan: Environment, lock: int) -> None:
    """Install what ``plan`` is to meet.

    Raises:
        OSError: there is no room for it.
        SetUpError: says why not, and where all that pip said is found.
    """
    unpacked = plan.folder / "tmp"
    unpacked.mkdir()
    code, output = run(
        [str(plan.python), "-I", "-m", "pip", "install", *sorted(plan.met)],
        settings={**QUIET_PIP, "TMPDIR": str(unpacked)},
        kept_open=[lock],
        filling=unpacked,
    )
    remove(unpacked)
    log = plan.home / "install.log"
    with suppress(OSError):
        log.write_text(output, "utf-8")
    if FULL_DISK_SIGN in output:
        raise OSError(errno.ENOSPC, FULL_DISK_SIGN)
    if code:
        raise SetUpError(f"{why_not_installed(output)}\nAll that was said: {log}")


def room_mb(plan: Environment) -> int:
    """Room that an environment takes while it is made from nothing."""
    return ROOM_WITH_TOOLS_MB if plan.extras else ROOM_MB


def reason_of(error: OSError, plan: Environment) -> str:
    """What hindered an environment from being made, in words."""
    if error.errno != errno.ENOSPC and FULL_DISK_SIGN not in str(error):
        return in_words(error)
    free_mb = shutil.disk_usage(plan.home).free // 1_000_000
    return (
        f"the disk is too full: {plan.home} has {free_mb} MB free, and making an environment "
        f"takes about {room_mb(plan)} MB"
    )
