"""What stands in the way of a window is said before Qt ends the process over it."""

import socket
import sys

import pytest

from app.start import display
from app.start.display import why_libraries_want, why_no_window

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="asked on Linux only")

NOBODY = ":4093"
"""A display number that no server has."""


@pytest.mark.parametrize(
    "environment",
    [{}, {"DISPLAY": ""}, {"QT_QPA_PLATFORM": "xcb"}, {"WAYLAND_DISPLAY": "wayland-77"},
     {"QT_QPA_PLATFORM": "wayland", "DISPLAY": NOBODY}],
)  # fmt: skip
def test_without_a_display_the_message_says_what_to_use(environment):
    why = why_no_window(environment)
    assert why.startswith("there is no display to open a window on")
    assert "--numbers" in why
    assert "--snapshot OUT.png" in why


@pytest.mark.parametrize("platform", ["offscreen", "minimal", "vnc:size=800x600"])
def test_a_platform_that_needs_no_display_is_left_alone(platform):
    assert why_no_window({"QT_QPA_PLATFORM": platform}) == ""


def test_a_display_that_does_not_answer_is_named(monkeypatch):
    monkeypatch.setattr(display, "X11_LIBRARIES", {})
    assert why_no_window({"DISPLAY": NOBODY}).startswith(f"the display {NOBODY} does not answer")


def test_missing_libraries_are_named_with_all_their_packages(monkeypatch):
    absent = {"libabsent-one.so.1": "libabsent-one1", "libabsent-two.so.2": "libabsent-two2"}
    monkeypatch.setattr(display, "X11_LIBRARIES", {"libc.so.6": "libc6", **absent})
    assert why_no_window({"DISPLAY": NOBODY}) == (
        "the system lacks libabsent-one.so.1, libabsent-two.so.2; on Debian or Ubuntu type: "
        "sudo apt-get install libabsent-one1 libabsent-two2"
    )
    assert why_libraries_want({"libc.so.6": "libc6"}) == ""


def test_a_wayland_compositor_that_answers_is_enough(tmp_path):
    with socket.socket(socket.AF_UNIX) as compositor:
        compositor.bind(str(tmp_path / "wayland-0"))
        compositor.listen()
        here = {"XDG_RUNTIME_DIR": str(tmp_path), "WAYLAND_DISPLAY": "wayland-0"}
        assert why_no_window(here) == ""
        assert why_no_window({**here, "QT_QPA_PLATFORM": "xcb"}) != ""
    assert why_no_window(here) != ""


def test_a_qt_that_cannot_be_loaded_is_explained(monkeypatch):
    monkeypatch.setitem(sys.modules, "PySide6.QtWidgets", None)
    assert display.why_no_qt().startswith("Qt cannot be loaded (")
    monkeypatch.setattr(display, "QT_LIBRARIES", {"libabsent.so.1": "libabsent1"})
    assert display.why_no_qt().startswith("the system lacks libabsent.so.1;")
