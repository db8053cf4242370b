"""The Debian package of the stand-alone: where each file goes, and what it asks of a system."""

from __future__ import annotations

import os
import shutil
from datetime import date
from hashlib import md5
from pathlib import Path
from typing import TYPE_CHECKING

from app import __version__
from app.start import FROM_MENU
from app.start.checkout.environments import ROOT
from app.start.checkout.menu_entry import FILE_TYPE, MIME_TYPE, menu_entry
from app.start.checkout.running import run, size_of
from app.start.checkout.words import SetUpError
from app.start.standalone.libraries import left_to_system, oldest_glibc_for, packages_of
from app.start.standalone.notices import FOLDER

if TYPE_CHECKING:
    from collections.abc import Mapping

HERE = Path(__file__).parent
_CONTROL = """Package: kneeline
Version: {version}
Architecture: {architecture}
Maintainer: Kneeline
Installed-Size: {size_kib}
Depends: {depends}
Recommends: desktop-file-utils, hicolor-icon-theme, shared-mime-info
Section: science
Priority: optional
Description: set a snowboarder's bindings so that each knee bends in its plane
 Kneeline shows whether the bindings of a snowboard push a knee inward or
 outward, and why, finds the lift and the cant that help, and keeps what trials
 on snow taught. A geometric estimate, not medical advice.
 .
 This package brings its own Python and Qt.
"""
_COPYRIGHT = """What this package is made of, and under which terms, stands in
/usr/lib/kneeline/{folder}/NOTICES.txt. Of the GNU licences named there, Debian
keeps the texts in /usr/share/common-licenses/LGPL-3 and GPL-3 as well.

Kneeline itself names no terms of its own: its authors keep their rights.
"""


def debian_package(folder: Path, work: Path) -> Path:
    """A Debian package that installs the program in a folder.

    Args:
        folder: with the program.
        work: folder in which the package is made.

    Raises:
        SetUpError: it cannot be made; says why.
    """
    code, output = run(["dpkg", "--print-architecture"])
    if code:
        raise SetUpError(f"dpkg does not tell the kind of this machine: {output.strip()}")
    architecture = output.strip()
    tree = work / "debian"
    _fill(tree, folder)
    control = {
        "control": _control(tree, folder, architecture),
        "md5sums": _sums(tree),
    }
    _write(tree, {f"DEBIAN/{name}": text for name, text in control.items()})
    target = work / f"kneeline_{__version__}_{architecture}.deb"
    # Its files belong to root, whoever builds it.
    code, output = run(
        ["dpkg-deb", "--root-owner-group", "-Zxz", "--build", str(tree), str(target)]
    )
    if code:
        raise SetUpError(f"dpkg-deb failed: {output.strip()}")
    return target


def _fill(tree: Path, folder: Path) -> None:
    """Lay out all that the package installs."""
    # Links to the same files: nothing of it is written to.
    shutil.copytree(folder, tree / "usr/lib/kneeline", symlinks=True, copy_function=os.link)
    command = tree / "usr/bin/kneeline"
    command.parent.mkdir(parents=True)
    command.symlink_to("../lib/kneeline/kneeline")
    about = (HERE / "kneeline.metainfo.xml").read_text("utf-8")
    about = about.format(mime_type=MIME_TYPE, version=__version__, date=date.today())
    share = {
        "applications/kneeline.desktop": menu_entry(f"env {FROM_MENU}=1 kneeline", "kneeline"),
        "mime/packages/kneeline.xml": FILE_TYPE,
        "metainfo/kneeline.metainfo.xml": about,
        "icons/hicolor/scalable/apps/kneeline.svg": (ROOT / "assets/icon.svg").read_text("utf-8"),
        "doc/kneeline/copyright": _COPYRIGHT.format(folder=FOLDER),
    }
    _write(tree, {f"usr/share/{name}": text for name, text in share.items()})


def _control(tree: Path, folder: Path, architecture: str) -> str:
    return _CONTROL.format(
        version=__version__,
        architecture=architecture,
        size_kib=size_of(tree) // 1024,
        depends=", ".join(packages_of(left_to_system(folder), oldest_glibc_for(folder))),
    )


def _sums(tree: Path) -> str:
    """The digest of each file, by which ``dpkg --verify`` finds damage."""
    files = (path for path in sorted(tree.rglob("*")) if path.is_file() and not path.is_symlink())
    return "".join(
        f"{md5(path.read_bytes(), usedforsecurity=False).hexdigest()}  {path.relative_to(tree)}\n"
        for path in files
    )


def _write(tree: Path, texts: Mapping[str, str]) -> None:
    for name, text in texts.items():
        path = tree / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
        path.chmod(0o644)
