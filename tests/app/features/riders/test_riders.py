"""A folder of riders at a glance."""

import pytest
from PySide6.QtGui import QImage

from app.features.paper.snapshot import png_bytes
from app.features.riders.model import UNREADABLE, Rider, listed, matches, rider_in
from app.files.file_kinds import set_up_files
from app.files.resources import SHARED
from app.files.storage import Document, carrying, save
from app.rider.setup import Setup, edited
from app.stance.findings import DRIFTING, IN_PLANE, NO_POSTURE, OUT_OF_PLANE, USUAL_LIMITS, Limits


@pytest.fixture
def folder(tmp_path):
    for name, changes in {
        "Anna": {"front_angle_deg": 0, "rear_angle_deg": 0},
        "berta": {},
        "Carl": {"side_give_deg": 15},
    }.items():
        save(tmp_path / f"{name}.json", Document(edited(Setup(name=name), **changes)))
    (tmp_path / "Carl.json").rename(tmp_path / "Carl.kneeline")
    (tmp_path / "broken.JSON").write_text("{")
    (tmp_path / "notes.txt").write_text("no set-up")
    return tmp_path


def test_only_files_that_may_hold_set_ups_are_listed_by_name(folder):
    names = [path.name for path in set_up_files(folder)]
    assert names == ["Anna.json", "berta.json", "broken.JSON", "Carl.kneeline"]
    assert set_up_files(folder / "none") == []


def test_pictures_and_other_files_are_listed_only_where_a_set_up_opens_from_them(
    folder, qapp, tmp_path
):
    """A picture without a set-up and a parts list are nobody; a damaged set-up is somebody's."""
    plain = png_bytes(QImage(4, 4, QImage.Format.Format_RGB32))
    carried = edited(Setup(name="Dora"), front_cant_deg=1.0)
    (tmp_path / "plain.png").write_bytes(plain)
    (tmp_path / "dora.PNG").write_bytes(carrying(plain, Document(carried)))
    (tmp_path / "parts.json").write_bytes((SHARED / "parts-round-wedges.json").read_bytes())
    paths = set_up_files(folder, pictures=True)
    assert {"plain.png", "dora.PNG", "parts.json"} < {path.name for path in paths}
    found = [rider for path in paths if (rider := listed(path, USUAL_LIMITS)) is not None]
    assert [rider.name for rider in found] == ["Anna", "berta", "broken", "Carl", "Dora"]
    assert found[-1].file == "dora.PNG, a picture"
    assert matches(found[-1], "picture dora")


def test_each_rider_has_the_state_of_the_worse_knee(folder):
    # The states of these set-ups, as the findings of the same set-ups give them.
    anna, berta, broken, carl = (rider_in(path, USUAL_LIMITS) for path in set_up_files(folder))
    assert (anna.state, berta.state, carl.state) == (OUT_OF_PLANE, DRIFTING, IN_PLANE)
    assert anna.glance.endswith("° out of its plane")
    assert berta.glance == "2.6° a little out"
    assert berta.legs[1] == "2.6° a little out, bow-legged"
    assert (broken.state, broken.name) == (UNREADABLE, "broken")
    assert "it is not valid JSON" in broken.problem


def test_the_limits_decide_the_state(folder):
    assert rider_in(folder / "berta.json", Limits(3.0, 3.3)).state == IN_PLANE


def test_the_worst_comes_first_and_what_cannot_be_read_last():
    riders = [
        Rider(None, "a", UNREADABLE), Rider(None, "b", IN_PLANE, 0.2),
        Rider(None, "c", OUT_OF_PLANE, 9.0), Rider(None, "d", NO_POSTURE),
        Rider(None, "e", OUT_OF_PLANE, 11.0), Rider(None, "f", DRIFTING, 2.0),
    ]  # fmt: skip
    riders.sort(key=lambda rider: rider.severity, reverse=True)
    assert "".join(rider.name for rider in riders) == "decfba"


def test_a_rider_is_found_by_the_notes_too(tmp_path):
    save(tmp_path / "a.json", Document(Setup(name="Anna", notes="knee clicks\nnew liners")))
    anna = rider_in(tmp_path / "a.json", USUAL_LIMITS)
    assert matches(anna, "anna LINERS")
    assert not matches(anna, "anna hip")


@pytest.mark.parametrize(
    ("typed", "found"),
    [("", True), ("BERTA", True), ("little bow", True), ("berta out of", False), ("  json ", True)],
)
def test_a_rider_is_found_by_all_the_words_typed(folder, typed, found):
    assert matches(rider_in(folder / "berta.json", USUAL_LIMITS), typed) is found
