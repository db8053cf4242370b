"""Where a checkout's Python environments lie, and which of them is in force.

A *home* is a folder with numbered environments in it and a file ``current`` that names the
one in force and says for what it was found good.  The checkout's own home is ``.kneeline-env``;
where the checkout cannot be written, one in the user's cache stands in.  ``current`` is
replaced in one step, so that a start finds the old environment or the new one, whole.
"""

from __future__ import annotations

import fcntl
import json
import os
import shutil
import sys
import tomllib
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from app.start.checkout.words import SetUpError, say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

ROOT = Path(__file__).resolve().parents[3]
CURRENT, LOCK = "current", "lock"
FORMER = "."
"""Name of an environment made by an earlier version, which filled the home itself."""
FORMER_PARTS = ("ready", "pyvenv.cfg", "bin", "include", "lib", "lib64", "share")


class Environment(NamedTuple):
    """An environment that was found good.

    Attributes:
        home: the folder in which its own lies.
        name: its own folder's name, a number; ``FORMER`` for one of an earlier version.
        interpreter: the file that its Python really is.
        extras: names of the optional dependencies that were asked for, sorted.
        met: the requirements that it was seen to meet.
    """

    home: Path
    name: str
    interpreter: str
    extras: tuple[str, ...]
    met: frozenset[str]

    @property
    def folder(self) -> Path:
        return self.home / self.name

    @property
    def python(self) -> Path:
        """The command that runs its Python."""
        return python_in(self.folder)

    def serves(self, requirements: Sequence[str]) -> bool:
        """Whether it was found good for ``requirements`` and its Python is the same still."""
        return self.met.issuperset(requirements) and self.interpreter == interpreter_of(self.folder)


def python_in(folder: Path) -> Path:
    """The command that runs the Python of the environment in ``folder``."""
    return folder / "bin" / "python"


def interpreter_of(folder: Path) -> str:
    """The file that the Python of the environment in ``folder`` really is; empty where none."""
    python = python_in(folder)
    return os.path.realpath(python) if os.access(python, os.X_OK) else ""


def requirements_of(root: Path, extras: Sequence[str]) -> list[str]:
    """What a checkout declares that it needs, with the optional dependencies ``extras``.

    Raises:
        SetUpError: what it declares cannot be read.
    """
    file = root / "pyproject.toml"
    try:
        project = tomllib.loads(file.read_text("utf-8"))["project"]
        optional = project["optional-dependencies"]
        return [*project["dependencies"], *(line for name in extras for line in optional[name])]
    except (ValueError, KeyError) as error:
        raise SetUpError(f"{file} is damaged: {error}") from error


def own_home() -> Path:
    """The checkout's own home; it need not exist."""
    return ROOT / ".kneeline-env"


def spare_home() -> Path:
    """The home in the user's cache, one for each checkout; it need not exist."""
    import hashlib  # noqa: PLC0415

    digest = hashlib.sha256(os.fsencode(ROOT)).hexdigest()[:12]
    return cache_folder() / "environments" / digest


def cache_folder() -> Path:
    """The program's folder in the user's cache; it need not exist."""
    given = os.environ.get("XDG_CACHE_HOME", "")
    usual = "~/Library/Caches" if sys.platform == "darwin" else "~/.cache"
    return Path(given if os.path.isabs(given) else os.path.expanduser(usual)) / "kneeline"


def writable_home() -> Path:
    """The first home that can be written, made where it is missing.

    Raises:
        SetUpError: there is none.
    """
    own, spare = own_home(), spare_home()
    if _is_made_writable(own):
        return own
    if spare.is_absolute() and _is_made_writable(spare):
        say(f"{own.parent} cannot be written, so the environment lies in {spare}")
        return spare
    raise SetUpError(f"neither {own} nor {spare} can be written: allow it for one of them")


def _is_made_writable(folder: Path) -> bool:
    with suppress(OSError):
        folder.mkdir(parents=True, exist_ok=True)
    return os.access(folder, os.W_OK | os.X_OK)


def current_in(home: Path) -> Environment | None:
    """The environment in force; None where there is none yet."""
    try:
        told = json.loads((home / CURRENT).read_text("utf-8"))
        extras, met = tuple(told["extras"]), frozenset(told["met"])
        return Environment(home, str(told["name"]), str(told["interpreter"]), extras, met)
    except (OSError, ValueError, KeyError, TypeError):
        return _of_an_earlier_version(home)


def _of_an_earlier_version(home: Path) -> Environment | None:
    """The environment that fills the home itself, not yet found good for anything."""
    try:
        extras = (home / "ready").read_text("utf-8").splitlines()[2:]
    except (OSError, ValueError):
        return None
    return Environment(home, FORMER, "", tuple(" ".join(extras).split()), frozenset())


def put_in_force(environment: Environment) -> None:
    """Make ``environment`` the one that starts find, in one step."""
    told = environment._asdict() | {"met": sorted(environment.met)}
    del told["home"]
    write_whole(environment.home / CURRENT, json.dumps(told, indent=1))


def write_whole(path: Path, text: str) -> None:
    """Write a file anew, so that it holds the old text or the new one whatever happens."""
    part = path.with_name(f"{path.name}.part")
    with part.open("w", encoding="utf-8") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
    part.replace(path)


@contextmanager
def alone_in(home: Path) -> Iterator[int]:
    """Wait until no other start changes ``home``; gives the file descriptor that keeps it so.

    A start that dies keeps nothing; a command that was handed the descriptor keeps others
    out until it has ended too.
    """
    lock = os.open(home / LOCK, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o666)
    try:
        if _locked(lock, fcntl.LOCK_EX) is False:
            say("another start is setting up; waiting for it")
            fcntl.flock(lock, fcntl.LOCK_EX)
        yield lock
    finally:
        os.close(lock)


def _locked(file: int, kind: int) -> bool | None:
    """Whether a file could be locked at once; None on a disk that does not know locks."""
    try:
        fcntl.flock(file, kind | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:
        return None
    return True


def held(environment: Environment) -> int | None:
    """A file descriptor that keeps ``environment`` from being removed while it is open.

    None where it is no longer the one in force: then another start has just replaced it.
    """
    try:
        folder = os.open(environment.folder, os.O_RDONLY)
    except OSError:
        return None
    if _locked(folder, fcntl.LOCK_SH) is not False and current_in(environment.home) == environment:
        return folder
    os.close(folder)
    return None


def numbers_in(home: Path) -> list[int]:
    """The numbers of all environments in ``home``, half-made ones included."""
    return sorted(int(name) for name in os.listdir(home) if name.isdecimal())


def tidy_up(environment: Environment) -> None:
    """Remove what is left of other environments, unless a start is at work on one."""
    others = {str(number) for number in numbers_in(environment.home)} - {environment.name}
    if not others:
        return
    with suppress(OSError):
        lock = os.open(environment.home / LOCK, os.O_RDWR)
        if _locked(lock, fcntl.LOCK_EX):
            remove_others(environment.home, environment)
        os.close(lock)


def remove_others(home: Path, kept: Environment | None) -> None:
    """Remove all environments in ``home`` but ``kept`` and those in which a program runs."""
    for number in numbers_in(home):
        if not kept or str(number) != kept.name:
            _remove_unless_held(home / str(number))
    if kept and kept.name != FORMER:
        for name in FORMER_PARTS:
            remove(home / name)


def _remove_unless_held(folder: Path) -> None:
    with suppress(OSError):
        lock = os.open(folder, os.O_RDONLY)
        if _locked(lock, fcntl.LOCK_EX) is not False:
            remove(folder)
        os.close(lock)


def remove(path: Path) -> None:
    """Remove a file or a folder as far as it can be removed."""
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path, ignore_errors=True)
    else:
        with suppress(OSError):
            path.unlink(missing_ok=True)
