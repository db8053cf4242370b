"""The terms of everything that comes along, or no stand-alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.start.checkout.words import SetUpError
from app.start.standalone.notices import write_notices


def add(packages: Path, name: str, told: str = "", text: str = "") -> None:
    about = packages / f"{name.replace('-', '_')}-1.0.dist-info"
    about.mkdir(parents=True)
    (about / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n{told}\n")
    if text:
        (about / "licenses").mkdir()
        (about / "licenses" / "LICENSE").write_text(text)


@pytest.fixture
def places(tmp_path: Path) -> tuple[Path, Path]:
    folder, packages = tmp_path / "kneeline", tmp_path / "packages"
    (folder / "_internal").mkdir(parents=True)
    add(packages, "PySide6-Essentials", "License: LGPL-3.0-only")
    add(packages, "curves", "License-Expression: MIT", "You may")
    add(packages, "hatchling", "License: MIT")
    return folder, packages


def test_each_part_is_listed_with_its_terms_and_their_text(places: tuple[Path, Path]) -> None:
    folder, packages = places
    write_notices(folder, packages)
    notices = (folder / "LICENCES" / "NOTICES.txt").read_text("utf-8")
    assert (folder / "LICENCES" / "curves" / "licenses" / "LICENSE").read_text() == "You may"
    assert "(PySide6-Essentials 1.0)" in notices
    assert "curves" in notices
    assert "Python " in notices
    assert "hatchling" not in notices
    for text in ("LGPL-3.txt", "GPL-3.txt"):
        assert "GENERAL PUBLIC LICENSE" in (folder / "LICENCES" / text).read_text("utf-8")


def test_a_part_without_terms_ends_the_build(places: tuple[Path, Path]) -> None:
    folder, packages = places
    add(packages, "nameless", "License: MIT")
    with pytest.raises(SetUpError, match="nameless comes without its terms"):
        write_notices(folder, packages)
