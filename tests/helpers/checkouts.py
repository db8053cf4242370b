"""A small checkout whose set-up is the real one, with packages of its own and no network.

Python, venv, pip and the files are real.  Played are the packages, empty ones in a folder
that serves as the index; the program, which says that it started and with what words; and
the system's libraries, which are taken to be there.
"""

from __future__ import annotations

import base64
import hashlib
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tomllib
import zipfile
from contextlib import ExitStack
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
PROGRAM = """
import sys
print("started", *sys.argv[1:])
print(__file__)
if "wait" in sys.argv:
    sys.stdout.flush()
    sys.stdin.read()
if __name__ == "__main__":
    sys.exit(7 if "fail" in sys.argv else 0)
"""
NO_SYSTEM_PACKAGES = "LIBRARIES = {}\ndef bring_system_packages(more=()):\n    pass\n"
CLOSED = {"PIP_INDEX_URL": "http://127.0.0.1:9/simple", "PIP_RETRIES": "1"}
"""Settings under which pip finds nobody who answers, as without a network."""


class Checkout:
    """A checkout and how to start it.

    Attributes:
        root: its folder.
        index: the folder in which pip finds packages.
        commands: the folder in which a start finds python3.
    """

    def __init__(self, root: Path, index: Path, commands: Path) -> None:
        self.root = root
        self.index = index
        self.commands = commands

    @property
    def home(self) -> Path:
        return self.root / ".kneeline-env"

    def current(self) -> dict[str, Any]:
        told: dict[str, Any] = json.loads((self.home / "current").read_text())
        return told

    def environments(self) -> list[str]:
        return sorted(path.name for path in self.home.iterdir() if path.name.isdecimal())

    def has(self, name: str) -> bool:
        """Whether the environment in force has a module."""
        here = self.home / self.current()["name"]
        return any(here.glob(f"lib/*/site-packages/{name}.py"))

    def needs(self, requirement: str) -> None:
        """Declare one more package that the program needs."""
        self.declare('    "ezdxf', f'    "{requirement}",\n    "ezdxf')

    def declare(self, old: str, new: str) -> None:
        """Change the declaration."""
        file = self.root / "pyproject.toml"
        text = file.read_text("utf-8")
        assert old in text
        file.write_text(text.replace(old, new), "utf-8")

    def machine(self, **settings: str) -> dict[str, str]:
        """The environment variables of a start: pip reads the index and no more."""
        kept = {name: value for name, value in os.environ.items() if name.startswith("XDG_")}
        pip = {"PIP_CONFIG_FILE": os.devnull, "PIP_NO_CACHE_DIR": "1"}
        open_index = {"PIP_NO_INDEX": "1", "PIP_FIND_LINKS": str(self.index)}
        reached = {} if "PIP_INDEX_URL" in settings else open_index
        path = f"{self.commands}:/usr/bin:/bin"
        return {**kept, **pip, **reached, "PATH": path, "HOME": str(self.root.parent), **settings}

    def popen(self, *words: str, **settings: str) -> subprocess.Popen[str]:
        """A start in a process group of its own."""
        return subprocess.Popen(
            ["/bin/sh", str(self.root / "app" / "start.sh"), *words],
            env=self.machine(**settings),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            encoding="utf-8",
            start_new_session=True,
        )

    def start(self, *words: str, **settings: str) -> subprocess.CompletedProcess[str]:
        """A start and what came of it."""
        with self.popen(*words, **settings) as process:
            out, err = process.communicate(timeout=60)
        return subprocess.CompletedProcess(process.args, process.returncode, out, err)

    def copied(self, root: Path) -> Checkout:
        """A copy elsewhere, environment included."""
        shutil.copytree(self.root, root, symlinks=True, copy_function=os.link)
        for name in ("pyproject.toml", ".kneeline-env/current"):
            # Links would carry a change into the original.
            shutil.copyfile(self.root / name, root / f"{name}.new")
            (root / f"{name}.new").replace(root / name)
        return Checkout(root, self.index, self.commands)


def bare_checkout(folder: Path) -> Checkout:
    """A checkout with no environment, and an index that has what it declares."""
    root = folder / "checkout"
    shutil.copytree(ROOT / "app" / "start", root / "app" / "start")
    for name in ("app/start.sh", "app/package.sh", "app/__init__.py", "pyproject.toml"):
        shutil.copy(ROOT / name, root / name)
    (root / "app" / "__main__.py").write_text(PROGRAM)
    (root / "app" / "start" / "checkout" / "system_packages.py").write_text(NO_SYSTEM_PACKAGES)
    (folder / "bin").mkdir()
    (folder / "bin" / "python3").symlink_to(os.path.realpath(sys.executable))
    index = folder / "index"
    index.mkdir()
    project = tomllib.loads((root / "pyproject.toml").read_text("utf-8"))["project"]
    for line in project["dependencies"]:
        name, version = re.match(r"([\w-]+)>=([\d.]+)", line).groups()  # type: ignore[union-attr]
        add_package(index, name, version)
    return Checkout(root, index, folder / "bin")


def add_package(index: Path, name: str, version: str = "1.0", code: str = "") -> None:
    """Put a wheel with one module into the index."""
    module = {"PySide6-Essentials": "PySide6/QtWidgets.py"}.get(name, f"{name}.py")
    stem = f"{name.replace('-', '_')}-{version}"
    about = f"{stem}.dist-info"
    files = {
        module: code,
        f"{about}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n",
        f"{about}/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = [f"{path},{_digest(text)},{len(text)}" for path, text in files.items()]
    files[f"{about}/RECORD"] = "\n".join([*record, f"{about}/RECORD,,"])
    with zipfile.ZipFile(index / f"{stem}-py3-none-any.whl", "w") as wheel:
        for path, text in files.items():
            wheel.writestr(path, text)


def _digest(text: str) -> str:
    digest = base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest())
    return f"sha256={digest.rstrip(b'=').decode()}"


class SilentIndex:
    """An index that takes calls and never answers: pip waits there, in the middle of its work.

    Attributes:
        settings: under which pip calls it.
    """

    def __init__(self) -> None:
        self._calls = ExitStack()
        self._server = self._calls.enter_context(socket.create_server(("127.0.0.1", 0)))
        self._server.settimeout(60)
        url = f"http://127.0.0.1:{self._server.getsockname()[1]}/simple"
        self.settings = {"PIP_INDEX_URL": url, "PIP_RETRIES": "0"}

    def __enter__(self) -> SilentIndex:
        return self

    def __exit__(self, *_: object) -> None:
        self.hang_up()

    def take_a_call(self) -> None:
        """Wait until pip calls."""
        self._calls.enter_context(self._server.accept()[0])

    def hang_up(self) -> None:
        """Let pip find out that nobody answers."""
        self._calls.close()


def end(process: subprocess.Popen[str], how: signal.Signals) -> tuple[int, str]:
    """End a start; its exit code and what it said."""
    if how == signal.SIGINT:
        # As at a terminal: every process of the group gets it.
        os.killpg(process.pid, how)
    else:
        process.send_signal(how)
    _, err = process.communicate(timeout=60)
    return process.returncode, err
