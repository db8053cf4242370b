"""Clinical joint angles against scipy's rotations, and against their usual ranges."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from numpy.typing import NDArray
from riders import ordinary_values, rad, settled, setup_of, single, slider_setups
from scipy.spatial.transform import Rotation

from geometry import Leg, Posture, solve
from geometry.fitting.inputs import PostureInputs
from geometry.joints import AAOS_MOVEMENTS, LegAngles, beyond_range, joint_angles

JOINTS = ("hip", "knee", "ankle")
Matrix = NDArray[np.float64]


def bone(up: Matrix, outward: Matrix, side: float) -> Matrix:
    """Axes of a bone as columns: x forward, y up, z to the right, as ISB asks.

    z is what an outward axis leaves when its part along the bone is taken out.
    """
    y = up / np.linalg.norm(up)
    z = side * (outward - (outward @ y) * y)
    z /= np.linalg.norm(z)
    return np.column_stack([np.cross(y, z), y, z])


def segments(posture: Posture, leg: Leg) -> list[Matrix]:
    """Pelvis, femur, shank and foot axes of a leg."""
    up, side = np.array([0.0, 0.0, 1.0]), leg.side
    pelvis = np.column_stack([posture.forward, up, posture.across])
    foot = np.column_stack(
        [leg.chain.sole.foot_axis, leg.chain.sole.normal, side * np.array(leg.chain.sole.outer)]
    )
    hinge = np.array(leg.hinge_axis)
    femur = bone(leg.hip - leg.knee, hinge, side)
    return [pelvis, femur, bone(leg.knee - leg.ankle, hinge, side), foot]


def clinical(posture: Posture, leg: Leg) -> dict[str, list[float]]:
    """Angles by scipy: Z-X-Y as Grood & Suntay 1983 and Wu 2002; a left leg negates X and Y.

    Right leg: hip flexion +Z, adduction +X, internal rotation +Y; knee flexion -Z.
    """
    told = {}
    axes = segments(posture, leg)
    for joint, upper, lower in zip(JOINTS, axes[:-1], axes[1:], strict=True):
        z, x, y = Rotation.from_matrix(upper.T @ lower).as_euler("ZXY")
        told[joint] = [z, leg.side * x, leg.side * y]
    hip, knee, ankle = (told[joint] for joint in JOINTS)
    return {
        "hip": [hip[0], -hip[1], hip[2]],
        "knee": [-knee[0], -knee[1], knee[2]],
        "ankle": ankle,
    }


def ours(angles: LegAngles, joint: str) -> list[float]:
    values = getattr(angles, joint)
    return [getattr(values, name) for name in type(values).__slots__]


def legs_of(posture: Posture) -> list[tuple[Leg, LegAngles]]:
    angles = joint_angles(posture)
    return list(zip(posture.legs, (angles.front, angles.rear), strict=True))


@given(slider_setups)
@settings(max_examples=100)
def test_joint_angles_are_scipys_z_x_y_sequence(setup: PostureInputs) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    # With the second angle at a right angle the other two are one and the same.
    assume(all(abs(leg.off_plane) < rad(80.0) for leg in posture.legs))
    for leg, angles in legs_of(posture):
        expected = clinical(posture, leg)
        for joint in JOINTS:
            if abs(expected[joint][1]) < rad(89.0):
                turned = np.array(ours(angles, joint)) - expected[joint]
                assert np.sin(turned) == pytest.approx(0.0, abs=1e-7)
                assert np.cos(turned) == pytest.approx(1.0, abs=1e-7)


@given(slider_setups)
@settings(max_examples=60)
def test_off_plane_shows_as_valgus_when_straight_and_as_rotation_when_bent(
    setup: PostureInputs,
) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    for leg, angles in legs_of(posture):
        e, a = leg.off_plane, leg.knee_flexion
        assert math.sin(angles.knee.valgus) == pytest.approx(math.sin(e) * math.cos(a), abs=1e-9)
        assert angles.knee.internal_rotation == pytest.approx(
            math.atan2(-math.sin(e) * math.sin(a), math.cos(e)), abs=1e-7
        )


def test_a_knee_in_its_plane_flexes_and_does_nothing_else() -> None:
    posture = settled(front_cant=4.0, rear_cant=4.0, front_lift=5.0, rear_lift=-5.0)
    for leg, angles in legs_of(posture):
        assert angles.knee.flexion == pytest.approx(leg.knee_flexion, abs=1e-12)
        assert angles.knee.valgus == pytest.approx(0.0, abs=1e-12)
        assert angles.knee.internal_rotation == pytest.approx(0.0, abs=1e-12)


def test_the_ankle_dorsiflexes_as_far_as_the_boot_flexes() -> None:
    for leg, angles in legs_of(settled()):
        assert angles.ankle.dorsiflexion == pytest.approx(leg.boot_flex, abs=1e-9)
        assert angles.ankle.inversion == pytest.approx(leg.lean, abs=1e-9)


@pytest.mark.parametrize("turned", [-15.0, 15.0])
def test_hips_turned_rotate_one_thigh_in_and_the_other_out(turned: float) -> None:
    straight, twisted = (
        joint_angles(settled(front_angle=0.0, rear_angle=0.0, hips_turned=by))
        for by in (0.0, turned)
    )
    front = twisted.front.hip.internal_rotation - straight.front.hip.internal_rotation
    rear = twisted.rear.hip.internal_rotation - straight.rear.hip.internal_rotation
    # Turned to the nose the pelvis turns to the front leg's side, over a thigh that
    # its foot holds: against the pelvis that thigh turns inward.
    assert front * turned > 0.0
    assert rear * turned < 0.0


def test_a_wide_stance_abducts_both_hips_alike() -> None:
    narrow, wide = (
        joint_angles(settled(front_angle=0.0, rear_angle=0.0, stance_length=length))
        for length in (250.0, 600.0)
    )
    assert wide.front.hip.abduction - narrow.front.hip.abduction > rad(10.0)
    assert wide.front.hip.abduction == pytest.approx(wide.rear.hip.abduction, abs=1e-9)


def test_joints_of_an_array_are_those_of_its_stances() -> None:
    values = ordinary_values(40, 8)
    together = joint_angles(solve(*setup_of(values)))
    for i in range(40):
        alone = joint_angles(solve(*single(values, i)))
        for joint in JOINTS:
            found = [value[i] for value in ours(together.rear, joint)]
            assert found == pytest.approx(ours(alone.rear, joint), abs=1e-9, nan_ok=True)


def test_no_posture_has_no_joint_angles_and_nothing_beyond_range() -> None:
    angles = joint_angles(settled(stance_length=1900.0))
    assert all(math.isnan(value) for joint in JOINTS for value in ours(angles.front, joint))
    assert beyond_range(angles).front == ()


def test_what_goes_beyond_its_range_is_told_by_how_much() -> None:
    # Dorsiflexion 20, AAOS 1965, memory; the demo's rear boot flexes 32.3972 deg, by the
    # independent solver of tests/cases/worked_postures.json.
    beyond = beyond_range(joint_angles(settled()))
    assert beyond.front == ()
    (excess,) = beyond.rear
    assert (excess.movement.joint, excess.movement.name) == ("ankle", "dorsiflexion")
    assert math.degrees(excess.beyond) == pytest.approx(12.397, abs=1e-3)


def test_both_ends_of_a_range_are_watched() -> None:
    # Internal rotation 38, external 41 seated (Kouyoumdjian 2012): feet far out, hips
    # turned either way.
    names = set()
    for turned in (-60.0, 60.0):
        beyond = beyond_range(joint_angles(settled(hips_turned=turned)))
        names |= {e.movement.name for leg in (beyond.front, beyond.rear) for e in leg}
    assert {"internal rotation", "external rotation"} <= names


def test_of_an_array_each_stance_is_told_its_own_excess() -> None:
    angles = joint_angles(settled(knee_bend=np.array([15.0, 45.0])))
    beyond = beyond_range(angles).rear
    (excess,) = [e for e in beyond if e.movement.name == "dorsiflexion"]
    flexed = angles.rear.ankle.dorsiflexion - rad(20.0)
    assert excess.beyond == pytest.approx(np.maximum(flexed, 0.0))


def test_wider_ranges_leave_less_beyond_them() -> None:
    angles = joint_angles(settled(hips_turned=60.0))
    seated, standing = beyond_range(angles), beyond_range(angles, AAOS_MOVEMENTS)
    largest = {e.movement.name: e.beyond for e in standing.front}
    for excess in seated.front:
        assert excess.beyond >= largest.get(excess.movement.name, 0.0)


def test_a_grid_of_stances_has_its_joints_told_in_its_own_shape() -> None:
    angles = np.linspace(-60.0, 90.0, 7)
    joints = joint_angles(settled(front_angle=angles[:, None], rear_angle=angles))
    assert joints.front.hip.flexion.shape == (7, 7)
    # The mirror across the board exchanges the legs and the signs of the angles.
    assert joints.rear.knee.valgus[2, 3] == pytest.approx(
        joint_angles(settled(front_angle=-angles[3], rear_angle=-angles[2])).front.knee.valgus,
        abs=1e-9,
    )
