"""What the stand-alone is built from is locked, and what is locked is what is declared."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from app.start.standalone.freezing import LOCKED
from app.start.standalone.notices import QT, TOOLS

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
ENTRIES = re.split(r"\n(?=[\w#])", LOCKED.read_text("utf-8"))
VERSIONS = dict(re.findall(r"^([\w.-]+)==(\S+)", LOCKED.read_text("utf-8"), re.MULTILINE))


def test_every_requirement_is_locked_at_a_version_that_it_allows_on_every_python() -> None:
    declared = [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["standalone"]]
    for requirement in map(Requirement, declared):
        version = VERSIONS[canonicalize_name(requirement.name)]
        assert requirement.specifier.contains(version), requirement


def test_every_file_that_is_fetched_has_its_digest() -> None:
    entries = [entry for entry in ENTRIES if not entry.startswith("#")]
    assert len(entries) == len(VERSIONS) > 10
    assert all("--hash=sha256:" in entry for entry in entries)
    assert " ; " not in LOCKED.read_text("utf-8")


def test_what_only_builds_and_what_is_qt_are_named_as_they_are_locked() -> None:
    assert {*TOOLS, *QT} - {"kneeline", "pip"} <= VERSIONS.keys()
