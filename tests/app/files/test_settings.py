"""Settings come back as they were left, and a broken file spoils none that is sound."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.files.settings import Settings, SettingsStore, WindowPlace, create_settings, read_settings
from app.stance.findings import USUAL_LIMITS, Limits

LEFT = {
    "unit": "in",
    "theme": "dark",
    "language": "de",
    "limits": Limits(0.5, 4.0),
    "place": WindowPlace(-30, 40, 1280, 800, maximised=True),
}


@pytest.fixture
def store(tmp_path):
    return SettingsStore(tmp_path / "deep" / "settings.json")


def test_settings_come_back_as_they_were_left(store):
    store.change(**LEFT)
    store.used(Path("/riders/anna.json"))
    again = SettingsStore(store.path).now
    assert again == Settings(**LEFT, folder="/riders", recent=("/riders/anna.json",))


def test_files_are_first_looked_for_where_people_keep_theirs_and_then_in_the_last_folder(
    store, tmp_path, monkeypatch
):
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    assert store.folder == str(tmp_path)
    (tmp_path / "Documents").mkdir()
    assert store.folder == str(tmp_path / "Documents")
    (tmp_path / "riders").mkdir()
    store.used(tmp_path / "riders" / "anna.json")
    assert store.folder == str(tmp_path / "riders")
    (tmp_path / "riders").rmdir()
    assert store.folder == str(tmp_path / "Documents")


def test_the_file_stands_where_the_user_keeps_settings(user_folder):
    create_settings().change(unit="cm")
    assert create_settings().now.unit == "cm"
    assert [path.name for path in user_folder.rglob("*.json")] == ["settings.json"]


BROKEN_ENTRIES = {
    "unit": ["furlong", 3, None, ["mm"]],
    "theme": ["pink", {}, True],
    "language": ["tlh", "", 1, None],
    "limits": [3, {"in_plane_deg": 1.0}, {"in_plane_deg": 5.0, "drifting_deg": 2.0},
               {"in_plane_deg": True, "drifting_deg": 2.0}],
    "folder": [7, None],
    "recent": ["a.json", 5, {"a": 1}],
    "place": [[1, 2, 3, 4], {"x": 1}, {"x": 0, "y": 0, "width": 0, "height": 5, "maximised": False},
              {"x": 0.5, "y": 0, "width": 9, "height": 9, "maximised": False},
              {"x": 0, "y": 0, "width": 9, "height": 9, "maximised": 1}],
}  # fmt: skip


@pytest.mark.parametrize(
    ("name", "value"), [(name, value) for name, all in BROKEN_ENTRIES.items() for value in all]
)
def test_an_entry_that_cannot_be_taken_leaves_the_others_alone(store, name, value):
    store.change(**LEFT, folder="/f", recent=("/f/a.json",))
    raw = json.loads(store.path.read_text("utf-8"))
    store.path.write_text(json.dumps(raw | {name: value}), "utf-8")
    expected = {**LEFT, "folder": "/f", "recent": ("/f/a.json",)}
    del expected[name]
    assert read_settings(store.path) == Settings(**expected)


@given(data=st.binary() | st.text().map(lambda text: json.dumps([text]).encode()))
def test_no_bytes_keep_the_program_from_starting(tmp_path_factory, data):
    path = tmp_path_factory.getbasetemp() / "broken-settings.json"
    path.write_bytes(data)
    assert read_settings(path) == Settings()


def test_a_file_cut_short_anywhere_is_read_as_none(store):
    store.change(**LEFT)
    whole = store.path.read_bytes()
    for end in range(len(whole) - 1):
        store.path.write_bytes(whole[:end])
        assert read_settings(store.path) == Settings()


def test_a_folder_that_cannot_be_written_costs_only_the_memory(tmp_path):
    (tmp_path / "file").write_text("in the way")
    store = SettingsStore(tmp_path / "file" / "settings.json")
    store.change(unit="cm")
    assert store.now.unit == "cm"
    assert SettingsStore(store.path).now == Settings()


def test_the_latest_file_comes_first_and_none_stands_twice(store):
    for i in range(12):
        store.used(Path(f"/r/{i}.json"))
    store.used(Path("/r/7.json"))
    assert store.now.recent[:3] == ("/r/7.json", "/r/11.json", "/r/10.json")
    assert len(store.now.recent) == len(set(store.now.recent)) == 8
    store.forget("/r/7.json")
    assert store.now.recent[0] == "/r/11.json"


def test_the_usual_limits_are_within_the_range_that_is_read(store):
    store.change(limits=USUAL_LIMITS)
    assert read_settings(store.path).limits == USUAL_LIMITS
