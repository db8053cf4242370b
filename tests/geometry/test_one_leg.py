"""One leg between ankle and hip, against textbook triangles and spheres."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from riders import LEAST_THIGH, settled

from geometry.leg import Links, Span, bend, slopes, span_to

FORE, LIFT = (0.7, -0.5, 0.1), (0.1, 0.3, 0.9)


def links(shank: float, thigh: float, give: float = 0.0, cuff: float = 0.0) -> Links:
    """Bones in a boot; without give or cuff the hinge plane stands upright."""
    least, most = cuff - give, cuff + give
    return Links(
        shank=shank,
        thigh=thigh,
        squares=shank * shank + thigh * thigh,
        shorter=min(shank, thigh),
        least_lean=(math.cos(least), math.sin(least)),
        most_lean=(math.cos(most), math.sin(most)),
    )


def upright(bones: Links, reach: float) -> Span:
    return span_to(bones, (0.0, 0.0, reach), (FORE, LIFT), FORE)


# Two links joined by a hinge, law of cosines: sides, reach and the angle by which the
# second turns from the first (deg).  3-4-5 and the rest are any textbook's triangles.
TWO_LINKS = [
    (3.0, 4.0, 5.0, 90.0),
    (5.0, 5.0, 5.0, 120.0),
    (7.0, 8.0, 13.0, 60.0),
    (400.0, 400.0, 600.0, 82.819244),
    (434.0, 422.2, 750.0, 57.687557),
]


@pytest.mark.parametrize(("shank", "thigh", "reach", "flexion"), TWO_LINKS)
def test_a_knee_bent_as_the_law_of_cosines_says_spans_the_reach(
    shank: float, thigh: float, reach: float, flexion: float
) -> None:
    bones = links(shank, thigh)
    bent = bend(bones, upright(bones, reach), math.radians(flexion))
    # The table's angles are rounded to a millionth of a degree.
    assert bent.gap / (shank * thigh) == pytest.approx(0.0, abs=4e-8)


@pytest.mark.parametrize(("shank", "thigh", "reach", "flexion"), TWO_LINKS)
def test_the_shank_stands_ahead_of_the_line_to_the_hip_by_the_law_of_sines(
    shank: float, thigh: float, reach: float, flexion: float
) -> None:
    bones = links(shank, thigh)
    bent = bend(bones, upright(bones, reach), math.radians(flexion))
    # Sides are as the sines of the angles opposite.
    assert math.sin(bent.boot_flex) == pytest.approx(
        thigh / reach * math.sin(math.radians(flexion)), abs=1e-7
    )


def test_the_knee_lies_on_the_circle_in_which_two_spheres_meet() -> None:
    # Two spheres of radius 3 about (3, 3, 3) and (1, 1, 1) meet in a circle of
    # radius 2.4494897 about (2, 2, 2): a textbook case.
    bones, apart = links(3.0, 3.0), math.sqrt(12.0)
    flexion = math.acos((apart**2 - 18.0) / 18.0)
    bent = bend(bones, upright(bones, apart), flexion)
    along, aside = 3.0 * math.cos(bent.boot_flex), 3.0 * math.sin(bent.boot_flex)
    assert bent.gap == pytest.approx(0.0, abs=1e-12)
    assert along == pytest.approx(math.dist((2, 2, 2), (1, 1, 1)))
    assert aside == pytest.approx(2.4494897, abs=5e-8)


def test_every_settled_knee_lies_on_the_spheres_about_ankle_and_hip() -> None:
    for leg in settled(front_angle=10.0).legs:
        apart = float(np.linalg.norm(leg.hip - leg.ankle))
        shank, thigh = leg.chain.links.shank, leg.chain.links.thigh
        # Plane and radius of the circle in which two spheres meet.
        along = (apart**2 + shank**2 - thigh**2) / (2.0 * apart)
        axis = (leg.hip - leg.ankle) / apart
        assert axis @ (leg.knee - leg.ankle) == pytest.approx(along, abs=1e-9)
        off_axis = np.linalg.norm(leg.knee - leg.ankle - along * axis)
        assert off_axis == pytest.approx(math.sqrt(shank**2 - along**2), abs=1e-9)


hips = st.tuples(st.floats(-500.0, 500.0), st.floats(-400.0, 400.0), st.floats(50.0, 900.0))
flexions = st.floats(-0.5, 2.5)


@given(hips, flexions, st.floats(0.0, 0.3), st.floats(-0.1, 0.2))
def test_slopes_are_what_a_small_motion_of_the_pelvis_does(
    hip: tuple[float, float, float], flexion: float, give: float, cuff: float
) -> None:
    bones = links(420.0, 390.0, give, cuff)
    here = span_to(bones, hip, (FORE, LIFT), FORE)
    # Apart from where the thigh lies square to the plane, and from the edge of the give.
    assume(here.possible and here.thigh > 60.0 and here.rise > 30.0)
    assume(here.miss == 0.0 or abs(here.miss) > 0.1)
    exact = slopes(bones, here, bend(bones, here, flexion))
    step = 1e-3
    for which, motion in enumerate((FORE, LIFT)):
        near, far = (
            bend(bones, span_to(bones, moved(hip, motion, way * step), (FORE, LIFT), FORE), flexion)
            for way in (-1.0, 1.0)
        )
        assert (far.gap - near.gap) / (2.0 * step) == pytest.approx(
            exact.gap[which], rel=1e-4, abs=1e-2
        )
        assert (far.boot_flex - near.boot_flex) / (2.0 * step) == pytest.approx(
            exact.flex[which], rel=1e-4, abs=1e-7
        )


def moved(
    hip: tuple[float, float, float], motion: tuple[float, float, float], by: float
) -> tuple[float, float, float]:
    x, y, z = (start + by * part for start, part in zip(hip, motion, strict=True))
    return (x, y, z)


@given(hips, flexions)
def test_slopes_are_what_a_small_bend_of_the_knee_does(
    hip: tuple[float, float, float], flexion: float
) -> None:
    bones, step = links(420.0, 390.0, 0.1), 1e-6
    here = span_to(bones, hip, (FORE, LIFT), FORE)
    assume(here.possible and here.thigh > LEAST_THIGH)
    exact = slopes(bones, here, bend(bones, here, flexion))
    near, far = (bend(bones, here, flexion + way * step) for way in (-1.0, 1.0))
    assert (far.gap - near.gap) / (2.0 * step) == pytest.approx(exact.gap[2], rel=1e-6, abs=1e-1)
    assert (far.boot_flex - near.boot_flex) / (2.0 * step) == pytest.approx(
        exact.flex[2], rel=1e-6, abs=1e-6
    )


@pytest.mark.parametrize("miss", [0.0, 100.0, -250.0, 380.0])
def test_a_thigh_beside_its_plane_is_foreshortened_as_pythagoras_says(miss: float) -> None:
    bones = links(420.0, 390.0)
    found = span_to(bones, (0.0, miss, 600.0), (FORE, LIFT), FORE)
    assert found.thigh == pytest.approx(math.sqrt(390.0**2 - miss**2))


def test_a_hip_farther_aside_than_the_thigh_is_long_leaves_a_search_some_way_back() -> None:
    bones, misses = links(420.0, 390.0), np.linspace(0.0, 800.0, 4001)
    found = span_to(bones, (0.0, misses, 600.0), (FORE, LIFT), FORE)
    # In the plane the thigh shrinks at the slope that is told, never to nothing; the
    # slope itself has a corner.
    slopes_between = -np.diff(found.thigh) / np.diff(misses)
    told = 0.5 * (found.shortening[1:] + found.shortening[:-1])
    assert slopes_between == pytest.approx(told, abs=0.03)
    assert found.thigh.min() > 0.0
