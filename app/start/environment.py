"""Makes the program's own Python environment and prints the path of its interpreter.

``app/start.sh`` and ``tests/run.sh`` run this file with the system's Python before
anything is installed.  It therefore uses the standard library only, imports nothing of
the project, and stays readable for a Python that is too old, so that it can say so.
The environment lies in ``.kneeline-env`` beside the checkout's files; a stamp, written
last, says for what it was made, and a start that finds the right stamp does no more.

Everything for people goes to standard error.  Exit codes: 0 ready, 2 cannot be made
ready (with the reason and what to do), 130 interrupted.
"""

from __future__ import annotations

import ctypes
import fcntl
import hashlib
import os
import re
import shutil
import subprocess
import sys
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

ROOT = Path(__file__).resolve().parent.parent.parent
ENVIRONMENT = ROOT / ".kneeline-env"
PYTHON = ENVIRONMENT / "bin" / "python"
STAMP = ENVIRONMENT / "ready"
LOG = ENVIRONMENT / "install.log"

OLDEST = (3, 11)
NEWER_PYTHONS = ("python3.13", "python3.12", "python3.11", "python3.14")
"""Names under which a second Python may stand beside one that is too old."""

LIBRARIES = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libwayland-cursor.so.0": "libwayland-cursor0",
}
"""What Qt takes from the system on Linux, and the Debian and Ubuntu package that brings
it.  ``app/start/display.py`` asks for most of them again, and a test holds the two together."""

NETWORK_SIGNS = (
    "NewConnectionError",
    "NameResolutionError",
    "ConnectTimeoutError",
    "ReadTimeoutError",
    "Read timed out",
    "ProxyError",
    "SSLError",
    "ConnectionResetError",
    "Temporary failure resolving",
)
"""What pip or apt-get print when they cannot reach their packages."""


class SetUpError(Exception):
    """The environment cannot be made ready; the text says why and what to do."""


class Stamp(NamedTuple):
    """For what an environment was made.

    Attributes:
        place: the Python and the folder; with another one it does not run.
        project: digest of what the project declares; on a change it is updated.
        extras: names of the optional dependencies in it, sorted.
    """

    place: str = ""
    project: str = ""
    extras: tuple[str, ...] = ()

    def serves(self, wanted: Stamp) -> bool:
        """Whether an environment with this stamp has all that ``wanted`` names."""
        return self[:2] == wanted[:2] and set(self.extras) >= set(wanted.extras)


def wanted_stamp(extras: Sequence[str]) -> Stamp:
    """The stamp that this checkout needs under this Python."""
    place = "{}.{} {} {}".format(*sys.version_info[:2], sys.base_prefix, ROOT)
    declared = (ROOT / "pyproject.toml").read_bytes() + Path(__file__).read_bytes()
    return Stamp(place, hashlib.sha256(declared).hexdigest(), tuple(sorted(extras)))


def found_stamp() -> Stamp:
    """The stamp that is there; an empty one where the environment is missing or half made."""
    try:
        place, project, extras = STAMP.read_text("utf-8").split("\n")
    except (OSError, ValueError):
        return Stamp()
    return Stamp(place, project, tuple(extras.split())) if PYTHON.exists() else Stamp()


def make_ready(wanted: Stamp) -> None:
    """Make or mend the environment until it serves ``wanted``, one start at a time.

    Raises:
        SetUpError: it cannot be made ready.
    """
    with _alone():
        found = found_stamp()
        if found.serves(wanted):
            return
        bring_system_packages()
        STAMP.unlink(missing_ok=True)
        if found.place != wanted.place:
            make_environment()
        extras = tuple(sorted({*found.extras, *wanted.extras}))
        install_project(extras)
        STAMP.write_text("\n".join((wanted.place, wanted.project, " ".join(extras))), "utf-8")


@contextmanager
def _alone() -> Iterator[None]:
    """Hold the environment's folder; a second start waits here, and a dead one holds nothing."""
    ENVIRONMENT.mkdir(exist_ok=True)
    folder = os.open(ENVIRONMENT, os.O_RDONLY)
    try:
        try:
            fcntl.flock(folder, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say("another start is setting up; waiting for it")
            fcntl.flock(folder, fcntl.LOCK_EX)
        yield
    finally:
        os.close(folder)


def make_environment() -> None:
    """Make an empty environment where the old or half-made one was."""
    code, output = run([sys.executable, "-I", "-m", "venv", "--clear", str(ENVIRONMENT)])
    if code:
        raise SetUpError(f"no Python environment could be made: {last_complaint(output)}")


def install_project(extras: Sequence[str]) -> None:
    """Install the checkout, editable, with its dependencies and the ``extras``."""
    say("installing what the program needs; the first time this takes some minutes")
    what = f".[{','.join(extras)}]" if extras else "."
    code, output = run([str(PYTHON), "-I", "-m", "pip", "install", "--editable", what])
    LOG.write_text(output, "utf-8")
    if code:
        raise SetUpError(f"{why_not_installed(output)}\nAll that was said: {LOG}")


def why_not_installed(output: str) -> str:
    """One sentence on why pip or apt-get failed, from what they printed."""
    if any(sign in output for sign in NETWORK_SIGNS):
        return "the packages cannot be reached: look at the network or the proxy and start again"
    return f"the packages cannot be installed: {last_complaint(output)}"


def last_complaint(output: str) -> str:
    """The last line that names an error; failing that the last line."""
    lines = [line.strip() for line in output.splitlines() if line.strip()]
    complaints = [line for line in lines if re.match(r"(ERROR|E|\w*Error): ", line)]
    return next(reversed(complaints or lines), "no reason was given")


def missing_packages() -> list[str]:
    """The Debian packages without which no environment can be made, or Qt not be loaded."""
    libraries = LIBRARIES if sys.platform == "linux" else {}
    packages = [package for library, package in libraries.items() if not _loads(library)]
    if find_spec("ensurepip") is None:
        packages.append("python{}.{}-venv".format(*sys.version_info[:2]))
    return packages


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def bring_system_packages() -> None:
    """Install what the system lacks, where that is allowed.

    Raises:
        SetUpError: it is not allowed or did not succeed; says what to run by hand.
    """
    packages = missing_packages()
    if not packages:
        return
    names = " ".join(packages)
    if shutil.which("apt-get") is None:
        raise SetUpError(f"install your system's counterparts of these Debian packages: {names}")
    by_hand = line_for_root(packages)
    prefix = root_prefix()
    if prefix is None:
        raise SetUpError(
            f"system packages are missing; run this as root, then start again:\n{by_hand}"
        )
    say(f"installing system packages: {names}")
    output = "".join(run([*prefix, *command])[1] for command in apt_commands(packages))
    if missing_packages():
        raise SetUpError(f"{why_not_installed(output)}\nBy hand: {by_hand}")


def line_for_root(packages: Sequence[str]) -> str:
    """What a person types to install ``packages``."""
    sudo = "sudo " if shutil.which("sudo") else ""
    return f"{sudo}apt-get update && {sudo}apt-get install {' '.join(packages)}"


def root_prefix() -> list[str] | None:
    """Words before a command that make it run as root unasked; None where none do."""
    if os.geteuid() == 0:
        return []
    if shutil.which("sudo") and run(["sudo", "-n", "true"])[0] == 0:
        return ["sudo", "-n"]
    return None


def apt_commands(packages: Sequence[str]) -> list[list[str]]:
    """The commands, without questions, that bring ``packages``; waits for another apt-get."""
    apt_get = ["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-o", "DPkg::Lock::Timeout=300"]
    install = [*apt_get, "install", "--yes", "--no-install-recommends", *packages]
    return [[*apt_get, "update"], install]


def run(command: Sequence[str]) -> tuple[int, str]:
    """Exit code and all output of a command, shown a line at a time on a terminal."""
    settings = {"PIP_USER": "0", "PIP_NO_INPUT": "1", "PIP_DISABLE_PIP_VERSION_CHECK": "1"}
    with subprocess.Popen(
        command,
        cwd=ROOT,
        env={**os.environ, **settings},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
    ) as process:
        assert process.stdout is not None
        output = "".join(_shown(process.stdout))
    return process.returncode, output


def _shown(lines: Iterator[str]) -> Iterator[str]:
    """The same lines; on a terminal each is shown in place of the one before."""
    terminal = sys.stderr.isatty()
    for line in lines:
        if terminal:
            width = shutil.get_terminal_size().columns - 1
            print(f"\r\033[K{line.strip()[:width]}", end="", file=sys.stderr, flush=True)
        yield line
    if terminal:
        print("\r\033[K", end="", file=sys.stderr, flush=True)


def say(text: str) -> None:
    """Tell the person who waits."""
    print(f"kneeline: {text}", file=sys.stderr, flush=True)


def go_on_with_newer_python() -> None:
    """Under a Python that is too old, start again under a newer one if there is any.

    Raises:
        SetUpError: there is none; says where one comes from.
    """
    for name in NEWER_PYTHONS:
        newer = shutil.which(name)
        if newer and run([newer, "-I", "-c", "pass"])[0] == 0:
            os.execv(newer, [newer, "-I", __file__, *sys.argv[1:]])
    raise SetUpError(
        "Python {}.{} is too old: 3.11 or newer is needed.\n".format(*sys.version_info[:2])
        + "Ubuntu 22.04: sudo apt-get install python3.11 python3.11-venv\n"
        "macOS: brew install python@3.13, or the installer of python.org\n"
        "Then start again; it will be found."
    )


def main(extras: Sequence[str]) -> int:
    """Make the environment ready and print its interpreter; returns the exit code."""
    try:
        if sys.version_info < OLDEST:
            go_on_with_newer_python()
        wanted = wanted_stamp(extras)
        if not found_stamp().serves(wanted):
            make_ready(wanted)
    except SetUpError as error:
        say(str(error))
        return 2
    except OSError as error:
        say(f"{error.filename}: {error.strerror}")
        return 2
    except KeyboardInterrupt:
        say("interrupted; the next start begins again")
        return 130
    print(PYTHON)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
