"""What the stand-alone takes from the system that it runs on, and which packages bring that."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from app.start.checkout.running import run
from app.start.checkout.system_packages import LIBRARIES
from app.start.checkout.words import SetUpError

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

DEBIAN = {
    **LIBRARIES,
    "ld-linux-x86-64.so.2": "libc6",
    "ld-linux-aarch64.so.1": "libc6",
    "libX11-xcb.so.1": "libx11-xcb1",
    "libX11.so.6": "libx11-6",
    "libc.so.6": "libc6",
    "libcups.so.2": "libcups2",
    "libdl.so.2": "libc6",
    "libfreetype.so.6": "libfreetype6",
    "libgcc_s.so.1": "libgcc-s1",
    "libgthread-2.0.so.0": "libglib2.0-0",
    "libm.so.6": "libc6",
    "libpthread.so.0": "libc6",
    "librt.so.1": "libc6",
    "libstdc++.so.6": "libstdc++6",
    "libutil.so.1": "libc6",
    "libuuid.so.1": "libuuid1",
    "libwayland-client.so.0": "libwayland-client0",
    "libxcb-render.so.0": "libxcb-render0",
    "libxcb-shm.so.0": "libxcb-shm0",
    "libxcb-sync.so.1": "libxcb-sync1",
    "libxcb-xfixes.so.0": "libxcb-xfixes0",
    "libxcb.so.1": "libxcb1",
    "libz.so.1": "zlib1g",
    "libzstd.so.1": "libzstd1",
}
"""The Debian and Ubuntu package of each library that may stay with the system."""

_NEEDED = re.compile(r"^\s+NEEDED\s+(\S+)", re.MULTILINE)
_GLIBC = re.compile(rb"GLIBC_2\.(\d+)\0")


def linked_files(folder: Path) -> list[Path]:
    """The programs and libraries in a folder."""
    files = (path for path in sorted(folder.rglob("*")) if not path.is_symlink())
    return [path for path in files if path.is_file() and _begins_as_one(path)]


def _begins_as_one(path: Path) -> bool:
    with path.open("rb") as file:
        return file.read(4) == b"\x7fELF"


def left_to_system(folder: Path) -> set[str]:
    """The libraries that those in a folder are linked to and that are not in it.

    Raises:
        SetUpError: one of them is of no package that is known here.
    """
    code, output = run(["objdump", "-p", *map(str, linked_files(folder))])
    needed = set(_NEEDED.findall(output))
    if code or not needed:
        raise SetUpError(f"objdump cannot read the libraries: {output[-300:]}")
    missing = needed - {path.name for path in folder.rglob("*")}
    unknown = sorted(missing - DEBIAN.keys())
    if unknown:
        raise SetUpError(
            f"the stand-alone would need {', '.join(unknown)}: bring it along (choosing.py) or "
            "name the Debian package that brings it (libraries.py)"
        )
    return missing


def packages_of(libraries: Iterable[str], oldest_glibc: str) -> list[str]:
    """The Debian packages that bring libraries, as the field Depends names them."""
    names = {DEBIAN[library] for library in libraries}
    return sorted(f"{name} (>= {oldest_glibc})" if name == "libc6" else name for name in names)


def oldest_glibc_for(folder: Path) -> str:
    """The oldest C library with which everything in a folder can be loaded, as "2.34"."""
    found = {int(n) for path in linked_files(folder) for n in _GLIBC.findall(path.read_bytes())}
    return f"2.{max(found)}"
