"""Set-ups survive their files, whatever stands in them beside."""

import json
from dataclasses import fields, replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.files.migrations import MIGRATIONS, migrated
from app.files.png_setup import SIGNATURE
from app.files.safe_files import LARGEST, FileError, RefusalError
from app.files.setup_json import SETUP
from app.files.storage import (
    SCHEMA,
    Document,
    as_copy,
    bytes_of,
    carrying,
    document_in,
    newer_notice,
    opened,
    save,
)
from app.rider.board import BOARD_FIELDS, ZERO_ALLOWED, BoardInputs
from app.rider.inputs import (
    DEFAULTS,
    FIELD,
    LEG_FIELDS,
    SHARED_FIELDS,
    SIDES,
    Inputs,
    LegInputs,
    changed,
)
from app.rider.setup import (
    BOOT_NAMES,
    BOOTS,
    CUFFS,
    FIGURES,
    KNOWN_FIELDS,
    LEG_NAMES,
    LEGS,
    Known,
    Setup,
)
from app.rider.trials import HOLDS, NOT_SAID, PRESSURES, VERDICTS, Entry
from app.rider.wedge import HOLE_SPOT, HOLES, MOST_HOLES, SLOPES, WEDGE_FIELDS, WedgeInputs

LAYOUTS = Path(__file__).parents[2] / "cases" / "layouts"


def number(name):
    return st.floats(FIELD[name].low, FIELD[name].high)


@st.composite
def any_leg(draw):
    hip = draw(st.floats(FIELD["knee_height_mm"].low + 1.0, FIELD["hip_height_mm"].high))
    hip = max(hip, FIELD["hip_height_mm"].low)
    highest_knee = min(hip - 1.0, FIELD["knee_height_mm"].high)
    values = {field.name: draw(number(field.name)) for field in LEG_FIELDS}
    values["hip_height_mm"] = hip
    values["knee_height_mm"] = draw(st.floats(FIELD["knee_height_mm"].low, highest_knee))
    return LegInputs(**values)


@st.composite
def any_inputs(draw):
    values = {field.name: draw(number(field.name)) for field in SHARED_FIELDS}
    span = FIELD["bend_from_deg"]
    most = min(values["bend_to_deg"] - 0.5, span.high)
    values["bend_from_deg"] = draw(st.floats(span.low, most))
    sides = {side: draw(any_leg()) for side in SIDES}
    return Inputs(lead_foot=draw(st.sampled_from(SIDES)), **values, **sides)


def both(kind):
    return st.tuples(kind, kind)


@st.composite
def any_repeats(draw):
    names = draw(st.lists(st.sampled_from(LEG_NAMES + BOOT_NAMES), unique=True))
    return tuple((name, tuple(draw(st.lists(number(name), min_size=1)))) for name in names)


def board_size(field):
    size = st.floats(field.low, field.high)
    return st.just(0.0) | size if field.name in ZERO_ALLOWED else size


any_trial = st.builds(
    Entry,
    date=st.dates(date(1000, 1, 1)).map(str),
    lead_foot=st.sampled_from(SIDES),
    angles_deg=both(number("front_angle_deg")),
    stance_length_mm=number("stance_length_mm"),
    across_spacing_mm=number("across_spacing_mm"),
    lifts_deg=both(number("front_lift_deg")),
    cants_deg=both(number("front_cant_deg")),
    felt=both(st.sampled_from(VERDICTS)),
    pressure=both(st.sampled_from(PRESSURES)),
    boots=both(st.sampled_from((*HOLDS, NOT_SAID))),
    notes=st.text(),
)
any_board = st.builds(BoardInputs, *map(board_size, BOARD_FIELDS))
any_wedge = st.builds(
    WedgeInputs,
    st.sampled_from(("front", "rear")),
    st.sampled_from(tuple(SLOPES)),
    *(st.floats(field.low, field.high) for field in WEDGE_FIELDS),
    st.sampled_from(tuple(HOLES)),
    st.lists(both(st.floats(HOLE_SPOT.low, HOLE_SPOT.high)), max_size=MOST_HOLES).map(tuple),
)
body_lengths = (st.none() | st.floats(field.low, field.high) for field in KNOWN_FIELDS)
spread = st.floats(0.0, 1000.0)
any_setup = st.builds(
    Setup,
    inputs=any_inputs(),
    known=st.builds(Known, st.sampled_from(FIGURES), *body_lengths),
    measured=st.frozensets(st.sampled_from(LEG_NAMES)),
    spreads=st.dictionaries(st.sampled_from(LEG_NAMES), spread).map(lambda d: tuple(d.items())),
    examples=st.frozensets(st.sampled_from(LEG_NAMES)),
    apart=st.frozensets(st.sampled_from((LEGS, BOOTS))),
    cuffs=st.sampled_from(CUFFS),
    name=st.text(),
    notes=st.text(),
    repeats=any_repeats(),
    trials=st.lists(any_trial, max_size=5).map(tuple),
    board=any_board,
    wedge=any_wedge,
)
any_json = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=5,
)  # fmt: skip


def test_every_field_of_a_setup_has_its_place_in_the_file(tmp_path):
    save(tmp_path / "a.json", Document(Setup()))
    raw = json.loads((tmp_path / "a.json").read_text("utf-8"))
    assert set(raw) == {"schema"} | {field.name for field in fields(Setup)}
    assert set(raw["inputs"]) == {field.name for field in fields(Inputs)}
    assert set(raw["inputs"]["right"]) == {field.name for field in fields(LegInputs)}
    assert set(raw["known"]) == {field.name for field in fields(Known)}
    assert set(raw["board"]) == {field.name for field in fields(BoardInputs)}
    assert set(raw["wedge"]) == {field.name for field in fields(WedgeInputs)}
    assert raw["schema"] == SCHEMA


@given(setup=any_setup)
def test_every_valid_setup_comes_back_as_it_was_saved(tmp_path_factory, setup):
    path = tmp_path_factory.getbasetemp() / "round-trip.json"
    document = Document(setup)
    save(path, document)
    assert opened(path) == document


@settings(max_examples=50)
@given(extra=any_json, place=st.sampled_from((None, *SETUP.groups)))
def test_unknown_keys_survive_a_round_trip_where_they_stood(tmp_path_factory, extra, place):
    path = tmp_path_factory.getbasetemp() / "unknown.json"
    save(path, Document(Setup()))
    raw = json.loads(path.read_text("utf-8"))
    (raw if place is None else raw[place])["of tomorrow"] = extra
    document = document_in(json.dumps(raw).encode())
    save(path, replace(document, setup=replace(document.setup, name="Another")))
    raw["name"] = "Another"
    assert json.loads(path.read_text("utf-8")) == raw


def test_saving_what_was_opened_changes_no_byte(tmp_path):
    first, second = tmp_path / "a.json", tmp_path / "b.json"
    save(
        first,
        Document(Setup(measured=frozenset(LEG_NAMES), spreads=(("left_foot_length_mm", 9.1),))),
    )
    save(second, opened(first))
    assert first.read_bytes() == second.read_bytes()


def test_a_spread_that_is_gone_is_gone_from_the_file(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup(spreads=(("left_foot_length_mm", 9.1),))))
    document = opened(path)
    save(path, replace(document, setup=replace(document.setup, spreads=())))
    assert opened(path).setup.spreads == ()


TRIED = Entry(
    date="2026-01-31",
    lead_foot="left",
    angles_deg=(45.0, 40.0),
    stance_length_mm=500.0,
    across_spacing_mm=0.0,
    lifts_deg=(3.0, 0.0),
    cants_deg=(4.0, 5.0),
    felt=("bow-legged", "even"),
    notes="ice",
)


@settings(max_examples=50)
@given(extra=any_json)
def test_unknown_keys_of_a_trial_stay_with_it_when_it_is_changed_and_others_go(
    tmp_path_factory, extra
):
    path = tmp_path_factory.getbasetemp() / "trials.json"
    save(path, Document(Setup(trials=(replace(TRIED, date="2026-01-02"), TRIED))))
    raw = json.loads(path.read_text("utf-8"))
    raw["trials"][1]["of tomorrow"] = extra
    document = document_in(json.dumps(raw).encode())
    later = replace(document.setup.trials[1], notes="soft snow")
    save(path, replace(document, setup=replace(document.setup, trials=(later,))))
    kept = json.loads(path.read_text("utf-8"))["trials"]
    assert kept == [raw["trials"][1] | {"notes": "soft snow"}]


def test_a_file_from_before_repeats_trials_board_and_wedge_opens_without_them(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup()))
    raw = json.loads(path.read_text("utf-8"))
    for key in ("repeats", "trials", "board", "wedge"):
        del raw[key]
    assert document_in(json.dumps(raw).encode()) == Document(Setup())


def test_a_file_from_before_typed_holes_has_them_in_a_grid(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup()))
    raw = json.loads(path.read_text("utf-8"))
    del raw["wedge"]["holes"], raw["wedge"]["hole_spots_mm"]
    assert document_in(json.dumps(raw).encode()) == Document(Setup())


def test_a_trial_from_before_has_pressed_evenly_and_says_nothing_of_its_boots(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup(trials=(TRIED,))))
    raw = json.loads(path.read_text("utf-8"))
    for name in ("pressure", "boots", "notes"):
        del raw["trials"][0][name]
    read = document_in(json.dumps(raw).encode()).setup.trials
    assert read == (replace(TRIED, notes=""),)


def test_a_mean_in_force_comes_back_to_the_last_digit_beside_its_repeats(tmp_path):
    path, tape = tmp_path / "a.json", (881.0, 884.0, 880.0)
    mean = sum(tape) / 3.0
    setup = Setup(
        inputs=changed(DEFAULTS, left_hip_height_mm=mean),
        measured=frozenset({"left_hip_height_mm"}),
        repeats=(("left_hip_height_mm", tape),),
    )
    save(path, Document(setup))
    assert opened(path).setup.inputs.left.hip_height_mm == mean
    assert opened(path).setup.repeats == (("left_hip_height_mm", tape),)


def test_every_older_layout_has_its_step_to_the_next():
    assert set(MIGRATIONS) == set(range(1, SCHEMA))


def test_a_file_of_every_layout_that_left_the_house_opens_as_it_was_meant():
    """Files written by the versions of their time; they are never written anew."""
    layouts = sorted(LAYOUTS.iterdir())
    assert [path.stem for path in layouts] == [f"layout-{n}" for n in range(1, SCHEMA + 1)]
    for path in layouts:
        document = opened(path)
        setup = document.setup
        assert (setup.name, setup.notes) == ("Kim", "left knee first\nnew liners")
        assert (setup.inputs.front_angle_deg, setup.inputs.rear_cant_deg) == (30.0, 2.5)
        assert setup.inputs.left.hip_height_mm == 882.0
        assert dict(setup.repeats)["left_hip_height_mm"] == (881.0, 884.0, 881.0)
        names = ("hip_height_mm", "knee_height_mm", "ankle_height_mm", "foot_length_mm")
        origins = [setup.origin(f"left_{name}") for name in names]
        assert origins == ["measured", "estimated", "estimated", "estimated"]
        assert setup.trials == (replace(TRIED, pressure=("inside", "even")),)
        assert [part.slope_deg for part in setup.parts.parts] == [3.0, 6.0]
        assert document.unknown_keys == {"of tomorrow": [1, "two"]}


def test_what_layout_1_says_of_both_legs_holds_for_either():
    document = opened(LAYOUTS / "layout-1.json")
    setup, old = document.setup, json.loads((LAYOUTS / "layout-1.json").read_text("utf-8"))
    assert document.schema == 1
    assert setup.inputs.left == setup.inputs.right
    told = {field.name: setup.inputs.value(field.name) for field in (*SHARED_FIELDS, *LEG_FIELDS)}
    assert {name: told[name] for name in old["inputs"] if name in told} == {
        name: value for name, value in old["inputs"].items() if name != "lead_foot"
    }
    assert dict(setup.repeats)["right_hip_height_mm"] == (881.0, 884.0, 881.0)
    assert dict(setup.spreads)["right_knee_height_mm"] == old["spreads"]["knee_height_mm"]
    assert setup.cuffs == ""


def test_a_trial_of_layout_1_speaks_of_the_foot_that_leads_in_its_file():
    raw = json.loads((LAYOUTS / "layout-1.json").read_text("utf-8"))
    raw["inputs"]["lead_foot"] = "right"
    (trial,) = document_in(json.dumps(raw).encode()).setup.trials
    assert trial.lead_foot == "right"


def test_layout_2_has_legs_and_boots_of_their_own():
    setup = opened(LAYOUTS / "layout-2.json").setup
    assert (setup.inputs.left.hip_height_mm, setup.inputs.right.hip_height_mm) == (882.0, 874.0)
    assert (setup.inputs.left.cuff_offset_deg, setup.inputs.right.cuff_offset_deg) == (0.0, 1.5)
    assert setup.origin("right_hip_height_mm") == "example"
    assert (setup.apart, setup.cuffs) == (frozenset({LEGS}), "as_they_are")


def from_layout_0(raw):
    """An invented layout 0 named the sets by another word."""
    return {("inputs" if key == "settings" else key): value for key, value in raw.items()}


def test_a_file_of_an_invented_layout_0_is_brought_to_this_one(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup(name="Old friend", notes="kept since")))
    raw = json.loads(path.read_text("utf-8"))
    old = {("settings" if key == "inputs" else key): value for key, value in raw.items()}
    new = migrated(old | {"schema": 0, "of yore": 1}, 0, 2, {0: from_layout_0, 1: dict})
    document = document_in(json.dumps(new).encode())
    assert document.setup == Setup(name="Old friend", notes="kept since")
    assert document.unknown_keys == {"of yore": 1}


def test_the_steps_between_layouts_follow_each_other():
    steps = {n: lambda raw, n=n: raw | {"seen": [*raw.get("seen", []), n]} for n in (1, 2, 3)}
    assert migrated({"schema": 1}, 1, 4, steps) == {"schema": 4, "seen": [1, 2, 3]}
    assert migrated({"schema": 5}, 5, 4, steps) == {"schema": 5}


def test_an_older_file_is_brought_along_while_it_is_read_and_saved_as_new(tmp_path, monkeypatch):
    path = tmp_path / "a.json"
    save(path, Document(Setup()))
    path.write_bytes(path.read_bytes().replace(b'"inputs"', b'"settings"'))
    monkeypatch.setattr("app.files.storage.SCHEMA", SCHEMA + 1)
    monkeypatch.setattr("app.files.storage.MIGRATIONS", {SCHEMA: from_layout_0})
    document = opened(path)
    assert (document.schema, document.read_only) == (SCHEMA, False)
    save(path, document)
    assert json.loads(path.read_text("utf-8"))["schema"] == SCHEMA + 1
    assert opened(path).setup == Setup()


def test_a_byte_order_mark_and_windows_line_ends_are_no_obstacle(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup(name="Größe")))
    data = path.read_bytes().replace(b"\n", b"\r\n")
    assert document_in(b"\xef\xbb\xbf" + data).setup.name == "Größe"


def test_whole_numbers_are_read_as_floats(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup()))
    document = document_in(path.read_bytes().replace(b"880.0", b"880"))
    assert document.setup.inputs == DEFAULTS
    assert isinstance(document.setup.inputs.left.hip_height_mm, float)


@pytest.fixture
def newer(tmp_path):
    """A file of a layout still to come."""
    path = tmp_path / "newer.json"
    save(path, Document(Setup(name="From tomorrow")))
    raw = json.loads(path.read_text("utf-8"))
    raw |= {"schema": SCHEMA + 1, "springs": [1, 2]}
    path.write_text(json.dumps(raw), "utf-8")
    return path


def test_a_newer_file_opens_for_reading_only_and_says_so(newer):
    document = opened(newer)
    assert document.read_only
    assert document.setup.name == "From tomorrow"
    assert "newer version of Kneeline and is open for reading only" in newer_notice(newer, document)
    assert newer_notice(newer, as_copy(document)) == ""


def test_a_newer_file_is_not_saved_but_its_copy_is(newer, tmp_path):
    before, document = newer.read_bytes(), opened(newer)
    with pytest.raises(FileError, match="save a copy instead"):
        save(newer, document)
    assert newer.read_bytes() == before
    save(tmp_path / "copy.json", as_copy(document))
    assert opened(tmp_path / "copy.json").setup == document.setup


def test_a_setup_that_contradicts_itself_is_not_saved(tmp_path):
    inputs = changed(DEFAULTS, right_hip_height_mm=600.0, right_knee_height_mm=620.0)
    with pytest.raises(FileError, match="knee height is 620 mm; it must be less than the hip"):
        save(tmp_path / "a.json", Document(Setup(inputs=inputs)))
    assert not list(tmp_path.iterdir())


@given(data=st.binary(max_size=200) | any_json.map(lambda value: json.dumps(value).encode()))
def test_no_bytes_make_the_reader_fail_in_any_other_way_than_its_own(data):
    with pytest.raises(RefusalError) as refused:
        document_in(data)
    assert str(refused.value).isprintable()


def test_a_board_from_before_side_cut_and_edge_angle_keeps_what_it_says(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup(board=BoardInputs(waist_width_mm=262.0, sidecut_radius_mm=9000.0))))
    raw = json.loads(path.read_text("utf-8"))
    for key in ("board_thickness_mm", "sidecut_radius_mm", "wanted_edge_deg"):
        del raw["board"][key]
    read = document_in(json.dumps(raw).encode()).setup.board
    assert read == BoardInputs(waist_width_mm=262.0)


@pytest.mark.parametrize(
    ("name", "value", "refused"),
    [("sidecut_radius_mm", 10.0, True), ("sidecut_radius_mm", 0.0, False),
     ("waist_width_mm", 0.0, True), ("wanted_edge_deg", 91.0, True)],
)  # fmt: skip
def test_nothing_stands_for_a_size_of_the_board_only_where_it_means_something(
    tmp_path, name, value, refused
):
    path = tmp_path / "a.json"
    save(path, Document(Setup()))
    raw = json.loads(path.read_text("utf-8"))
    raw["board"][name] = value
    data = json.dumps(raw).encode()
    if refused:
        with pytest.raises(RefusalError, match=f"board.{name}"):
            document_in(data)
    else:
        assert getattr(document_in(data).setup.board, name) == value


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("foot", "left"),
        ("slopes", "steep"),
        ("length_mm", 5.0),
        ("centre_height_mm", 0.2),
        ("holes", "round"),
        ("hole_spots_mm", 20.0),
        ("hole_spots_mm", [[20.0, 20.0], [20.0]]),
        ("hole_spots_mm", [[20.0, "20"]]),
        ("hole_spots_mm", [[301.0, 0.0]]),
        ("hole_spots_mm", [[0.0, 0.0]] * 25),
    ],
)
def test_a_wedge_that_cannot_be_meant_is_refused_by_name(tmp_path, name, value):
    path = tmp_path / "a.json"
    save(path, Document(Setup()))
    raw = json.loads(path.read_text("utf-8"))
    raw["wedge"][name] = value
    with pytest.raises(RefusalError, match=f"wedge.{name}"):
        document_in(json.dumps(raw).encode())


def dense(document, size):
    """A file of about that size without a space, most of which no version knows."""
    later = {f"k{i}": [[i]] for i in range(size // 18)}
    raw = json.loads(bytes_of(document)) | {"later": later}
    return json.dumps(raw, separators=(",", ":")).encode()


@pytest.mark.parametrize(("size", "read_by_people"), [(100_000, True), (900_000, False)])
def test_a_dense_file_that_was_saved_opens_again_with_all_that_stood_in_it(
    tmp_path, size, read_by_people
):
    path = tmp_path / "a.json"
    path.write_bytes(dense(Document(Setup()), size))
    document = opened(path)
    changed_one = replace(document, setup=replace(document.setup, name="Anna"))
    for _ in range(2):
        save(path, changed_one)
        assert (opened(path) == changed_one) is True  # an answer, not its picture
    assert (path.read_bytes().count(b"\n") > 1) is read_by_people


def test_what_can_be_opened_only_without_indents_is_saved_without_them(tmp_path):
    deep = "[" * 30 + ",".join("1" * 100_000) + "]" * 30
    document = Document(Setup(), unknown_keys={"later": json.loads(deep)})
    save(tmp_path / "a.json", document)
    assert (opened(tmp_path / "a.json") == document) is True
    assert (tmp_path / "a.json").stat().st_size < LARGEST


def test_what_could_not_be_opened_again_for_its_size_is_told_and_the_old_file_stays(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup(name="Anna")))
    # Numbers in short, which no program writes back as short.
    short = b"[" + b",".join([b"1e15"] * 500_000) + b"]"
    raw = json.loads(path.read_bytes())
    path.write_bytes(json.dumps(raw)[:-1].encode() + b', "later": ' + short + b"}")
    before = path.read_bytes()
    assert len(before) < LARGEST
    document = opened(path)
    with pytest.raises(FileError) as refused:
        save(path, document)
    assert str(refused.value) == (
        f"cannot save {path}: it would be larger than 5 MB and could not be opened again; "
        "shorten its notes or lists"
    )
    assert path.read_bytes() == before
    assert [each.name for each in tmp_path.iterdir()] == ["a.json"]


def test_the_largest_file_that_can_be_saved_can_be_opened(tmp_path):
    path = tmp_path / "a.json"
    save(path, Document(Setup(notes="n" * 1_000_000)))
    room = 1_000_000 + LARGEST - path.stat().st_size
    save(path, Document(Setup(notes="n" * room)))
    assert path.stat().st_size == LARGEST
    assert len(opened(path).setup.notes) == room
    with pytest.raises(FileError, match="larger than 5 MB"):
        save(path, Document(Setup(notes="n" * (room + 1))))
    assert len(opened(path).setup.notes) == room


def test_a_picture_that_could_not_be_opened_again_for_its_size_is_refused():
    picture = SIGNATURE + bytes(4_000_000)
    with pytest.raises(RefusalError, match="larger than 5 MB"):
        carrying(picture, Document(Setup(notes="n" * 1_000_000)))
