"""No posture is missed that a patient search finds, and the right leg gets the blame.

The search knows nothing of how the package settles a pelvis: it lays a dense net
of pelvis places over the stance, folds both legs to each by the law of cosines,
and hands the best ones to scipy's least squares.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np
import pytest
from numpy.typing import NDArray
from riders import DEG, random_values, settled, setup_of, single
from scipy.optimize import least_squares

from app.words.reasons import reason_phrase
from geometry import Posture, posture_reasons, solve
from geometry.fitting.inputs import Setup
from geometry.posture import chains_of, directions, hips_at_origin
from geometry.vectors import minus, stacked

REACHABLE_OFF_PLANE = math.radians(45.0)
"""Beyond this a thigh lies more beside its hinge plane than in it: no posture."""
FULLEST_BEND = math.radians(150.0)
"""Beyond this calf and thigh would be in each other."""

NEAR_ENOUGH = 0.7
"""What may be off at a place of the net for a posture to be near by (rad): between
places 30 mm apart a knee turns by some 0.1, more when it is nearly straight."""


class Folded(NamedTuple):
    """One leg folded to hips on a net: angles, and whether there is a fold at all."""

    flexion: NDArray[np.float64]
    boot_flex: NDArray[np.float64]
    off_plane: NDArray[np.float64]
    reaches: NDArray[np.bool_]

    @property
    def is_human(self) -> NDArray[np.bool_]:
        """Whether a leg might look like that."""
        beside = np.abs(self.off_plane) < REACHABLE_OFF_PLANE
        return self.reaches & beside & (self.flexion < FULLEST_BEND)


class Search:
    """Both legs of a stance or of arrays of stances, folded by arc cosines to any pelvis place."""

    def __init__(self, setup: Setup) -> None:
        body, boots, stance, crouch = setup
        self.setup = setup
        forward, across = directions(stance, crouch)
        self.forward = stacked(forward)
        self.chains = chains_of(body, boots, stance)
        hips = hips_at_origin(body, crouch, across)
        self.from_ankles = [
            stacked(minus(hip, chain.ankle)) for hip, chain in zip(hips, self.chains, strict=True)
        ]
        # Depth at which the pelvis hangs over the ankles.
        self.middle = -0.5 * sum((d * self.forward).sum(axis=-1) for d in self.from_ankles)

    def folded(self, leg: int, depth: NDArray[np.float64], height: NDArray[np.float64]) -> Folded:
        body, chain = self.setup.body, self.chains[leg]
        up = np.array([0.0, 0.0, 1.0])
        d = self.from_ankles[leg] + depth[..., None] * self.forward + height[..., None] * up
        axes = (chain.along, chain.outer, chain.sole.normal)
        along, out, normal = ((d * stacked(axis)).sum(axis=-1) for axis in axes)
        lean = chain.cuff + np.clip(np.arctan2(-out, normal) - chain.cuff, -chain.give, chain.give)
        miss = np.cos(lean) * out + np.sin(lean) * normal
        rise = np.cos(lean) * normal - np.sin(lean) * out
        in_plane = np.hypot(along, rise)
        thigh = np.sqrt(np.maximum(body.thigh**2 - miss**2, 0.0))
        with np.errstate(all="ignore"):
            cosine = (in_plane**2 - body.shank**2 - thigh**2) / (2.0 * body.shank * thigh)
            ahead = (in_plane**2 + body.shank**2 - thigh**2) / (2.0 * body.shank * in_plane)
            off = np.arcsin(miss / body.thigh)
        reaches = (np.abs(cosine) <= 1.0) & (np.abs(ahead) <= 1.0) & (rise > 0.0) & (thigh > 0.0)
        flexion = np.arccos(np.clip(cosine, -1.0, 1.0))
        boot_flex = np.arctan2(along, rise) + np.arccos(np.clip(ahead, -1.0, 1.0))
        return Folded(flexion, boot_flex, off, reaches)

    def off(self, place: NDArray[np.float64]) -> NDArray[np.float64]:
        """What is off at places (..., 2): mean bend, mean lean; large out of reach."""
        front, rear = (self.folded(leg, place[..., 0], place[..., 1]) for leg in (0, 1))
        off = np.stack(
            [
                0.5 * (front.flexion + rear.flexion) - self.setup.crouch.knee_bend,
                0.5 * (front.boot_flex + rear.boot_flex) - self.setup.boots.forward_lean,
            ],
            axis=-1,
        )
        return np.where((front.reaches & rear.reaches)[..., None], off, 9.0)

    def finds(self) -> bool:
        """Whether some place of the pelvis within human reach satisfies both equations."""
        leg = self.setup.body.shank + self.setup.body.thigh
        net = np.stack(
            np.meshgrid(
                self.middle + np.linspace(-1.2, 1.2, 60) * leg,
                np.linspace(0.0, 1.3, 40) * leg,
                indexing="ij",
            ),
            axis=-1,
        ).reshape(-1, 2)
        misses = np.linalg.norm(self.off(net), axis=-1)
        best = np.argsort(misses)[:2]
        return any(self._closes(net[i]) for i in best if misses[i] < NEAR_ENOUGH)

    def _closes(self, start: NDArray[np.float64]) -> bool:
        found = least_squares(self.off, start, x_scale=100.0, max_nfev=30)
        if np.linalg.norm(found.fun) > 1e-6:
            return False
        legs = [self.folded(leg, found.x[0], found.x[1]) for leg in (0, 1)]
        return all(bool(leg.is_human) for leg in legs)


def test_no_stance_said_to_be_out_of_reach_has_a_posture() -> None:
    values = random_values(420, 31)
    posture = solve(*setup_of(values))
    beyond = np.flatnonzero(~posture.exists)[:200]
    assert len(beyond) == 200
    missed = [int(i) for i in beyond if Search(single(values, int(i))).finds()]
    assert missed == []


def postures_turned_into_stances() -> dict[str, NDArray[Any]]:
    """Stances with bend and lean read off from a random pelvis place: each has a posture."""
    count, random = 40_000, np.random.default_rng(33)
    values = random_values(count, 34)
    # Thigh and shank as people have them; else both are drawn apart from each other.
    values["knee_height"] = values["hip_height"] * random.uniform(0.5, 0.6, count)
    search = Search(setup_of(values))
    leg = values["hip_height"]
    depth = search.middle + random.uniform(-0.5, 0.2, count) * leg
    height = random.uniform(0.4, 1.0, count) * leg
    front, rear = (search.folded(which, depth, height) for which in (0, 1))
    values["knee_bend"] = np.degrees(0.5 * (front.flexion + rear.flexion))
    values["forward_lean"] = np.degrees(0.5 * (front.boot_flex + rear.boot_flex))
    kept = front.is_human & rear.is_human
    for name in ("knee_bend", "forward_lean"):
        low, high = DEG[name]
        kept &= (values[name] > low) & (values[name] < high)
    return {name: value[kept] for name, value in values.items()}


def test_stances_made_from_a_posture_have_one() -> None:
    values = postures_turned_into_stances()
    found = solve(*setup_of(values)).exists
    splay = np.abs(values["front_angle"] - values["rear_angle"])
    assert np.count_nonzero(splay < 60.0) > 3000
    assert np.all(found[splay < 60.0])
    # Of splays that no hip bears, Newton's method may lose one in a thousand.
    assert np.mean(found) > 0.999


def test_the_search_finds_what_the_package_finds() -> None:
    # Else the test above could not fail.
    values = random_values(160, 32)
    posture = solve(*setup_of(values))
    human = posture.exists & (_most_off_plane(posture) < 0.7) & (_most_bent(posture) < 2.5)
    within = np.flatnonzero(human)[:30]
    found = [Search(single(values, int(i))).finds() for i in within]
    assert len(found) == 30
    assert sum(found) >= 28


def _most_off_plane(posture: Posture) -> NDArray[np.float64]:
    return np.fmax(*(np.abs(leg.off_plane) for leg in posture.legs))


def _most_bent(posture: Posture) -> NDArray[np.float64]:
    return np.fmax(*(leg.knee_flexion for leg in posture.legs))


def test_postures_settle_right_up_to_the_straight_leg() -> None:
    # Bending less and less, until one knee is straight: both sides of that limit.
    bends = np.linspace(14.0, 22.0, 401)
    posture = settled(front_angle=20.0, rear_angle=20.0, knee_bend=bends)
    straightest = np.fmin(*(leg.knee_flexion for leg in posture.legs))
    first = int(np.argmax(posture.exists))
    assert 0 < first < 400
    assert np.all(posture.exists[first:])
    assert not np.any(posture.exists[:first])
    assert 0.0 <= straightest[first] < math.radians(0.2)


def test_the_leg_that_would_have_to_bend_backwards_is_the_one_that_cannot_reach() -> None:
    settles = settled(front_angle=20.0, rear_angle=20.0, knee_bend=18.0)
    beyond = settled(front_angle=20.0, rear_angle=20.0, knee_bend=14.0)
    assert settles.rear.knee_flexion < settles.front.knee_flexion
    assert [reason_phrase(str(key)) for key in posture_reasons(beyond)] == [
        "the rear leg cannot reach, so no posture settles",
        "the rear leg cannot reach",
    ]


def test_in_the_mirror_the_other_leg_cannot_reach() -> None:
    beyond = settled(front_angle=-20.0, rear_angle=-20.0, knee_bend=14.0)
    assert [reason_phrase(str(key)) for key in posture_reasons(beyond)] == [
        "the front leg cannot reach",
        "the front leg cannot reach, so no posture settles",
    ]


@pytest.mark.parametrize("stance_length", [1700.0, 2000.0])
def test_feet_farther_apart_than_legs_are_long_are_out_of_reach(stance_length: float) -> None:
    posture = settled(stance_length=stance_length)
    assert not posture.exists
    assert all(str(text) for text in posture_reasons(posture))


def test_nearly_straight_legs_side_by_side_settle() -> None:
    bends = np.array([0.01, 0.1, 1.0])
    posture = settled(front_angle=0.0, rear_angle=0.0, stance_length=250.0, knee_bend=bends)
    assert np.all(posture.exists)
    assert posture.front.knee_flexion == pytest.approx(np.radians(bends), abs=1e-9)
