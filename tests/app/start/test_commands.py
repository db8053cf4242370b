"""The command line, understood without a window, a file or a screen."""

import re
import shlex
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.numbers.question import CHOICES, GROUPS, NUMBERS, SECTIONS
from app.rider.inputs import FIELDS, InputError
from app.rider.setup import KNOWN_FIELDS
from app.start.commands import CHANGES, understood
from app.start.mistakes import CommandError
from app.start.named_values import number
from app.start.reading import STDIN


def test_no_arguments_ask_for_a_window_on_the_demo_rider():
    command = understood([])
    assert command.wants_window
    assert command.files == ()
    assert command.changes == {}


def test_all_options_are_understood_together():
    command = understood(
        ["a.json", "--numbers", "--snapshot", "b.PNG", "--scale", "3", "--set", "lead_foot=right"]
    )
    assert not command.wants_window
    assert (command.files, command.snapshot) == ((Path("a.json"),), Path("b.PNG"))
    assert (command.scale, command.numbers) == (3.0, True)
    assert command.changes == {"lead_foot": "right"}


CLIP = ["--clip", "a.gif", "--over"]
LESSON = ["--clip", "a.gif", "--lesson", "wide-stance"]


@pytest.mark.parametrize("text", ["7.5", "7,5", "+7.5", " 7.5 ", "75e-1", "7.50"])
def test_a_decimal_point_and_a_decimal_comma_mean_the_same(text):
    assert understood(["--set", f"front_lift_deg={text}"]).changes == {"front_lift_deg": 7.5}


@pytest.mark.parametrize("text", ["-7.5", "−7,5"])
def test_both_minus_signs_are_taken(text):
    assert number(text) == -7.5


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_number_is_read_to_its_last_digit(value):
    assert number(repr(value)) == value
    assert number(repr(value).replace(".", ",")) == value


@pytest.mark.parametrize(
    "text", ["", "x", "nan", "inf", "1e", "7.5.1", "1,000.5", "1_0", "0x10", "7 5", ".", "٣"]
)
def test_what_is_no_number_is_refused(text):
    with pytest.raises(InputError, match="front_lift_deg"):
        understood(["--set", f"front_lift_deg={text}"])


def test_of_an_input_set_twice_the_last_value_counts():
    twice = ["--set", "knee_bend_deg=30", "--set", "rear_cant_deg=2", "--set", "knee_bend_deg=40"]
    assert understood(twice).changes == {"knee_bend_deg": 40.0, "rear_cant_deg": 2.0}


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--set", "front_angel_deg=3"], "did you mean front_angle_deg?"),
        (["--set", "xyz=3"], "there is no input named 'xyz'; kneeline --help lists them"),
        (["--set", "front_lift_deg"], "is not of the form NAME=VALUE"),
        (["--set", "=3"], "is not of the form NAME=VALUE"),
        (["--set", "lead_foot=goofy"], "lead_foot is 'goofy'; it must be left or right"),
        (["--set", "front_lift_deg=up"], "front_lift_deg is 'up'; it must be a number"),
        (["--set", "figures=giants"], "figures is 'giants'; it must be either, men or women"),
        (["--set", "stature_mm=17.6"], "stature_mm is 17.6; it must lie between 1000 and 2200"),
        (["--set"], "expected one argument"),
        (["--web", "a.htm"], "'a.htm' must end in .html"),
        (["--web", "a.html", "--language", "xx"], "invalid choice: 'xx'"),
        (["--web", "a.html", "--telling", "names"], "nothing named 'names' for --telling"),
        (["--snapshot", "a.jpg"], "'a.jpg' must end in .png"),
        (["--snapshot", "a.png", "--scale", "0"], "0 must lie between 0.5 and 6"),
        (["--snapshot", "a.png", "--scale", "-1"], "-1 must lie between 0.5 and 6"),
        (["--snapshot", "a.png", "--scale", "big"], "'big' is not a number"),
        (["--numbers", "--with", "reachible"], "did you mean reachable?"),
        (["--numbers", "--with", "x,map"], "'x' for --with; there are reachable, curves, map"),
        (["--numbers", "--with", ""], "there is nothing named ''"),
        (["--with", "map"], "--with is about the numbers; give --numbers beside it"),
        (["--ask", "age_years=9"], "--ask is about the numbers; give --numbers beside it"),
        (["--last-season", "a.json"], "--last-season is about the numbers"),
        (["--numbers", "--ask", "age_year=9"], "named 'age_year'; did you mean age_years?"),
        (["--numbers", "--ask", "age_years=5"], "age_years is 5; it must lie between 6 and 18"),
        (["--numbers", "--ask", "age_years=old"], "age_years is 'old'; it must be a number"),
        (["--numbers", "--ask", "children=men"], "it must be either, boys or girls"),
        (["--number"], "unrecognized arguments: --number"),
        (["a.json", "--b\n.json"], "unrecognized arguments: --b .json"),
        (["--numbers", "--only", "frnt"], "named 'frnt' for --only; did you mean front?"),
        (["--numbers", "--only", ""], "there is nothing named '' for --only"),
        (["--only", "front"], "--only is about the numbers; give --numbers beside it"),
        (["--lines"], "--lines is about the numbers; give --numbers beside it"),
        (["--also", "a.json"], "--also is about the numbers; give --numbers beside it"),
        (["--language", "de"], "--language is about the page or a lesson; give --web OUT.html or"),
        (["--lesson", "wide-stance"], "give --clip OUT.gif or --handout OUT.pdf beside it"),
        (["--for-children"], "--for-children is about a lesson; give --lesson NAME beside it"),
        ([*LESSON, "--seconds", "4"], "--seconds is about an input that moves"),
        ([*LESSON, "--over", "knee_bend_deg=30:60"], "--over is about an input that moves"),
        (["a.json", *LESSON], "a lesson has a rider of its own; leave FILE"),
        ([*LESSON, "--set", "knee_bend_deg=30"], "a lesson has a rider of its own"),
        (["--telling", "name"], "--telling is about the page; give --web OUT.html beside"),
        (["--scale", "2"], "--scale is the size of the picture; give --snapshot OUT.png beside"),
        (["--over", "knee_bend_deg=30:60"], "--over is about a clip; give --clip OUT.gif beside"),
        (["--seconds", "4"], "--seconds is about a clip; give --clip OUT.gif beside it"),
        (["--clip", "a.gif"], "give --over NAME=FROM:TO beside it"),
        (["--clip", "a.mp4"], "'a.mp4' must end in .gif or .webp or .png"),
        ([*CLIP, "knee_bend_deg=30"], "'knee_bend_deg=30' is not of the form NAME=FROM:TO"),
        ([*CLIP, "knee_bend_deg=30:"], "is not of the form NAME=FROM:TO"),
        ([*CLIP, "knee_bend=30:60"], "no input named 'knee_bend'; did you mean knee_bend_deg?"),
        ([*CLIP, "bend_to_deg=30:60"], "there is no input named 'bend_to_deg'"),
        ([*CLIP, "knee_bend_deg=30:999"], "knee_bend_deg is 999; it must lie between"),
        ([*CLIP, "knee_bend_deg=30:x"], "knee_bend_deg is 'x'; it must be a number"),
        ([*CLIP, "knee_bend_deg=30:60", "--seconds", "0"], "0 must lie between 1 and 60"),
        (["--handout", "a.png"], "'a.png' must end in .pdf"),
        (["--numbers", "--force"], "--force overwrites what is written; give --save"),
        (["--save", "a.txt"], "'a.txt' must end in "),
        (["--save", ".json"], "'.json' must end in "),
        (["--sheet", "a.png"], "'a.png' must end in .pdf"),
        (["--wedge", "front"], "expected 2 arguments"),
        (["--wedge", "middle", "a.stl"], "for the front or the rear foot, not 'middle'"),
        (["--wedge", "rear", "a.obj"], "argument --wedge: 'a.obj' must end in .stl or .dxf"),
    ],
)
def test_a_mistake_is_told_in_one_line(arguments, message):
    with pytest.raises((CommandError, InputError)) as told:
        understood(arguments)
    assert message in str(told.value)
    assert str(told.value).isprintable()


def test_files_and_options_may_stand_in_any_order():
    command = understood(["a.json", "--numbers", "b.json", "--only", "front,rear", "-", "c"])
    assert command.files == tuple(map(Path, ("a.json", "b.json", "-", "c")))
    assert command.only == {"front", "rear"}


def test_what_follows_two_dashes_is_a_file_whatever_it_begins_with():
    command = understood(["a.kneeline", "--numbers", "--", "-x.kneeline", "--lines"])
    assert command.files == (Path("a.kneeline"), Path("-x.kneeline"), Path("--lines"))
    assert (command.numbers, command.lines) == (True, False)
    assert understood(["--"]).files == ()
    with pytest.raises(CommandError, match=r"-x\.kneeline"):
        understood(["-x.kneeline", "--numbers"])


def test_a_file_whose_name_is_a_hyphen_is_not_standard_input():
    assert understood(["-"]).files == (STDIN,)
    assert understood(["./-"]).files == (Path.cwd() / "-",)


def test_what_is_written_is_told_by_its_options_and_opens_no_window():
    command = understood(
        ["--wedge", "front", "f.STL", "--wedge", "rear", "r.dxf", "--save", "s.json", "--force"]
    )
    assert command.outputs == {
        "--save": [Path("s.json")],
        "--wedge": [Path("f.STL"), Path("r.dxf")],
    }
    assert (command.force, command.wants_window) == (True, False)
    assert command.wedges[1] == ("rear", Path("r.dxf"))


def test_a_clip_moves_an_input_between_two_values_with_a_comma_or_a_point():
    command = understood([*CLIP, "front_cant_deg=-2,5:3.5", "--seconds", "2,5"])
    assert (command.over, command.seconds) == (("front_cant_deg", -2.5, 3.5), 2.5)
    assert command.outputs == {"--clip": [Path("a.gif")]}
    assert understood([*CLIP, "left_hip_height_mm=700:800"]).seconds == 4.0
    assert understood(["--handout", "a.PDF", "--force"]).handout == Path("a.PDF")


def test_a_lesson_is_taken_home_instead_of_a_set_up():
    command = understood([*LESSON, "--handout", "a.pdf", "--language", "de", "--for-children"])
    assert (command.lesson, command.language, command.for_children) == ("wide-stance", "de", True)
    assert command.outputs == {"--handout": [Path("a.pdf")], "--clip": [Path("a.gif")]}
    beside = understood(["a.json", *LESSON, "--save", "b.json"])
    assert beside.files == (Path("a.json"),)


def test_help_tells_defaults_groups_examples_and_exit_codes():
    answer = understood(["--help"]).answer
    assert "-60 to 90 deg [43]; front binding angle" in answer
    assert "years_ahead             0 to 12 years; years ahead; 1 when not given" in answer
    assert all(group in answer for group in GROUPS)
    examples = re.findall(r"(?m)^  (?:.*\| )?kneeline (.*)$", answer.split("examples:")[1])
    assert len(examples) > 4
    for example in examples:
        assert not understood(shlex.split(example.partition(" > ")[0])).wants_window
    assert "exit codes:" in answer


def test_help_names_every_option_and_every_input_with_its_range():
    answer = understood(["--help"]).answer
    for option in (
        "FILE", "--set", "--parts", "--numbers", "--lines", "--only", "--with", "--ask",
        "--last-season", "--also", "--save", "--sheet", "--wedge", "--snapshot", "--scale",
        "--handout", "--clip", "--over", "--seconds", "--web", "--language", "--telling",
        "--lesson", "--for-children",
        "--force", "--version",
    ):  # fmt: skip
        assert option in answer
    for field in (*FIELDS, *KNOWN_FIELDS):
        assert f"{field.name:<20} {field.low:g} to {field.high:g} {field.unit}" in answer


def test_sections_are_named_one_by_one_or_with_commas_between_them():
    apart = understood(["--numbers", "--with", "reachable", "--with", "map"])
    together = understood(["--numbers", "--with", "map, reachable"])
    assert apart.sections == together.sections == {"reachable", "map"}


def test_what_is_asked_keeps_its_number_or_its_word():
    asked = ["--ask", "age_years=9,5", "--ask", "children=girls", "--ask", "splay_least_deg=−3"]
    command = understood(["--numbers", *asked])
    assert command.asked == {"age_years": 9.5, "children": "girls", "splay_least_deg": -3.0}


def test_help_names_everything_that_the_numbers_can_be_asked():
    answer = understood(["--help"]).answer
    for name in (*SECTIONS, *CHOICES, *NUMBERS):
        assert f"\n  {name} " in answer


def test_the_names_are_those_that_were_promised():
    promised = """lead_foot stance_length_mm across_spacing_mm front_angle_deg rear_angle_deg
        front_lift_deg front_cant_deg rear_lift_deg rear_cant_deg hip_height_mm knee_height_mm
        ankle_height_mm hip_spacing_mm neutral_spacing_mm foot_length_mm knee_tracking_deg
        sole_thickness_mm forward_lean_deg flex_range_deg side_give_deg knee_bend_deg
        hips_turned_deg hip_shift_mm"""
    assert set(promised.split()) <= set(CHANGES.names)
