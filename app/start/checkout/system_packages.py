"""What the system itself must bring: the libraries that Qt loads, and Python's venv."""

from __future__ import annotations

import os
import shutil
import sys
from importlib.util import find_spec
from typing import TYPE_CHECKING

from app.start.checkout.running import run
from app.start.checkout.words import SetUpError, say, why_not_installed
from app.start.display import QT_LIBRARIES, X11_LIBRARIES, libraries_missing

if TYPE_CHECKING:
    from collections.abc import Sequence

LIBRARIES = {**QT_LIBRARIES, **X11_LIBRARIES, "libwayland-cursor.so.0": "libwayland-cursor0"}
"""What Qt takes from the system on Linux, and the Debian and Ubuntu package that brings it."""


def missing_packages() -> list[str]:
    """The Debian packages without which no environment can be made, or Qt not be loaded."""
    libraries = LIBRARIES if sys.platform == "linux" else {}
    packages = [libraries[missing] for missing in libraries_missing(libraries)]
    if find_spec("ensurepip") is None:
        packages.append("python{}.{}-venv".format(*sys.version_info[:2]))
    return packages


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
