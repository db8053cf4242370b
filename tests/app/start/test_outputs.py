"""What the command line writes: each file whole, as the window would write it, and never over
another."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from app.__main__ import main
from app.files.parts_file import parts_opened
from app.files.resources import SHARED
from app.files.storage import SCHEMA, Document, bytes_of, opened, save
from app.rider.setup import Setup, edited
from app.rider.wedge import USUAL_WEDGE

ROOT = Path(__file__).parents[3]
ROUND = SHARED / "parts-round-wedges.json"


@pytest.fixture(autouse=True)
def at_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    return err.removeprefix("kneeline: ").rstrip()


def test_a_set_up_is_saved_as_it_was_changed(capsys: pytest.CaptureFixture[str]) -> None:
    changes = ["--set", "knee_bend_deg=50", "--parts", str(ROUND)]
    assert main([str(SHARED / "monoski.json"), *changes, "--save", "new.json"]) == 0
    assert capsys.readouterr() == ("", "")
    setup = opened(Path("new.json")).setup
    assert setup.inputs == edited(opened(SHARED / "monoski.json").setup, knee_bend_deg=50.0).inputs
    assert setup.parts == parts_opened(ROUND).parts


def test_what_this_version_does_not_know_is_saved_again() -> None:
    known = json.loads(bytes_of(Document(Setup())))
    Path("a.json").write_text(json.dumps({**known, "club": "north"}))
    assert main(["a.json", "--save", "b.json"]) == 0
    assert json.loads(Path("b.json").read_text())["club"] == "north"
    Path("newer.json").write_text(json.dumps({**known, "schema": SCHEMA + 1, "club": "north"}))
    assert main(["newer.json", "--save", "copy.json"]) == 0
    assert "club" not in json.loads(Path("copy.json").read_text())


@pytest.mark.parametrize("option", ["--save a.json", "--sheet a.pdf", "--wedge rear a.stl",
                                    "--snapshot a.png", "--web a.html", "--handout a.pdf",
                                    "--over knee_bend_deg=30:60 --clip a.gif"])  # fmt: skip
def test_nothing_is_overwritten_unless_that_is_asked_for(
    capsys: pytest.CaptureFixture[str], option: str
) -> None:
    path = Path(option.rsplit(maxsplit=1)[-1])
    path.write_text("mine")
    said = refused(capsys, *option.split())
    assert said == f"{path} is there already; give another name, or --force to overwrite it"
    assert path.read_text() == "mine"
    other = option.replace("a.", "b.").split()
    assert refused(capsys, *other, "--wedge", "front", "b.stl", "--wedge", "front", "b.stl")
    assert os.listdir() == [path.name]


def test_a_page_is_written_in_the_language_asked_for_and_tells_what_is_asked() -> None:
    own = replace(Setup(), name="Ibex", notes="wobbly lane")
    save(Path("a.json"), Document(own))
    assert main(["a.json", "--set", "front_angle_deg=30", "--web", "a.html"]) == 0
    options = ["--web", "b.html", "--language", "de", "--telling", "name,notes"]
    assert main(["a.json", *options]) == 0
    page, german = (Path(name).read_text("utf-8") for name in ("a.html", "b.html"))
    assert '<html lang="en">' in page
    assert '"front_angle_deg":30.0' in page
    assert not any(own_word in page for own_word in ("Ibex", "wobbly lane"))
    assert '<html lang="de">' in german
    assert all(own_word in german for own_word in ("Ibex", "wobbly lane", "Vorsicht"))


def test_with_force_it_is_overwritten(capsys: pytest.CaptureFixture[str]) -> None:
    Path("a.json").write_text("mine")
    assert main(["--save", "a.json", "--force"]) == 0
    assert opened(Path("a.json")).setup == Setup()


@pytest.mark.skipif(sys.platform == "win32", reason="needs links")
def test_a_link_to_nowhere_is_something_too(capsys: pytest.CaptureFixture[str]) -> None:
    Path("a.json").symlink_to("nowhere.json")
    assert "is there already" in refused(capsys, "--save", "a.json")


def test_two_wedges_are_not_written_to_one_file(capsys: pytest.CaptureFixture[str]) -> None:
    wedges = ["--wedge", "front", "a.stl", "--wedge", "rear", f"../{Path.cwd().name}/a.stl"]
    assert "cannot be written twice" in refused(capsys, *wedges, "--force")


def test_a_wedge_that_nothing_is_asked_of_is_said_to_be_a_flat_plate(
    capsys: pytest.CaptureFixture[str],
) -> None:
    mounts = {"front": ("0", "2"), "rear": ("0", "0")}
    changes = [
        part
        for foot, (lift, cant) in mounts.items()
        for part in ("--set", f"{foot}_lift_deg={lift}", "--set", f"{foot}_cant_deg={cant}")
    ]
    wedges = ["--wedge", "front", "f.stl", "--wedge", "rear", "r.dxf"]
    assert main([*changes, *wedges]) == 0
    out, err = capsys.readouterr()
    said = "kneeline: the rear foot asks for no lift and no cant: r.dxf is a flat plate\n"
    assert (out, err) == ("", said)
    assert sorted(os.listdir()) == ["f.stl", "r.dxf"]


def test_where_one_file_cannot_be_made_none_is_written(capsys: pytest.CaptureFixture[str]) -> None:
    wedge = replace(USUAL_WEDGE, slopes="typed", foot="rear")
    save(Path("rider.json"), Document(Setup(wedge=wedge)))
    said = refused(capsys, "rider.json", "--save", "a.json", "--wedge", "front", "f.stl")
    why = "the lift and cant typed are those of the rear foot's wedge"
    assert said == f"cannot save f.stl: {why}"
    assert os.listdir() == ["rider.json"]


def test_nothing_is_written_beside_numbers_that_contradict_themselves(
    capsys: pytest.CaptureFixture[str],
) -> None:
    ask = ["--numbers", "--only", "reachable", "--ask", "splay_most_deg=-90"]
    assert "splay" in refused(capsys, *ask, "--save", "a.json")
    assert not os.listdir()


def test_wedges_are_those_of_the_foot_named() -> None:
    assert main(["--wedge", "front", "f.dxf", "--wedge", "rear", "r.stl"]) == 0
    assert b"Wedge for the front foot" in Path("f.dxf").read_bytes()
    assert b"rear foot" in Path("r.stl").read_bytes()[:80]


def test_sheet_and_picture_are_painted_without_a_screen() -> None:
    hidden = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    bare = {name: value for name, value in os.environ.items() if name not in hidden}
    rider = [str(SHARED / "hard-boots.json"), "--parts", str(ROUND)]
    options = ["--sheet", "a.pdf", "--snapshot", "a.png", "--scale", "0.5"]
    done = subprocess.run(
        [sys.executable, "-m", "app", *rider, *options],
        env={**bare, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        check=False,
        timeout=60,
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")
    (page,) = PdfReader("a.pdf").pages
    said = " ".join(page.extract_text().split())
    assert opened(SHARED / "hard-boots.json").setup.name in said
    assert Path("a.png").read_bytes().startswith(b"\x89PNG")


def test_clip_and_handout_are_made_without_a_screen() -> None:
    hidden = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    bare = {name: value for name, value in os.environ.items() if name not in hidden}
    clip = ["--clip", "a.webp", "--over", "knee_bend_deg=30:60", "--seconds", "1"]
    done = subprocess.run(
        [sys.executable, "-m", "app", str(SHARED / "hard-boots.json"), "--handout", "a.pdf", *clip],
        env={**bare, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        check=False,
        timeout=60,
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")
    assert len(PdfReader("a.pdf").pages) == 2
    with Image.open("a.webp") as moving:
        assert moving.n_frames == 20


def test_a_lesson_is_filmed_and_printed_in_the_language_asked_for() -> None:
    lesson = ["--lesson", "no-cant-needed", "--for-children", "--language", "de"]
    assert main([*lesson, "--clip", "a.gif", "--handout", "a.pdf"]) == 0
    with Image.open("a.gif") as moving:
        assert moving.n_frames > 10
    said = "".join("".join(p.extract_text().split()) for p in PdfReader("a.pdf").pages)
    assert "Antworten" in said
    assert "Answers" not in said


def test_a_lesson_that_is_not_there_or_is_none_is_refused_and_leaves_nothing(
    capsys: pytest.CaptureFixture[str],
) -> None:
    pdf = ("--handout", "a.pdf")
    said = refused(capsys, "--lesson", "wide-stence", *pdf)
    assert said.endswith("named wide-stence; did you mean wide-stance?")
    assert "it is a parts list, not a lesson" in refused(capsys, "--lesson", str(ROUND), *pdf)
    assert not os.listdir()


def test_a_clip_that_cannot_be_made_leaves_nothing_behind(
    capsys: pytest.CaptureFixture[str],
) -> None:
    still = ["--over", "knee_bend_deg=40:40"]
    assert "nothing moves" in refused(capsys, "--clip", "a.gif", *still, "--save", "a.json")
    low = ["--over", "hip_height_mm=800:400"]
    said = refused(capsys, "--clip", "a.gif", *low, "--handout", "a.pdf")
    assert said.startswith("cannot save a.gif: knee height")
    assert not os.listdir()


def test_a_set_up_comes_from_standard_input(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def give(data: bytes) -> None:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(data)))

    give(bytes_of(Document(edited(Setup(), knee_bend_deg=33.0))))
    assert main(["-", "--save", "a.json"]) == 0
    assert opened(Path("a.json")).setup.inputs.knee_bend_deg == 33.0
    give(b"")
    assert refused(capsys, "-", "--numbers") == "cannot open standard input: it is empty"
    give(b" " * 5_000_001)
    assert refused(capsys, "-", "--numbers").endswith("standard input: it is larger than 5 MB")
    give(ROUND.read_bytes())
    assert refused(capsys, "-", "--numbers").startswith("cannot open standard input: it is a parts")
    monkeypatch.setattr("sys.stdin", None)
    assert refused(capsys, "-", "--numbers") == "cannot open standard input: there is none"


def test_a_file_of_another_kind_is_told_where_it_belongs(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert refused(capsys, str(ROUND), "--numbers") == (
        f"cannot open {ROUND}: it is a parts list, not a set-up; build from it with --parts {ROUND}"
    )
    rider = SHARED / "monoski.json"
    assert refused(capsys, "--numbers", "--parts", str(rider)) == (
        f"cannot open {rider}: it is a set-up, not a parts list; give it as FILE"
    )
