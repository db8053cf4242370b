"""``app/package.sh``: makes the stand-alone, and puts it in place when all of it is made."""

from __future__ import annotations

import os
import shutil
import sys
import sysconfig
from pathlib import Path
from typing import TYPE_CHECKING

from app.start.checkout.environments import ROOT, remove
from app.start.checkout.running import size_of
from app.start.checkout.system_packages import bring_system_packages
from app.start.checkout.words import SetUpError, say
from app.start.standalone.debian import debian_package
from app.start.standalone.freezing import environment_in, frozen
from app.start.standalone.libraries import left_to_system
from app.start.standalone.notices import write_notices

if TYPE_CHECKING:
    from collections.abc import Sequence

WORK = "build"
"""Folder beside what is made, for what makes it; it stays for whoever wants to look."""
ROOM_MB = 2000
TOOLS = {"objcopy": "binutils", "objdump": "binutils", "strip": "binutils"}


def package(words: Sequence[str]) -> int:
    """Make the folder and, where there is dpkg, the Debian package; the exit code.

    Args:
        words: the folder that gets them; the checkout's ``dist`` where none is named.

    Raises:
        SetUpError: they cannot be made; what was there before is as it was.
    """
    target = Path(words[0]).absolute() if words else ROOT / "dist"
    if not sys.platform.startswith("linux"):
        raise SetUpError("the stand-alone is made on Linux only; README, Without Python, has more")
    bring_system_packages({**TOOLS, **_shared_python()})
    os.umask(0o022)
    work = target / WORK
    remove(work)
    work.mkdir(parents=True)
    free_mb = shutil.disk_usage(work).free // 1_000_000
    if free_mb < ROOM_MB:
        raise SetUpError(f"{target} has {free_mb} MB free, and this takes about {ROOM_MB} MB")
    _put_in_place(_made(work), target)
    return 0


def _made(work: Path) -> list[Path]:
    """The folder, and the package where there can be one."""
    say("making an environment to build in")
    python = environment_in(work)
    say("gathering what the program needs")
    folder = frozen(python, work)
    write_notices(folder, next((work / "environment").glob("lib/*/site-packages")))
    left_to_system(folder)
    if not shutil.which("dpkg-deb"):
        say("no .deb is made: this system has no dpkg-deb")
        return [folder]
    say("packing")
    return [folder, debian_package(folder, work)]


def _put_in_place(made: Sequence[Path], target: Path) -> None:
    for each in made:
        place = target / each.name
        remove(place)
        each.rename(place)
        size = size_of(place) if place.is_dir() else place.stat().st_size
        say(f"made {place}, {size / 1e6:.0f} MB")


def _shared_python() -> dict[str, str]:
    """The library of this Python and Debian's package of it, where Debian keeps it apart."""
    library = sysconfig.get_config_var("INSTSONAME") or ""
    apart = sys.base_prefix == "/usr" and ".so" in library
    return {library: "libpython{}.{}".format(*sys.version_info[:2])} if apart else {}
