"""Run by an environment's own Python: tells which requirements it does not meet.

Where it meets them all, what the program stands on is loaded as well; a failure to do so
ends in a traceback and an exit code other than 0.
"""

from __future__ import annotations

import sys
from importlib import import_module, metadata

MODULES = ("numpy", "PySide6.QtWidgets", "app.__main__")
SIGN = "lacking: "
"""Begins each line that counts, whatever the modules may print."""


def lacking_in(output: str) -> list[str]:
    """The unmet requirements in what :func:`main` printed."""
    lines = output.splitlines()
    return [line.removeprefix(SIGN) for line in lines if line.startswith(SIGN)]


def unmet(line: str) -> str:
    """A requirement with what is there instead; empty where it is met or does not apply."""
    # The only judge of requirements that is in every environment.
    from pip._vendor.packaging.requirements import Requirement  # noqa: PLC0415

    wanted = Requirement(line)
    if wanted.marker and not wanted.marker.evaluate():
        return ""
    try:
        found = metadata.version(wanted.name)
    except metadata.PackageNotFoundError:
        return line
    fits = wanted.specifier.contains(found, prereleases=True)
    return "" if fits else f"{line} ({found} is installed)"


def main(requirements: list[str]) -> None:
    """Print the unmet ones among ``requirements``; load the modules where there are none."""
    lacking = [told for told in map(unmet, requirements) if told]
    for told in lacking:
        print(f"{SIGN}{told}")
    if not lacking:
        for name in MODULES:
            import_module(name)


if __name__ == "__main__":
    main(sys.argv[1:])
