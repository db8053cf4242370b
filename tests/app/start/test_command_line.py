"""The program from its command line: what it prints, writes and returns."""

import json
import os
import subprocess
import sys
from dataclasses import asdict
from pathlib import Path
from types import SimpleNamespace

import pytest

from app import __version__
from app.__main__ import main
from app.files.parts_file import PartsDocument, save_parts
from app.files.resources import SHARED
from app.files.storage import SCHEMA, Document, bytes_of, save
from app.numbers import numbers
from app.rider.inputs import DEFAULTS, changed
from app.rider.parts import PartEntry, Parts
from app.rider.setup import Setup, estimated
from app.start import FROM_MENU

ROOT = Path(__file__).parents[3]


def run(*arguments, stdout=subprocess.PIPE, python=("-m", "app"), **environment):
    """The program in a process of its own, with no display and these variables."""
    hidden = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    kept = {name: value for name, value in os.environ.items() if name not in hidden}
    return subprocess.run(
        [sys.executable, *python, *arguments],
        cwd=ROOT,
        env={**kept, **environment},
        stdout=stdout,
        stderr=subprocess.PIPE,
        timeout=60,
        check=False,
    )


def refusal(capsys, *arguments):
    """The one line that a refused command prints."""
    assert main(arguments) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith("kneeline: ")
    assert printed.err.count("\n") == 1
    return printed.err.removeprefix("kneeline: ").rstrip("\n")


def test_the_module_prints_the_numbers_in_utf_8_whatever_the_locale():
    done = run("--numbers", LC_ALL="C", PYTHONUTF8="0", PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (0, b"")
    assert json.loads(done.stdout.decode("utf-8")) == numbers(Setup())


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere there is always a display")
def test_without_a_display_the_module_says_so_and_what_to_use():
    done = run()
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.startswith(b"kneeline: there is no display to open a window on; use --numb")
    assert done.stderr.count(b"\n") == 1


def test_numbers_need_neither_qt_nor_scipy():
    code = (
        "import sys; from app.__main__ import main; main(['--numbers']); "
        "sys.exit(any(name in sys.modules for name in ('PySide6', 'pyqtgraph', 'scipy')))"
    )
    assert run(python=("-c", code)).returncode == 0


@pytest.mark.skipif(sys.platform == "win32", reason="needs Unix pipes")
@pytest.mark.parametrize("argument", ["--numbers", "--help"])
def test_a_reader_that_goes_away_is_no_error(argument):
    reading, writing = os.pipe()
    os.close(reading)
    done = run(argument, stdout=writing)
    os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_numbers_that_cannot_be_printed_are_an_error_of_one_line():
    with open("/dev/full", "wb") as full:
        done = run("--numbers", stdout=full)
    assert done.returncode == 2
    assert done.stderr == b"kneeline: cannot print: No space left on device\n"


def test_ctrl_c_is_quiet(capsys, monkeypatch):
    def interrupted(_arguments):
        raise KeyboardInterrupt

    monkeypatch.setattr("app.start.running.understood", interrupted)
    assert main([]) == 130
    assert capsys.readouterr() == ("", "")


def test_help_and_version_are_printed(capsys):
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"kneeline {__version__}\n"
    assert main(["--help"]) == 0
    assert capsys.readouterr().out.startswith("usage: kneeline [FILE]")


def test_numbers_follow_the_file_and_the_changes(capsys):
    monoski = str(SHARED / "monoski.json")
    assert main([monoski, "--numbers", "--set", "knee_bend_deg=40,5"]) == 0
    inputs = json.loads(capsys.readouterr().out)["inputs"]
    assert (inputs["knee_bend_deg"], inputs["across_spacing_mm"]) == (40.5, 155.0)


def test_a_leg_dimension_can_be_estimated_or_measured(capsys):
    stature = ["--set", "knee_height_mm=444", "--set", "stature_mm=1600", "--set", "figures=women"]
    assert main(["--numbers", *stature]) == 0
    inputs = json.loads(capsys.readouterr().out)["inputs"]
    supposed = estimated(Setup(), stature_mm=1600.0, figures="women").inputs
    assert inputs == asdict(changed(supposed, knee_height_mm=444.0))


def test_a_newer_file_is_read_with_a_remark(capsys, tmp_path):
    raw = json.loads(bytes_of(Document(Setup(inputs=changed(DEFAULTS, knee_bend_deg=30)))))
    newer = tmp_path / "newer.json"
    newer.write_text(json.dumps({**raw, "schema": SCHEMA + 1}), "utf-8")
    assert main([str(newer), "--numbers"]) == 0
    printed = capsys.readouterr()
    assert json.loads(printed.out)["inputs"]["knee_bend_deg"] == 30.0
    assert "newer version of Kneeline" in printed.err


def test_the_numbers_build_from_the_parts_list_named(capsys):
    assert main(["--numbers", "--parts", str(SHARED / "parts-fixed-slopes.json")]) == 0
    parts = json.loads(capsys.readouterr().out)["parts"]
    assert (parts["list"], parts["reason"], len(parts["combinations"])) == (
        "Fixed slopes",
        None,
        10,
    )


def test_the_numbers_hold_the_set_up_against_last_seasons(capsys):
    then = str(SHARED / "neutral.json")
    assert main(["--numbers", "--last-season", then, "--ask", "age_years=9"]) == 0
    growth = json.loads(capsys.readouterr().out)["growth"]
    assert growth["last_season"] == "Standing at the natural spacing"
    assert growth["forecast"]["forecast_age_years"] == 10.0


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--parts", "none.json"], "cannot open none.json: there is no such file"),
        (
            ["--parts", str(SHARED / "neutral.json")],
            f"cannot open {SHARED / 'neutral.json'}: it is a set-up, not a",
        ),
        (["--last-season", "none.json"], "cannot open none.json: there is no such file"),
        (["--last-season", str(SHARED / "parts-none.json")], "cannot open"),
        (
            ["--with", "reachable", "--ask", "front_angle_most_deg=-50"],
            "the least front binding angle, 34 deg, is more than the most, -50 deg",
        ),
        (["--set", "front_lift=3"], "there is no input named 'front_lift'; did you mean front_l"),
        (["--set", "front_lift_deg=16"], "front_lift_deg is 16; it must lie between -15 and 15"),
        (["--set", "front_lift_deg=1e999"], "front_lift_deg is inf; it must lie between -15 and"),
        (["--set", "front_lift_deg=high"], "front_lift_deg is 'high'; it must be a number"),
        (["--set", "hip_height_mm=450"], "knee height is 490 mm; it must be less than the hip"),
        (
            ["--set", "stature_mm=1000", "--set", "inseam_mm=1100"],
            "inseam is 1100 mm; it must be less than the",
        ),
        (["none.json"], "cannot open none.json: there is no such file"),
        (["n" * 5000], f"cannot open {'n' * 5000}: "),
        ([str(ROOT)], f"there is no set-up in the folder {ROOT}"),
        (["--frobnicate"], "unrecognized arguments: --frobnicate; see kneeline --help"),
    ],
)
def test_a_command_that_cannot_be_followed_gets_one_line_and_code_2(capsys, arguments, message):
    assert refusal(capsys, "--numbers", *arguments).startswith(message)


@pytest.fixture
def painter(monkeypatch):
    """In place of the painter of pictures: says what it was asked for."""
    asked = []

    def snapshot_png(setup, scale, *, rider):
        assert rider
        asked.append((setup.inputs.knee_bend_deg, scale, os.environ["QT_QPA_PLATFORM"]))
        return b"a picture"

    monkeypatch.setenv("QT_QPA_PLATFORM", "minimal")
    module = SimpleNamespace(snapshot_png=snapshot_png)
    monkeypatch.setitem(sys.modules, "app.features.paper.snapshot", module)
    return asked


def test_a_snapshot_is_painted_offscreen_and_written_whole(painter, tmp_path, capsys):
    path = tmp_path / "a.png"
    assert main(["--set", "knee_bend_deg=33", "--snapshot", str(path), "--scale", "1,5"]) == 0
    assert painter == [(33.0, 1.5, "offscreen")]
    assert path.read_bytes().startswith(b"a picture")
    assert capsys.readouterr() == ("", "")


def test_a_snapshot_and_the_numbers_can_be_had_at_once(painter, tmp_path, capsys):
    assert main(["--numbers", "--snapshot", str(tmp_path / "a.png")]) == 0
    assert len(painter) == 1
    assert json.loads(capsys.readouterr().out)["pelvis"]["depth_mm"] is not None


def test_a_picture_that_cannot_be_written_is_a_mistake_like_any_other(painter, tmp_path, capsys):
    message = refusal(capsys, "--snapshot", str(tmp_path / "none" / "a.png"))
    assert message.endswith("a.png: there is no such folder")
    assert len(painter) == 1


def test_the_window_opens_on_the_file_with_its_changes(monkeypatch):
    opened_on = []

    def open_window(document, path, _refused):
        setup = document.setup
        opened_on.append((setup.name, setup.inputs.left.side_give_deg, path))
        return 0

    module = SimpleNamespace(open_window=open_window)
    monkeypatch.setitem(sys.modules, "app.window.program", module)
    monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
    path = SHARED / "monoski.json"
    assert main([str(path), "--set", "side_give_deg=7"]) == 0
    assert opened_on == [("Monoskier", 7.0, path)]


@pytest.mark.parametrize("option", ["", "--last-season", "--parts"])
def test_half_a_letter_in_a_name_is_printed_as_json_writes_it(tmp_path, option):
    name = "half \ud800 a letter"
    parts = Parts(name=name, parts=(PartEntry(name, "turnable", 3.0, 6.0),))
    path = tmp_path / "half.json"
    if option == "--parts":
        save_parts(path, PartsDocument(parts))
    else:
        save(path, Document(Setup(name=name, parts=parts)))
    done = run("--numbers", *filter(None, [option]), str(path))
    assert (done.returncode, done.stderr) == (0, b"")
    told = json.loads(done.stdout.decode("utf-8"))
    assert name in json.dumps(told, ensure_ascii=False)


def test_a_file_from_the_desktop_that_cannot_be_opened_is_left_to_the_window(
    monkeypatch, tmp_path, capsys
):
    opened_on = []
    module = SimpleNamespace(open_window=lambda *given: opened_on.append(given) or 0)
    monkeypatch.setitem(sys.modules, "app.window.program", module)
    monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
    path = tmp_path / "broken.kneeline"
    path.write_text("{")
    assert "it is not valid JSON" in refusal(capsys, str(path))
    monkeypatch.setenv(FROM_MENU, "1")
    assert main([str(path)]) == 0
    assert opened_on == [(Document(Setup()), None, path)]
    assert "it is not valid JSON" in refusal(capsys, str(path), "--numbers")
