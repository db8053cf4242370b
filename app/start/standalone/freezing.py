"""The folder that runs without Python, made in an environment that is thrown away."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from app.start.checkout.environments import ROOT, python_in
from app.start.checkout.making import QUIET_PIP
from app.start.checkout.running import run
from app.start.checkout.words import SetUpError, last_complaint, why_not_installed
from app.start.standalone.libraries import linked_files

if TYPE_CHECKING:
    from collections.abc import Sequence

HERE = Path(__file__).parent
LOCKED = HERE / "locked.txt"
"""What is built with and what goes in: versions, and the digests of their files."""
ENVIRONMENT, LOOKING = "environment", "looking"
"""Folders beside what is built: the environment that made it, and its way in for a look."""


def environment_in(work: Path) -> Path:
    """A new environment with what is locked and the program's wheel; the command of its Python.

    Raises:
        SetUpError: there can be none; says why.
    """
    folder = work / ENVIRONMENT
    code, output = run([sys.executable, "-I", "-m", "venv", str(folder)])
    if code:
        raise SetUpError(f"no Python environment could be made: {last_complaint(output)}")
    python = python_in(folder)
    pip = [str(python), "-I", "-m", "pip", "install", "--no-deps"]
    # Hashes, so that nobody can slip in another file; no sources, whose makers run code.
    exact = ["--require-hashes", "--only-binary=:all:", "-r", str(LOCKED)]
    code, output = run([*pip, *exact], settings=QUIET_PIP, filling=folder)
    if code:
        raise SetUpError(f"{why_not_installed(output)}\n{_tail(output)}")
    wheel = work / "wheel"
    _do([str(python), "-m", "hatchling", "build", "-t", "wheel", "-d", str(wheel)], cwd=ROOT)
    _do([*pip, "--no-index", *map(str, wheel.glob("*.whl"))])
    return python


def frozen(python: Path, work: Path) -> Path:
    """The folder of the program, with all that it needs of Python and Qt in it.

    Raises:
        SetUpError: it cannot be made; says why.
    """
    spec = HERE / "kneeline.spec"
    _do(
        [
            *(str(python), "-I", "-m", "PyInstaller", "--noconfirm", "--log-level=WARN"),
            *("--distpath", str(work / "frozen"), "--workpath", str(work), str(spec)),
        ]
    )
    folder = work / "frozen" / "kneeline"
    _strip(folder)
    _let_look_in(work)
    return folder


def _strip(folder: Path) -> None:
    """Take out what only those need who mend the libraries themselves: a third of the size."""
    # The libraries that numpy brings are rewritten by their packers, and break.
    # The program's own file has all its modules at its end.
    inner = folder / "_internal"
    files = [path for path in linked_files(inner) if path.parent.name != "numpy.libs"]
    _do(["strip", "--strip-unneeded", *map(str, files)])


def _let_look_in(work: Path) -> None:
    """Put the other way in where it finds what was frozen, but not into the folder itself."""
    looking = work / LOOKING
    looking.mkdir()
    (work / "kneeline" / "kneeline-looking").rename(looking / "kneeline-looking")
    (looking / "_internal").symlink_to("../../kneeline/_internal")


def _do(command: Sequence[str], cwd: Path | None = None) -> None:
    code, output = run(command, cwd=cwd)
    if code:
        raise SetUpError(f"{' '.join(command[:5])} failed:\n{_tail(output)}")


def _tail(output: str) -> str:
    return "\n".join(output.splitlines()[-15:])
