"""What every test stands on: no screen, and a folder of its own for what the program keeps."""

from __future__ import annotations

import os
from itertools import count
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile(
    "kneeline",
    # A shared machine may pause anywhere.
    deadline=None,
    # About half of all slider positions have no posture: to be thrown away where a
    # test is about postures.
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)
settings.load_profile("kneeline")

# Before anything imports Qt, which looks once and stays with what it finds.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# What the program says is checked in English, whatever the machine's language.
for name in ("LC_ALL", "LC_MESSAGES", "LANGUAGE"):
    os.environ.pop(name, None)
os.environ["LANG"] = "C.UTF-8"


_NUMBERS = count()


@pytest.fixture(autouse=True)
def user_folder(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder in which settings, recovery files and caches land during a test.

    Only named, as most tests write nothing: who does makes it.
    """
    folder = tmp_path_factory.getbasetemp() / f"user-{next(_NUMBERS)}"
    for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"):
        monkeypatch.setenv(name, str(folder / name.lower()))
    return folder
