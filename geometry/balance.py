"""How far ahead the weight of the body stands, and how that moves with the pelvis.

Thigh, shank and foot are three masses on a line of joints, so a leg's share is a
sum over hip, knee, ankle and sole, each times what it counts: see
:mod:`geometry.masses`.  Only the part along the stance facing is balanced.  There
the ankle and the sole are a fixed distance ahead plus so much of the sole's
normal, and the knee stands a shank further, in the hinge plane.
"""

from __future__ import annotations

from typing import NamedTuple

from geometry import masses
from geometry.body import LegMeasures
from geometry.boots import Boot
from geometry.elementary import Real
from geometry.leg import Bend, Slopes, Span
from geometry.sole import Sole
from geometry.vectors import Vector, dot, plus, scaled

OF_DEPTH = masses.UPPER_BODY + 2.0 * masses.OF_HIP
"""How much a pelvis moved forward moves the centre of mass by itself."""


class Load(NamedTuple):
    """What foot and ankle bring to the balance.

    Attributes:
        still: weighted distance ahead of what stays in place with the binding (mm).
        upward: weighted height over the binding of what stands on the sole (mm);
            it counts as far as the sole's normal points ahead.
        shank: its length times what the knee counts (mm).
    """

    still: Real
    upward: Real
    shank: Real


def load_of(sole: Sole, centre: Vector, facing: Vector, leg: LegMeasures, boot: Boot) -> Load:
    """The load of one foot.

    Args:
        sole: axes of the sole; only the foot axis is used, about which it may tilt.
        centre: of the binding (mm).
        facing: direction in which the weight is balanced.
        leg: the leg's dimensions.
        boot: its boot.
    """
    counts = masses.OF_KNEE + masses.OF_ANKLE + masses.FOOT
    along = masses.FOOT * masses.AHEAD_OF_ANKLE * leg.foot_length - counts * leg.setback
    above = leg.ankle_height + boot.sole_thickness
    return Load(
        still=counts * dot(centre, facing) + along * dot(sole.foot_axis, facing),
        upward=counts * above - masses.FOOT * leg.ankle_height,
        shank=masses.OF_KNEE * leg.shank,
    )


def ahead(load: Load, span: Span, bent: Bend) -> Real:
    """Weighted distance ahead of knee, ankle and foot of one leg (mm); the hip is left out."""
    in_plane = _in_plane(span, span.facing)
    knee = bent.forward * span.facing[0] + bent.upward * in_plane
    return load.still + load.upward * span.facing[2] + load.shank * knee


def ahead_slopes(load: Load, span: Span, bent: Bend, moved: Slopes) -> Vector:
    """How fast :func:`ahead` grows with the pelvis forward, the pelvis up and the flexion.

    Returns:
        Two slopes without a unit, and one in mm/rad.
    """
    facing, lean = span.facing, span.lean
    by_flex = load.shank * (bent.upward * facing[0] - bent.forward * _in_plane(span, facing))
    by_lean = -load.shank * bent.upward * (lean[0] * facing[1] + lean[1] * facing[2])
    fore = by_flex * moved.flex[0] + by_lean * moved.lean[0]
    lift = by_flex * moved.flex[1] + by_lean * moved.lean[1]
    if span.turning is not None:
        fore = fore + _ahead_by_turning(load, span, bent, span.turning[0])
        lift = lift + _ahead_by_turning(load, span, bent, span.turning[1])
    return fore, lift, by_flex * moved.flex[2]


def _ahead_by_turning(load: Load, span: Span, bent: Bend, turned: Vector) -> Real:
    """What a sole that turns under the leg adds, by how the facing turns in its axes."""
    knee = bent.forward * turned[0] + bent.upward * _in_plane(span, turned)
    return load.upward * turned[2] + load.shank * knee


def centre_of_mass(
    hips: tuple[Vector, Vector],
    knees: tuple[Vector, Vector],
    ankles: tuple[Vector, Vector],
    feet: tuple[Vector, Vector],
    upper_body: Vector,
) -> Vector:
    """Centre of mass of the whole body (mm).

    Args:
        hips: hip joint centres of both legs.
        knees: knee centres.
        ankles: ankle centres.
        feet: centres of the feet.
        upper_body: centre of head, arms and trunk together.
    """
    total = scaled(upper_body, masses.UPPER_BODY)
    for hip, knee, ankle, foot in zip(hips, knees, ankles, feet, strict=True):
        joints = plus(scaled(hip, masses.OF_HIP), scaled(knee, masses.OF_KNEE))
        below = plus(scaled(ankle, masses.OF_ANKLE), scaled(foot, masses.FOOT))
        total = plus(total, plus(joints, below))
    return total


def _in_plane(span: Span, v: Vector) -> Real:
    """Component of a vector up the hinge plane, square to its direction on the sole."""
    return span.lean[0] * v[2] - span.lean[1] * v[1]
