"""The terms under which everything in the stand-alone may be passed on, put beside it."""

from __future__ import annotations

import shutil
import sys
import sysconfig
from email.parser import HeaderParser
from pathlib import Path
from typing import NamedTuple

from app.start.checkout.words import SetUpError
from app.start.standalone.choosing import BROUGHT_ALONG, notice_of

HERE = Path(__file__).parent
FOLDER = "LICENCES"
TOOLS = (
    *("altgraph", "hatchling", "kneeline", "packaging", "pathspec", "pip", "pluggy"),
    *("pyinstaller-hooks-contrib", "setuptools", "tomlkit", "trove-classifiers"),
)
"""What only builds, and leaves nothing of itself behind."""
QT = ("pyside6-essentials", "shiboken6")
"""Their wheels have no terms in them: LGPL, whose text we bring."""


class Part(NamedTuple):
    """A work of others.

    Attributes:
        name: what its makers call it.
        version: of it.
        terms: under which it may be passed on, in short.
        texts: of the terms, by their place in its folder.
    """

    name: str
    version: str
    terms: str
    texts: dict[str, Path]


def write_notices(folder: Path, packages: Path) -> None:
    """Put the notices into the folder of the program.

    Args:
        folder: it.
        packages: where the packages lie that it was made from.

    Raises:
        SetUpError: the terms of something cannot be found.
    """
    parts = [*_parts_in(packages), _python(), *_of_the_system(folder)]
    place = folder / FOLDER
    shutil.copytree(HERE / "licences", place)
    for part in parts:
        for name, text in part.texts.items():
            target = place / part.name / name
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(text, target)
    table = "\n".join(f"    {part.name:<24} {part.version:<10} {part.terms}" for part in parts)
    qt = ", ".join(f"{part.name} {part.version}" for part in parts if part.name.lower() in QT)
    told = (HERE / "NOTICES.txt").read_text("utf-8").format(qt=qt, table=table)
    (place / "NOTICES.txt").write_text(told, "utf-8")


def _parts_in(packages: Path) -> list[Part]:
    """The Python packages of which something is in the program."""
    parts = []
    for about in sorted(packages.glob("*.dist-info")):
        told = HeaderParser().parsestr((about / "METADATA").read_text("utf-8"))
        name = told["Name"].replace("_", "-")
        if name.lower() in TOOLS:
            continue
        # In its order: by the standard of now, by that of before, and a short one.
        terms = (
            told["License-Expression"] or told["License"] or _classified(told.get_all("Classifier"))
        )
        texts = {str(each.relative_to(about)): each for each in _texts_in(about)}
        if not texts and name.lower() not in QT:
            raise SetUpError(f"{name} comes without its terms: look at {about}")
        parts.append(Part(name, told["Version"], terms.splitlines()[0], texts))
    return parts


def _texts_in(about: Path) -> list[Path]:
    named = (*about.glob("licenses/**/*"), *about.glob("LICEN[CS]E*"), *about.glob("COPYING*"))
    return sorted(path for path in named if path.is_file())


def _classified(classifiers: list[str] | None) -> str:
    """The terms as the shelf tells them on which a package stands."""
    licences = [each for each in classifiers or () if each.startswith("License ::")]
    return licences[0].rpartition(":: ")[2] if licences else "see its folder"


def _python() -> Part:
    version = "{}.{}.{}".format(*sys.version_info[:3])
    places = (
        Path(sysconfig.get_path("stdlib")) / "LICENSE.txt",
        Path("/usr/share/doc/python{}.{}/copyright".format(*sys.version_info[:2])),
    )
    for place in places:
        if place.is_file():
            return Part("Python", version, "PSF-2.0 and others", {"LICENSE.txt": place})
    raise SetUpError(f"the terms of Python are neither {places[0]} nor {places[1]}")


def _of_the_system(folder: Path) -> list[Part]:
    """The small libraries that come along from the building system."""
    there = {path.name for path in (folder / "_internal").iterdir()}
    return [
        Part(package, "", "see its folder", {"copyright": Path(notice_of(library))})
        for library, package in BROUGHT_ALONG.items()
        if library in there
    ]
