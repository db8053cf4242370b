"""The stand-alone in ``dist``, held to the source by what both of them answer.

Run by ``tests/built.sh``, which builds it first.  The source runs in the environment in which
the stand-alone was made, so that any difference is one of freezing.
"""

from __future__ import annotations

import ast
import json
import os
import re
import subprocess
import sys
import zlib
from pathlib import Path

import pytest

from app.start.checkout.environments import python_in
from app.start.standalone.freezing import ENVIRONMENT, LOOKING

HERE, ROOT = Path(__file__).parent, Path(__file__).parents[2]
DIST = ROOT / "dist"
STANDALONE = DIST / "kneeline" / "kneeline"
BUILT_BY = python_in(DIST / "build" / ENVIRONMENT)
LOOK = DIST / "build" / LOOKING / "kneeline-looking"
SETUPS = [ROOT / "shared" / f"{name}.json" for name in ("hard-boots", "soft-boots-duck", "monoski")]
PARTS = ROOT / "shared" / "parts-round-wedges.json"
OF_EVERY_DIALOG = "This plugin does not support propagateSizeHints()\n"
"""What the screenless platform says; no fault of the program."""
LARGEST_MB, LARGEST_PACKED_MB = 175, 57
"""What a download and a small disk can be asked for."""
TIMES = re.compile(
    rb"/(?:Creation|Mod)Date \(.*?\)|/ID \[.*?\]|uuid:[\w-]+|\d{4}-\d\d-\d\dT[\d:.+-]+", re.DOTALL
)
"""What tells in a PDF file when it was written, and that it is this very one."""


def machine(home: Path) -> dict[str, str]:
    """A machine without Python, whose user has never started the program."""
    kept = {"QT_QPA_PLATFORM": "offscreen", "LANG": "C.UTF-8", "PATH": "/nonexistent"}
    folders = ("CONFIG", "DATA", "STATE", "CACHE")
    return {**kept, "HOME": str(home), **{f"XDG_{each}_HOME": str(home / each) for each in folders}}


def answer(command: list[object], home: Path) -> bytes:
    """What a command prints."""
    words = [str(word) for word in command]
    run = subprocess.run(words, env=machine(home), cwd=home, capture_output=True, check=False)
    said = run.stderr.decode().replace(OF_EVERY_DIALOG, "")
    assert (run.returncode, said) == (0, ""), words
    return run.stdout


def source(run: str) -> list[object]:
    """A command for the source, in the environment in which the stand-alone was made."""
    return [BUILT_BY, "-c", f"import runpy, sys; sys.path.insert(0, {str(ROOT)!r}); {run}"]


PROGRAMS: dict[str, list[object]] = {
    "stand-alone": [STANDALONE],
    "source": source("from app.__main__ import main; sys.exit(main())"),
}
LOOKS: dict[str, list[object]] = {
    "stand-alone": [LOOK],
    "source": source("sys.argv = sys.argv[1:]; runpy.run_path(sys.argv[0], run_name='__main__')"),
}


@pytest.mark.parametrize("setup", SETUPS, ids=lambda path: path.stem)
def test_the_numbers_are_the_sources(setup: Path, tmp_path: Path) -> None:
    words = [setup, "--numbers", "--parts", PARTS, "--with", "curves,map"]
    here, there = (answer([*program, *words], tmp_path) for program in PROGRAMS.values())
    assert len(here) > 10_000
    assert here == there


def test_several_files_are_worked_out_on_all_cores_as_by_the_source(tmp_path: Path) -> None:
    words = [*SETUPS, "--numbers", "--only", "front,rear"]
    here, there = (answer([*program, *words], tmp_path) for program in PROGRAMS.values())
    assert len(here.splitlines()) == len(SETUPS)
    assert here == there


def test_the_snapshot_is_the_sources(tmp_path: Path) -> None:
    for name, program in PROGRAMS.items():
        answer([*program, SETUPS[0], "--snapshot", tmp_path / f"{name}.png"], tmp_path)
    here, there = ((tmp_path / f"{name}.png").read_bytes() for name in PROGRAMS)
    assert len(here) > 100_000
    assert here == there


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_page_shows_what_the_sources_does(language: str, tmp_path: Path) -> None:
    seen = []
    for name, look in LOOKS.items():
        folder = tmp_path / name
        folder.mkdir()
        words = [HERE / "pages_looked_at.py", language, SETUPS[0], folder]
        told = json.loads(answer([*look, *words], tmp_path))
        seen.append((told, [path.read_bytes() for path in sorted(folder.iterdir())]))
    (here, here_seen), (there, there_seen) = seen
    assert len(here) == len(here_seen) > 5
    assert here == there
    pictures = zip(here, here_seen, there_seen, strict=True)
    assert [title for title, one, other in pictures if one != other] == []


def test_every_file_that_is_written_is_the_sources(tmp_path: Path) -> None:
    written = []
    for name, look in LOOKS.items():
        folder = tmp_path / name
        folder.mkdir()
        answer([*look, HERE / "files_written.py", folder], tmp_path)
        written.append({path.name: lasting(path) for path in folder.iterdir()})
    here, there = written
    kinds = {".pdf", ".svg", ".stl", ".dxf", ".gif", ".webp", ".png"}
    assert {Path(name).suffix for name in here} == kinds
    assert [name for name in here | there if here.get(name) != there.get(name)] == []


def lasting(path: Path) -> object:
    """What a file holds whenever it is written: some of it may stand in any order."""
    data = path.read_bytes()
    if path.suffix == ".dxf":
        return sorted(data.splitlines())
    if path.suffix != ".pdf":
        return data
    # Typefaces and the page; all else in the file is told in times.
    streams = (data[begin.end() :] for begin in re.finditer(rb"stream\r?\n(?=x)", data))
    return sorted(zlib.decompressobj().decompress(stream) for stream in streams)


def test_every_module_and_all_that_it_ever_imports_is_there(tmp_path: Path) -> None:
    left_out = ("checkout", "standalone", "environment.py")
    files = [
        path
        for package in ("app", "geometry")
        for path in (ROOT / package).rglob("*.py")
        if not {*path.relative_to(ROOT).parts} & {*left_out}
    ]
    own = {".".join(path.relative_to(ROOT).with_suffix("").parts) for path in files}
    wanted = {name.removesuffix(".__init__") for name in own - {"app.__main__"}}
    wanted |= {name for path in files for name in imported(path) if name not in {"msvcrt"}}
    assert {"ezdxf.filemanagement", "pyqtgraph", "PySide6.QtPrintSupport"} <= wanted
    words = [HERE / "modules_loaded.py", *sorted(wanted)]
    assert answer([*LOOKS["stand-alone"], *words], tmp_path) == b""


def imported(path: Path) -> set[str]:
    """The modules that a file imports, at once, later, or never at run time."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
    return names


def test_it_is_small_enough_to_be_passed_on() -> None:
    files = [
        path for path in STANDALONE.parent.rglob("*") if path.is_file() and not path.is_symlink()
    ]
    size_mb = sum(path.stat().st_size for path in files) / 1e6
    assert size_mb <= LARGEST_MB
    for package in DIST.glob("*.deb"):
        assert package.stat().st_size / 1e6 <= LARGEST_PACKED_MB


def test_nothing_of_the_machine_that_built_it_is_named_in_it() -> None:
    texts = [
        each.read_bytes() for each in (STANDALONE.parent / "LICENCES").rglob("*") if each.is_file()
    ]
    assert len(texts) > 20
    assert not any(str(ROOT).encode() in text for text in texts)


def test_the_notices_name_the_files_that_a_user_may_replace() -> None:
    folder = STANDALONE.parent
    assert "Version 3" in (folder / "LICENCES" / "LGPL-3.txt").read_text("utf-8")
    notices = (folder / "LICENCES" / "NOTICES.txt").read_text("utf-8")
    lines = re.findall(r"^    (_internal/.*?)   ", notices, re.MULTILINE)
    places = [(line.rpartition("/")[0], line.rpartition("/")[2].split(", ")) for line in lines]
    assert len(places) == 4
    for place, names in places:
        assert all([*(folder / place).glob(name or "*")] for name in names), place


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What the Debian package would install."""
    packages = list(DIST.glob("*.deb"))
    if not packages:
        pytest.skip("this system makes no Debian packages")
    folder = tmp_path_factory.mktemp("installed")
    subprocess.run(["dpkg-deb", "-R", *packages, folder], check=True)
    return folder


def test_the_package_opens_set_ups_and_asks_for_what_the_source_asks_for(
    unpacked: Path, tmp_path: Path
) -> None:
    entry = (unpacked / "usr/share/applications/kneeline.desktop").read_text("utf-8")
    kind = (unpacked / "usr/share/mime/packages/kneeline.xml").read_text("utf-8")
    about = (unpacked / "usr/share/metainfo/kneeline.metainfo.xml").read_text("utf-8")
    (mime_type,) = re.findall(r"^MimeType=(.*);$", entry, re.MULTILINE)
    assert f'type="{mime_type}"' in kind
    assert f"<mediatype>{mime_type}</mediatype>" in about
    assert "Exec=env KNEELINE_FROM_MENU=1 kneeline %f" in entry
    assert (unpacked / "usr/share/icons/hicolor/scalable/apps/kneeline.svg").is_file()
    command = unpacked / "usr/bin/kneeline"
    assert answer([command, "--version"], tmp_path).startswith(b"kneeline ")
    depends = (unpacked / "DEBIAN/control").read_text("utf-8")
    for package in ("libegl1", "libxkbcommon-x11-0", "libfontconfig1", "libc6 (>= 2."):
        assert package in depends
    assert os.readlink(command) == "../lib/kneeline/kneeline"
    assert sys.executable not in depends
