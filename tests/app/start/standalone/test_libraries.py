"""What the stand-alone asks of the system that it runs on."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from app.start.checkout.words import SetUpError
from app.start.standalone import libraries
from app.start.standalone.libraries import (
    left_to_system,
    linked_files,
    oldest_glibc_for,
    packages_of,
)

SHELL = Path("/bin/sh")
"""A program of every system, linked to its C library."""

pytestmark = pytest.mark.skipif(not shutil.which("objdump"), reason="needs binutils")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copy(SHELL.resolve(), tmp_path / "sh")
    (tmp_path / "notes.txt").write_text("no program")
    (tmp_path / "link").symlink_to("sh")
    return tmp_path


def test_programs_are_told_from_other_files(folder: Path) -> None:
    assert linked_files(folder) == [folder / "sh"]


def test_the_c_library_is_left_to_the_system_and_asked_for_by_its_age(folder: Path) -> None:
    needed = left_to_system(folder)
    assert "libc.so.6" in needed
    oldest = oldest_glibc_for(folder)
    assert f"libc6 (>= {oldest})" in packages_of(needed, oldest)
    (folder / "libc.so.6").touch()
    assert "libc.so.6" not in left_to_system(folder) | {"another"}


def test_a_library_of_no_package_known_ends_the_build(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(libraries, "DEBIAN", {})
    with pytest.raises(SetUpError, match=r"would need .*libc\.so\.6"):
        left_to_system(folder)
