"""A file that is saved keeps its owner, its rights, its attributes and its names."""

from __future__ import annotations

import os
import stat
import struct
from pathlib import Path

import pytest

from app.files.safe_files import write_atomically

pytestmark = pytest.mark.skipif(not hasattr(os, "listxattr"), reason="needs Linux")

NEW = b"new " * 1000
ACCESS, DEFAULT = "system.posix_acl_access", "system.posix_acl_default"
ANYBODY = 0xFFFFFFFF


def access_list(*entries: tuple[int, int, int]) -> bytes:
    """An access list as Linux keeps it: version 2, then tag, rights and id (posix_acl_xattr.h)."""
    return struct.pack("<I", 2) + b"".join(struct.pack("<HHI", *entry) for entry in entries)


LET_1234_READ = access_list(
    (0x01, 6, ANYBODY), (0x02, 4, 1234), (0x04, 0, ANYBODY), (0x10, 4, ANYBODY), (0x20, 0, ANYBODY)
)
"""The owner, user 1234, the group, the mask, all others."""


def mode_of(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def give(path: Path, name: str, value: bytes) -> None:
    try:
        os.setxattr(path, name, value)
    except OSError as error:
        pytest.skip(f"this disk keeps no {name}: {error.strerror}")


@pytest.fixture
def old(tmp_path: Path) -> Path:
    path = tmp_path / "a.json"
    path.write_bytes(b"old")
    return path


@pytest.fixture
def parts_seen(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """The rights that half-written files have at each call that a save makes."""
    seen: list[int] = []

    def watched(name: str) -> None:
        real = getattr(os, name)

        def call(*args, **named):
            answer = real(*args, **named)
            if name == "open" and args[1] & os.O_CREAT:
                seen.append(mode_of(args[0]))
            elif name in {"write", "fsync"}:
                seen.append(stat.S_IMODE(os.fstat(args[0]).st_mode))
            return answer

        monkeypatch.setattr(os, name, call)

    for name in ("open", "write", "fsync"):
        watched(name)
    return seen


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o644, 0o660, 0o664])
def test_a_half_written_file_is_never_wider_than_the_file_it_replaces(old, parts_seen, mode):
    old.chmod(mode)
    before = os.umask(0)
    try:
        write_atomically(old, NEW)
    finally:
        os.umask(before)
    assert mode_of(old) == mode
    assert len(parts_seen) >= 3
    folders = {mode_of(old.parent)}
    assert all(seen & ~mode == 0 for seen in parts_seen if seen not in folders)


def test_a_private_file_is_its_owners_from_the_first_moment(tmp_path, parts_seen):
    before = os.umask(0)
    try:
        write_atomically(tmp_path / "a.json", NEW, private=True)
    finally:
        os.umask(before)
    assert mode_of(tmp_path / "a.json") == 0o600
    assert set(parts_seen) - {mode_of(tmp_path)} == {0o600}


@pytest.mark.skipif(os.geteuid() != 0, reason="only the administrator can give files away")
def test_the_owner_and_the_group_stay(old):
    os.chown(old, 1234, 5678)
    old.chmod(0o660)
    write_atomically(old, NEW)
    assert (old.stat().st_uid, old.stat().st_gid, mode_of(old)) == (1234, 5678, 0o660)


@pytest.mark.skipif(os.geteuid() != 0, reason="only the administrator can give files away")
def test_a_group_that_cannot_be_given_opens_the_file_to_no_other(old, monkeypatch):
    os.chown(old, -1, 5678)
    old.chmod(0o664)
    give(old, ACCESS, LET_1234_READ)
    old.chmod(0o664)

    def refused(*_):
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr("app.files.file_marks.os.chown", refused)
    write_atomically(old, NEW)
    assert mode_of(old) == 0o644
    assert ACCESS not in os.listxattr(old)


def test_attributes_stay(old):
    give(old, "user.note", b"of the rider")
    write_atomically(old, NEW)
    assert os.getxattr(old, "user.note") == b"of the rider"


def test_an_access_list_stays(old):
    give(old, ACCESS, LET_1234_READ)
    write_atomically(old, NEW)
    assert os.getxattr(old, ACCESS) == LET_1234_READ


def test_an_access_list_of_the_folder_does_not_open_a_file_that_had_none(old):
    give(old.parent, DEFAULT, LET_1234_READ)
    old.chmod(0o640)
    write_atomically(old, NEW)
    assert ACCESS not in os.listxattr(old)
    assert mode_of(old) == 0o640


def test_all_names_in_the_folder_lead_to_the_new_file_and_those_elsewhere_are_counted(old):
    elsewhere = old.parent / "elsewhere"
    elsewhere.mkdir()
    os.link(old, old.with_name("b.json"))
    os.link(old, elsewhere / "c.json")
    assert write_atomically(old, NEW) == 1
    assert os.path.samefile(old, old.with_name("b.json"))
    assert old.read_bytes() == NEW
    assert (elsewhere / "c.json").read_bytes() == b"old"
    assert write_atomically(old, b"newer") == 0
    assert sorted(os.listdir(old.parent)) == ["a.json", "b.json", "elsewhere"]


def test_a_link_to_another_folder_stays_and_its_file_is_saved_there(old):
    link = old.parent / "elsewhere" / "link.json"
    link.parent.mkdir()
    link.symlink_to("../a.json")
    write_atomically(link, NEW)
    assert os.readlink(link) == "../a.json"
    assert old.read_bytes() == NEW
    assert os.listdir(link.parent) == ["link.json"]
