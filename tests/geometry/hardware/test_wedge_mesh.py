"""Wedges as meshes, judged by an independent mesh library (trimesh, mikedh/trimesh)."""

from __future__ import annotations

import math

import numpy as np
import pytest
import trimesh
from hypothesis import example, given, settings
from hypothesis import strategies as st
from refused import refused
from wedges import four_screws, rad, rectangles, solid, stars, wedge

from geometry import Mount, slope_and_bearing
from geometry.hardware.footprint import Footprint, rectangle
from geometry.hardware.screws import Screws
from geometry.hardware.wedge import Wedge
from geometry.hardware.wedge_mesh import wedge_mesh
from geometry.sole import sole_of
from geometry.vectors import stacked

COARSE = 0.03
"""Tolerance of the meshes here (mm): three times the program's, for speed.  At five times
round corners alone can take a thousandth off a thin wedge."""
HEADS = {"diameter": 6.5, "head_diameter": 12.0, "head_height": 4.0}


def top_normal(mesh: trimesh.Trimesh) -> np.ndarray:
    """Normal of the mean plane of all that looks up more than sideways."""
    up = mesh.face_normals[:, 2] > 0.5
    mean = (mesh.face_normals[up] * mesh.area_faces[up, None]).sum(axis=0)
    return mean / np.linalg.norm(mean)


def angle_deg(a: np.ndarray, b: np.ndarray) -> float:
    return math.degrees(math.atan2(np.linalg.norm(np.cross(a, b)), float(a @ b)))


def assert_sound(asked: Wedge, outer_side: float) -> trimesh.Trimesh:
    mesh = solid(wedge_mesh(asked, outer_side, COARSE))
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume == pytest.approx(asked.volume, rel=1e-3)
    # A ball with n tunnels has the Euler number 2 - 2 n: every hole runs right through.
    assert mesh.euler_number == 2 - 2 * len(asked.screws.centres)
    return mesh


@settings(max_examples=15)
@given(
    lift=st.floats(-20.0, 20.0),
    cant=st.floats(-20.0, 20.0),
    footprint=rectangles | stars(),
    sunk=st.booleans(),
    outer_side=st.sampled_from([1.0, -1.0]),
)
@example(lift=0.0, cant=0.0, footprint=rectangle(100.0, 90.0, 39.0), sunk=False, outer_side=1.0)
def test_every_wedge_is_closed_oriented_and_of_exact_volume(
    lift: float, cant: float, footprint: Footprint, sunk: bool, outer_side: float
) -> None:
    screws = Screws(((12.0, 0.0), (-14.0, 3.0)), **HEADS if sunk else {})
    assert_sound(wedge(lift, cant, footprint, 3.0, screws, 120.0 if sunk else None), outer_side)


@pytest.mark.parametrize("sizes", [{}, HEADS])
@pytest.mark.parametrize("outer_side", [1.0, -1.0])
def test_four_holes_on_the_insert_grid_run_right_through(
    sizes: dict[str, float], outer_side: float
) -> None:
    screws = four_screws(30.0, **sizes)
    assert_sound(wedge(screws=screws), outer_side)


@settings(max_examples=15)
@given(lift=st.floats(-20.0, 20.0), cant=st.floats(-20.0, 20.0), side=st.sampled_from([1.0, -1.0]))
def test_base_and_top_stand_at_the_angles_asked_for(lift: float, cant: float, side: float) -> None:
    mesh = solid(wedge_mesh(wedge(lift, cant), -side, COARSE))
    # The package's sole, binding angle 0: the front foot's toes along y, its left along -x.
    x, y, z = stacked(sole_of(Mount(0.0, rad(lift), rad(cant)), side).normal)
    assert angle_deg(top_normal(mesh), np.array([y, -x, z])) < 0.01
    down = mesh.face_normals[mesh.face_normals[:, 2] < -0.5]
    assert np.abs(down - (0.0, 0.0, -1.0)).max() < 1e-9


def test_the_compound_slope_is_that_of_the_published_table() -> None:
    # Machinery's Handbook, 31st ed. 2020, p. 121: 6 deg and 3 deg give 6.698453 deg, and
    # 63.497930 deg is the angle beside the steeper of the two.
    asked = wedge(lift=3.0, cant=6.0)
    mesh = solid(wedge_mesh(asked, 1.0, COARSE))
    assert angle_deg(top_normal(mesh), np.array([0.0, 0.0, 1.0])) == pytest.approx(
        6.698453, abs=1e-3
    )
    assert math.degrees(asked.slope) == pytest.approx(6.698453, abs=1e-6)
    assert math.degrees(asked.bearing) == pytest.approx(63.497930, abs=1e-6)
    assert slope_and_bearing(asked.lift, asked.cant) == (asked.slope, asked.bearing)


def test_left_and_right_foot_are_mirror_images() -> None:
    left, right = (wedge_mesh(wedge(), side, COARSE) for side in (1.0, -1.0))
    mirrored = right.points * (1.0, -1.0, 1.0)
    assert np.sort(left.points, axis=0) == pytest.approx(np.sort(mirrored, axis=0))
    assert left.volume == pytest.approx(right.volume)
    # Little-toe side up: on the left foot the left side is the higher one.
    assert left.points[left.points[:, 1].argmax(), 2] < left.points[:, 2].max()
    assert left.points[left.points[:, 2].argmax(), 1] > 0.0
    assert right.points[right.points[:, 2].argmax(), 1] < 0.0


def test_a_hole_keeps_its_diameter_and_a_recess_takes_the_head() -> None:
    asked = wedge(screws=Screws(((10.0, 5.0),), **HEADS))
    mesh = solid(wedge_mesh(asked, 1.0, 0.002))
    floor = asked.hole_height((10.0, 5.0))
    for height, radius in ((0.5 * floor, 3.25), (floor + 1.0, 6.0)):
        cut = mesh.section(plane_origin=(0.0, 0.0, height), plane_normal=(0.0, 0.0, 1.0))
        around = np.hypot(*(cut.vertices[:, :2] - (10.0, 5.0)).T)
        assert around.min() == pytest.approx(radius, abs=0.01)


def test_a_flat_wedge_is_a_plate() -> None:
    mesh = assert_sound(wedge(0.0, 0.0, rectangle(100.0, 60.0), 5.0), 1.0)
    assert mesh.bounds == pytest.approx(np.array([[-50.0, -30.0, 0.0], [50.0, 30.0, 5.0]]))
    assert mesh.volume == pytest.approx(100.0 * 60.0 * 5.0)


def test_the_mesh_tells_its_own_volume_and_normals() -> None:
    mesh = wedge_mesh(wedge(screws=four_screws()), 1.0, COARSE)
    judge = solid(mesh)
    assert mesh.volume == pytest.approx(judge.volume)
    assert mesh.normals == pytest.approx(judge.face_normals, abs=1e-6)


def test_a_wedge_that_cannot_be_made_is_not_meshed() -> None:
    with refused("hole 1 lies outside the footprint"):
        wedge_mesh(wedge(screws=Screws(((300.0, 0.0),))), 1.0)
