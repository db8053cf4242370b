"""The command ``kneeline`` and the entry in the desktop's menu, on request only.

The command is a link in ``~/.local/bin`` to the checkout's ``app/start.sh``, the entry a file
in the folder of applications that the XDG base directory specification names.  What stands
there and was not made here is left alone.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from app.start.checkout.environments import ROOT, write_whole
from app.start.checkout.words import FROM_MENU, SetUpError, say

if TYPE_CHECKING:
    from collections.abc import Callable

START = ROOT / "app" / "start.sh"
BY_HAND = "sh app/start.sh --install"
ENTRY = """[Desktop Entry]
Type=Application
Version=1.0
Name=Kneeline
GenericName=Stance visualiser
GenericName[de]=Darstellung des Stands
Comment=Set a snowboarder's bindings so that each knee bends in its hinge plane
Comment[de]=Bindungen so einstellen, dass jedes Knie in seiner Scharnierebene beugt
Exec=env {from_menu}=1 sh {start} %f
Icon={icon}
Terminal=false
StartupWMClass=Kneeline
Categories=Education;
"""


def command_file() -> Path:
    """Where the command ``kneeline`` lies."""
    return Path(os.path.expanduser("~/.local/bin/kneeline"))


def entry_file() -> Path:
    """Where the entry of the desktop's menu lies."""
    given = os.environ.get("XDG_DATA_HOME", "")
    data = given if os.path.isabs(given) else os.path.expanduser("~/.local/share")
    return Path(data) / "applications" / "kneeline.desktop"


def is_our_command(path: Path) -> bool:
    """Whether a link leads, or led, to the ``start.sh`` of a checkout."""
    return path.is_symlink() and os.readlink(path).endswith("/app/start.sh")


def is_our_entry(path: Path) -> bool:
    """Whether an entry starts the ``start.sh`` of a checkout."""
    return path.is_file() and b"/app/start.sh" in path.read_bytes()


def things_to_install() -> list[tuple[Path, Callable[[Path], bool], Callable[[Path], None]]]:
    """Each file, how to know it for ours, and what makes it."""
    command = (command_file(), is_our_command, make_command)
    entry = (entry_file(), is_our_entry, make_entry)
    return [command] if sys.platform == "darwin" else [command, entry]


def install() -> int:
    """Make the command and the menu entry; the exit code.

    Raises:
        SetUpError: something else stands in the place of one of them; nothing is made then.
    """
    for path, is_ours, _ in things_to_install():
        if os.path.lexists(path) and not is_ours(path):
            raise SetUpError(f"{path} is something else; move it away first")
    for path, _, make in things_to_install():
        path.parent.mkdir(parents=True, exist_ok=True)
        make(path)
        say(f"made {path}")
    if str(command_file().parent) not in os.environ.get("PATH", "").split(os.pathsep):
        say(
            f"log in again, so that the command is found; if it still is not, add "
            f"{command_file().parent} to PATH"
        )
    return 0


def uninstall() -> int:
    """Remove the command and the menu entry as far as they are ours; the exit code."""
    for path, is_ours, _ in things_to_install():
        if is_ours(path):
            path.unlink()
            say(f"removed {path}")
    return 0


def make_command(path: Path) -> None:
    """Link the command to ``start.sh``."""
    if not os.access(START, os.X_OK):
        START.chmod(0o755)
    part = path.with_name(f"{path.name}.part")
    part.unlink(missing_ok=True)
    part.symlink_to(START)
    part.replace(path)


def make_entry(path: Path) -> None:
    """Write the menu entry."""
    icon = str(ROOT / "assets" / "icon.svg").replace("\\", "\\\\")
    text = ENTRY.format(from_menu=FROM_MENU, start=quoted(str(START)), icon=icon)
    write_whole(path, text)


def quoted(argument: str) -> str:
    """An argument as the key Exec takes it, by the Desktop Entry Specification.

    Quoted, with a backslash before what is special there; then, as in every string, two
    backslashes for one; and a doubled percent sign, which would begin a field code.
    """
    for special in ("\\", '"', "`", "$"):
        argument = argument.replace(special, f"\\{special}")
    return '"{}"'.format(argument.replace("\\", "\\\\").replace("%", "%%"))


def offer(home: Path) -> None:
    """Ask once whether to install; where nobody can answer, tell how to.

    Args:
        home: folder that remembers that this was asked.
    """
    if is_our_command(command_file()):
        return
    try:
        (home / "offered").touch(exist_ok=False)
    except OSError:
        return
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        say(f"{BY_HAND} makes the command kneeline and an entry in the desktop's menu")
        return
    if _agreed("make the command kneeline and an entry in the desktop's menu?"):
        _install_or_say_why_not()
    else:
        say(f"as you like; {BY_HAND} makes them at any time")


def _install_or_say_why_not() -> None:
    try:
        install()
    except SetUpError as error:
        say(str(error))


def _agreed(question: str) -> bool:
    print(f"kneeline: {question} [y/N] ", end="", file=sys.stderr, flush=True)
    return sys.stdin.readline().strip().lower() in {"y", "yes", "j", "ja"}
