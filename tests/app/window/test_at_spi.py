"""The window over AT-SPI, asked in a session bus of its own as a screen reader asks."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[3]
READER = ROOT / "tests" / "helpers" / "at_spi_session.py"
SYSTEM_PYTHON = "/usr/bin/python3"
LAUNCHERS = [Path("/usr/libexec/at-spi-bus-launcher"), *Path("/usr/lib").glob("at-spi*/*launcher")]
IMAGE = 27
"""AT-SPI's role of an image, which Qt calls graphic."""
Told = dict[str, list[dict[str, Any]]]


def missing() -> str:
    """What this machine lacks to ask over AT-SPI, by the names of Debian's packages."""
    found = {
        "dbus": shutil.which("dbus-run-session"),
        "xvfb": shutil.which("Xvfb"),
        "at-spi2-core": any(each.exists() for each in LAUNCHERS),
        "python3-dbus": Path(SYSTEM_PYTHON).exists()
        and not subprocess.run(
            [SYSTEM_PYTHON, "-c", "import dbus"], check=False, capture_output=True
        ).returncode,
    }
    return ", ".join(name for name, there in found.items() if not there)


@pytest.fixture(scope="module")
def told() -> Told:
    """What was read before and after a page was opened over the bus."""
    if lacks := missing():
        pytest.skip(f"nothing can be asked over AT-SPI without {lacks}")
    command = ["dbus-run-session", "--", SYSTEM_PYTHON, str(READER), sys.executable, str(ROOT)]
    run = subprocess.run(command, capture_output=True, text=True, timeout=150, check=False)
    assert run.returncode == 0, run.stderr[-2000:]
    told: Told = json.loads(run.stdout.splitlines()[-1])
    return told


def the(told: Told, when: str, role: str) -> list[dict[str, Any]]:
    return [each for each in told[when] if each["role"] == role]


def test_tabs_choices_and_groups_come_over_the_bus_as_what_they_are(told: Told) -> None:
    tabs = the(told, "before", "page tab")
    assert len(tabs) >= 11
    assert not any("selected" in tab["states"] for tab in tabs)
    choices = {each["name"]: each["states"] for each in the(told, "before", "radio button")}
    assert "checked" in choices["Lead foot: left"]
    assert "checked" not in choices["Lead foot: right"]
    buttons = {each["name"]: each["states"] for each in told["before"] if "button" in each["role"]}
    assert {"expandable", "expanded"} <= {*buttons["Stance"]}
    assert "checkable" not in buttons["Stance"]


def test_the_drawings_come_over_the_bus_with_their_values(told: Told) -> None:
    (drawings,) = the(told, "before", "graphic")
    assert drawings["name"] == "Drawings"
    assert drawings["number"] == IMAGE
    assert "left foot in front" in drawings["description"]
    texts = [each["name"] for each in told["before"]]
    assert any("long axes are 384 mm apart" in each for each in texts)


def test_a_page_is_opened_over_the_bus_and_its_plots_can_be_read(told: Told) -> None:
    tabs = the(told, "after", "page tab")
    chosen = [each["name"] for each in tabs if "selected" in each["states"]]
    assert chosen == ["Through the bend"]
    images = [each["name"] for each in the(told, "after", "graphic")]
    assert {"Drawings", "Knee bend", "Hips turned"} <= {*images}
    assert any(each["name"].startswith("At 60°: front ") for each in told["after"])


def test_nothing_comes_over_the_bus_without_a_name_or_with_tags(told: Told) -> None:
    holders = {"filler", "layered pane", "scroll bar", "split pane", "table cell", "panel"}
    for each in told["after"]:
        assert each["name"] or each["role"] in {*holders, "combo box"}, each
        assert "</" not in each["name"] + each["description"], each
