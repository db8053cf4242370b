"""The drawings of the overhang, by their marks."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from app.drawing.marks import Area, Label, Line, Scene
from app.drawing.styles import style
from app.drawing.theme import DARK, LIGHT
from app.features.board.boots_on_board import Overhang
from app.features.board.scene import scene_edge_angle, scene_overhang
from app.rider.inputs import DEFAULTS, Inputs, model
from geometry.hardware.board import Board, BootSole

BOARD = Board(waist_width=250.0, plate_height=30.0, thickness=10.0)
BOOT = BootSole(length=300.0, width=100.0)
ACROSS = replace(DEFAULTS, front_angle_deg=0.0, rear_angle_deg=90.0)
WANTED = math.radians(65.0)


def overhang(inputs: Inputs, board: Board, boot: BootSole) -> Overhang:
    return Overhang(board, (boot, boot), WANTED, inputs, model(inputs).stance)


def above(inputs: Inputs = ACROSS, board: Board = BOARD) -> Scene:
    return scene_overhang(overhang(inputs, board, BOOT))


def edge_on(
    name: str, inputs: Inputs = ACROSS, board: Board = BOARD, boot: BootSole = BOOT
) -> Scene:
    return scene_edge_angle(name, overhang(inputs, board, boot))


def mark(scene: Scene, key: str) -> Line | Label | Area:
    (found,) = [each for each in scene.marks if each.key == key]
    return found


def texts(scene: Scene, key: str) -> list[str]:
    return [m.text for m in scene.marks if isinstance(m, Label) and m.key.startswith(key)]


def test_overhang_and_edge_angle_are_written_beside_each_edge() -> None:
    # 300 mm across a board of 250 mm; 40 mm above the base: atan(40 / 25) = 57.99 degrees.
    assert texts(above(), "front.toe_side") == ["25 mm over", "touches at 57°"]
    assert texts(above(), "rear.heel_side") == ["75 mm inside", "never touches"]


def test_the_line_of_the_overhang_runs_from_the_edge_to_the_boot() -> None:
    start, end = mark(above(), "front.toe_side.line").points
    assert abs(start[0]) == pytest.approx(125.0)
    assert abs(end[0]) == pytest.approx(150.0)


def test_a_boot_that_touches_before_the_wanted_angle_is_flagged() -> None:
    assert mark(above(), "front.toe_side.line").role == "reach.early"
    assert mark(above(), "rear.toe_side.line").role == "reach"
    assert mark(edge_on("front"), "toe_side.snow").role == "snow.early"


def test_the_toe_side_changes_hands_with_the_leading_foot() -> None:
    for foot, hand in (("left", 1.0), ("right", -1.0)):
        inputs = replace(ACROSS, lead_foot=foot)
        for scene, key in (
            (above(inputs), "front.toe_side.line"),
            (edge_on("front", inputs), "toe_side.snow"),
        ):
            assert hand * mark(scene, key).points[1][0] > 100.0


def test_the_snow_line_goes_from_the_edge_through_the_point_that_touches() -> None:
    scene = edge_on("front")
    (ex, ey), (rx, ry) = mark(scene, "toe_side.snow").points
    tx, ty = next(m.at for m in scene.marks if m.key == "toe_side.touch")
    assert (ex, ey) == pytest.approx((125.0, -40.0))
    assert (rx - ex) * (ty - ey) == pytest.approx((ry - ey) * (tx - ex))
    assert math.degrees(math.atan2(ty - ey, abs(tx - ex))) == pytest.approx(57.99, abs=0.01)


def test_a_boot_that_never_touches_has_no_snow_line() -> None:
    keys = {each.key for each in edge_on("rear").marks}
    assert "toe_side.snow" not in keys
    assert "toe_side.wanted" in keys


def test_a_sidecut_bends_the_edges_outwards_from_the_waist() -> None:
    edge = mark(above(board=Board(250.0, 30.0, sidecut_radius=8000.0)), "board.toe_edge").points
    widths = [abs(x) for x, _ in edge]
    assert min(widths) == pytest.approx(125.0, abs=0.1)
    assert widths[0] == pytest.approx(8125.0 - math.sqrt(8000.0**2 - edge[0][1] ** 2), abs=1e-6)


def test_a_sole_lower_than_the_board_is_told_with_what_helps() -> None:
    steep = replace(ACROSS, front_lift_deg=15.0)
    (fault,) = texts(edge_on("front", steep), "fault")
    # The heel end lies 150 sin 15 = 38.8 mm down.
    assert fault.endswith("raise the plate by 9 mm")
    assert "below the top of the board" in above(steep).text


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_every_mark_has_a_key_of_its_own_and_a_role_with_a_style(theme: object) -> None:
    capped = BootSole(300.0, 100.0, toe_reach=10.0, reach_height=20.0)
    for scene in (above(), edge_on("front", boot=capped), edge_on("rear")):
        keys = [each.key for each in scene.marks]
        assert len(keys) == len(set(keys))
        assert all(style(theme, each.role) for each in scene.marks)


def test_the_picture_is_told_in_words() -> None:
    assert "front boot on the toe side 25 mm over, touches at 57°" in above().text
    assert above().text.endswith("wanted: clear up to 65°.")


def test_side_by_side_the_words_of_two_boots_stand_one_under_the_other() -> None:
    side_by_side = replace(ACROSS, front_angle_deg=90.0, stance_length_mm=0.0)
    scene = above(replace(side_by_side, across_spacing_mm=120.0))
    heights = [m.shift[1] for m in scene.marks if isinstance(m, Label) and ".toe_side." in m.key]
    assert len(heights) == 6
    assert min(b - a for a, b in zip(sorted(heights), sorted(heights)[1:], strict=False)) >= 16.0
    assert texts(scene, "rear.toe_side")[0] == "rear"
