"""The command ``kneeline``, the entry in the desktop's menu and the file type, on request only.

The command is a link in ``~/.local/bin`` to the checkout's ``app/start.sh``; entry and type are
files in the folders that the XDG base directory specification names.  What stands there and
was not made here is left alone.
"""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from app.start import FROM_MENU
from app.start.checkout.environments import ROOT, write_whole
from app.start.checkout.menu_entry import FILE_TYPE, MIME_TYPE, menu_entry
from app.start.checkout.running import run
from app.start.checkout.words import SetUpError, say

if TYPE_CHECKING:
    from collections.abc import Callable

START = ROOT / "app" / "start.sh"
BY_HAND = "sh app/start.sh --install"


def command_file() -> Path:
    """Where the command ``kneeline`` lies."""
    return Path(os.path.expanduser("~/.local/bin/kneeline"))


def data_folder() -> Path:
    """Where a desktop looks for what a user has installed."""
    given = os.environ.get("XDG_DATA_HOME", "")
    return Path(given if os.path.isabs(given) else os.path.expanduser("~/.local/share"))


def entry_file() -> Path:
    """Where the entry of the desktop's menu lies."""
    return data_folder() / "applications" / "kneeline.desktop"


def type_file() -> Path:
    """Where the type of files is described."""
    return data_folder() / "mime" / "packages" / "kneeline.xml"


def is_our_command(path: Path) -> bool:
    """Whether a link leads, or led, to the ``start.sh`` of a checkout."""
    return path.is_symlink() and os.readlink(path).endswith("/app/start.sh")


def is_our_entry(path: Path) -> bool:
    """Whether an entry starts the ``start.sh`` of a checkout."""
    return path.is_file() and b"/app/start.sh" in path.read_bytes()


def is_our_type(path: Path) -> bool:
    """Whether a file describes our type of files."""
    return path.is_file() and MIME_TYPE.encode() in path.read_bytes()


def things_to_install() -> list[tuple[Path, Callable[[Path], bool], Callable[[Path], None]]]:
    """Each file, how to know it for ours, and what makes it."""
    command = (command_file(), is_our_command, make_command)
    entry = (entry_file(), is_our_entry, make_entry)
    file_type = (type_file(), is_our_type, make_type)
    return [command] if sys.platform == "darwin" else [command, entry, file_type]


def install() -> int:
    """Make the command, the menu entry and the file type; the exit code.

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
    tell_desktop()
    if str(command_file().parent) not in os.environ.get("PATH", "").split(os.pathsep):
        say(
            f"log in again, so that the command is found; if it still is not, add "
            f"{command_file().parent} to PATH"
        )
    return 0


def uninstall() -> int:
    """Remove all three as far as they are ours; the exit code."""
    for path, is_ours, _ in things_to_install():
        if is_ours(path):
            path.unlink()
            say(f"removed {path}")
    tell_desktop()
    return 0


def tell_desktop() -> None:
    """Have the desktop read anew which types of files there are, and what opens them."""
    folders = {
        "update-mime-database": type_file().parents[1],
        "update-desktop-database": entry_file().parent,
    }
    for command, folder in folders.items():
        if shutil.which(command) and folder.is_dir():
            run([command, str(folder)])


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
    write_whole(path, menu_entry(f"env {FROM_MENU}=1 sh {quoted(str(START))}", icon))


def make_type(path: Path) -> None:
    """Write the description of the type of files."""
    write_whole(path, FILE_TYPE)


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
