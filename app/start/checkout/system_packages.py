"""What the system itself must bring: the libraries that Qt loads, and Python's venv."""

from __future__ import annotations

import os
import shutil
import sys
from importlib.util import find_spec
from types import MappingProxyType
from typing import TYPE_CHECKING

from app.start.checkout.running import run
from app.start.checkout.words import SetUpError, say, why_not_installed
from app.start.display import QT_LIBRARIES, X11_LIBRARIES, libraries_missing

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

LIBRARIES = {**QT_LIBRARIES, **X11_LIBRARIES, "libwayland-cursor.so.0": "libwayland-cursor0"}
"""What Qt takes from the system on Linux, and the Debian and Ubuntu package that brings it."""
NOTHING_MORE: Mapping[str, str] = MappingProxyType({})


def missing_packages(more: Mapping[str, str] = NOTHING_MORE) -> list[str]:
    """The Debian packages without which no environment can be made, or Qt not be loaded.

    Args:
        more: commands and libraries that are needed besides, and the packages that bring them.
    """
    libraries = LIBRARIES if sys.platform == "linux" else {}
    asked = {name: package for name, package in more.items() if ".so" in name}
    missing = libraries_missing({**libraries, **asked})
    missing += [name for name in more.keys() - asked if not shutil.which(name)]
    packages = [{**libraries, **more}[name] for name in missing]
    if find_spec("ensurepip") is None:
        packages.append("python{}.{}-venv".format(*sys.version_info[:2]))
    return sorted(set(packages))


def bring_system_packages(more: Mapping[str, str] = NOTHING_MORE) -> None:
    """Install what the system lacks, where that is allowed.

    Args:
        more: what is needed besides; see :func:`missing_packages`.

    Raises:
        SetUpError: it is not allowed or did not succeed; says what to run by hand.
    """
    packages = missing_packages(more)
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
    if missing_packages(more):
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
