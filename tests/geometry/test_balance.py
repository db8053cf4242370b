"""Where the weight is: shares of the body, and slopes against small motions."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from riders import rad, settled, slider_setups

from geometry import masses, solve
from geometry.balance import ahead, ahead_slopes
from geometry.fitting.inputs import PostureInputs
from geometry.leg import bend, slopes
from geometry.pelvis import chains_of, pelvis_of, pulls_of
from geometry.settling import Pull

# Men and women, share of the body and centre along the segment: de Leva 1996, J Biomech
# 29:1223-1230, table 4 (read from a transcription).
DE_LEVA = {
    "thigh": (0.1416, 0.1478, 0.4095, 0.3612),
    "shank": (0.0433, 0.0481, 0.4459, 0.4416),
    "foot": (0.0137, 0.0129, None, None),
}


def test_shares_are_the_mean_of_the_table_s_men_and_women() -> None:
    for name, (man, woman, _, _) in DE_LEVA.items():
        assert getattr(masses, name.upper()) == pytest.approx(0.5 * (man + woman), abs=5.1e-5)
    for name, along in (("thigh", masses.ALONG_THIGH), ("shank", masses.ALONG_SHANK)):
        man, woman = DE_LEVA[name][2:]
        assert along == pytest.approx(0.5 * (man + woman), abs=5.1e-5)


def test_all_shares_make_up_the_body() -> None:
    legs = 2.0 * (masses.THIGH + masses.SHANK + masses.FOOT)
    assert legs + masses.UPPER_BODY == pytest.approx(1.0)
    joints = masses.OF_HIP + masses.OF_KNEE + masses.OF_ANKLE
    assert 2.0 * (joints + masses.FOOT) + masses.UPPER_BODY == pytest.approx(1.0)


def pull_of(setup: PostureInputs) -> Pull:
    body, boots, stance, crouch = setup
    pelvis = pelvis_of(body, stance, crouch)
    return pulls_of(body, boots, stance, chains_of(body, boots, stance), pelvis)[0]


def ahead_at(leg: Pull, depth: float, height: float, flexion: float) -> float:
    span = leg.spanned(depth, height)
    return ahead(leg.load, span, bend(leg.links, span, flexion))


@given(slider_setups)
@settings(max_examples=80)
def test_slopes_are_what_a_small_motion_does_to_the_weight(setup: PostureInputs) -> None:
    posture = solve(*setup)
    assume(posture.exists)
    leg, flexion = pull_of(setup), posture.front.knee_flexion
    # Apart from the edge of the give, where slopes jump.
    assume(abs(abs(posture.front.wanted_give) - setup.boots.front.side_give) > rad(0.1))
    span = leg.spanned(posture.depth, posture.height)
    bent = bend(leg.links, span, flexion)
    told = ahead_slopes(leg.load, span, bent, slopes(leg.links, span, bent))
    for which, step in enumerate((1e-3, 1e-3, 1e-6)):
        here = [posture.depth, posture.height, flexion]
        near, far = list(here), list(here)
        near[which] -= step
        far[which] += step
        by = (ahead_at(leg, *far) - ahead_at(leg, *near)) / (2.0 * step)
        assert by == pytest.approx(told[which], rel=1e-4, abs=1e-5)


@pytest.mark.parametrize(("ahead_mm", "share"), [(0.0, 0.5), (50.0, 0.6), (-100.0, 0.3)])
def test_the_weight_is_shared_by_where_it_stands_between_the_feet(
    ahead_mm: float, share: float
) -> None:
    # Feet one before the other, 500 mm apart: a lever about the rear one.
    posture = settled(front_angle=90.0, rear_angle=90.0, stance_length=500.0, weight_ahead=ahead_mm)
    assert posture.front_share == pytest.approx(share, abs=1e-9)


def test_bindings_at_one_place_share_nothing() -> None:
    posture = settled(front_angle=0.0, rear_angle=0.0, stance_length=0.0, neutral_spacing=100.0)
    assert math.isnan(posture.front_share)
