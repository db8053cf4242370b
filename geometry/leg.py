"""One leg, from the sole up to a given hip: a closed form.

The hip is known in three coordinates about the ankle: along the hinge plane's
direction on the sole, square to it on the outer side, and up the sole's normal.
The boot lets the shank lean sideways by the cuff angle give or take its side
give.  Within that band the hinge plane can be leaned right through the hip;
beyond it, the hip stays a distance ``miss`` beside the plane, and the knee has
to take it.

Derivation of the bend.  Let ``Ls`` and ``Lt`` be shank and thigh, ``D`` the
distance from ankle to hip.  In the hinge plane the two links reach
``R^2 = D^2 - miss^2`` with a thigh foreshortened to ``T^2 = Lt^2 - miss^2``.
Twice twice the area of that triangle is ``K = 2 Ls T sin(flexion)``, and the law
of cosines gives ``P = D^2 - Ls^2 - Lt^2 = 2 Ls T cos(flexion)`` and
``Q = D^2 + Ls^2 - Lt^2 = 2 Ls R cos(knee ahead)``.  Hence both angles are arc
tangents of the same ``K``, accurate down to the straight leg.
"""

from __future__ import annotations

from typing import NamedTuple

from geometry.body import Body
from geometry.boots import Boots, cuff_angle
from geometry.elementary import (
    Real,
    Truth,
    atan2,
    choose,
    clipped,
    cos,
    larger,
    ratio,
    sin,
    smaller,
    sqrt,
)
from geometry.sole import Sole
from geometry.vectors import Vector, dot, minus, plus, scaled, turned


class Links(NamedTuple):
    """What the bend of a leg depends on: bone lengths and the band of lean.

    The leans are pairs of cosine and sine, measured inward from the sole's
    normal.
    """

    shank: Real
    thigh: Real
    least_lean: tuple[Real, Real]
    most_lean: tuple[Real, Real]


class Chain(NamedTuple):
    """What one leg keeps while the pelvis moves: foot, boot and bone lengths.

    The axes are unit vectors in the frame of the board: ``along`` the hinge
    plane on the sole, ``outer`` square to it, ``normal`` out of the sole.
    """

    sole: Sole
    ankle: Vector
    along: Vector
    outer: Vector
    links: Links
    cuff: Real
    give: Real

    @property
    def normal(self) -> Vector:
        """Out of the sole."""
        return self.sole.normal


class Fold(NamedTuple):
    """How a leg folds to bring its hip to a place, and how fast that changes.

    Attributes:
        hip: ankle to hip along, outward and up the sole (mm).
        miss: distance of the hip to the outer side of the hinge plane (mm).
        reach_squared: ankle to hip within the hinge plane, squared (mm2).
        thigh_squared: thigh within the hinge plane, squared (mm2).
        rise: height of the hip within the leaned plane (mm).
        bent: ``P`` of the module's derivation (mm2).
        ahead: ``Q`` of the module's derivation (mm2).
        area: ``K`` of the module's derivation (mm2); zero out of reach.
        reaches: whether the leg can bring its hip there at all.
    """

    hip: Vector
    miss: Real
    reach_squared: Real
    thigh_squared: Real
    rise: Real
    bent: Real
    ahead: Real
    area: Real
    reaches: Truth

    @property
    def knee_flexion(self) -> Real:
        """Angle of the thigh behind the shank's line, in the hinge plane (rad)."""
        return atan2(self.area, self.bent)

    @property
    def boot_flex(self) -> Real:
        """Angle of the shank forward of the sole's normal, in the hinge plane (rad)."""
        return atan2(self.hip[0], self.rise) + atan2(self.area, self.ahead)


def chain_of(sole: Sole, centre: Vector, body: Body, boots: Boots) -> Chain:
    """One leg's fixed part.

    Args:
        sole: axes of the sole.
        centre: centre of the binding (mm).
        body: leg dimensions.
        boots: boots.
    """
    track_cos, track_sin = cos(body.knee_tracking), sin(body.knee_tracking)
    above = body.ankle_height + boots.sole_thickness
    ankle = plus(centre, scaled(sole.normal, above))
    cuff = cuff_angle(body)
    least, most = cuff - boots.side_give, cuff + boots.side_give
    return Chain(
        sole=sole,
        ankle=minus(ankle, scaled(sole.foot_axis, body.setback)),
        along=turned(sole.foot_axis, sole.outer, track_cos, -track_sin),
        outer=turned(sole.outer, sole.foot_axis, track_cos, track_sin),
        links=Links(body.shank, body.thigh, (cos(least), sin(least)), (cos(most), sin(most))),
        cuff=cuff,
        give=boots.side_give,
    )


def in_sole_axes(chain: Chain, v: Vector) -> Vector:
    """Components of a vector along, outward and up the sole."""
    return (dot(chain.along, v), dot(chain.outer, v), dot(chain.normal, v))


def fold(links: Links, hip: Vector) -> Fold:
    """Fold the leg to a hip given along, outward and up the sole from the ankle.

    Out of reach ``reaches`` is false and the angles are those of the straight
    (or fully folded) leg.
    """
    forward, outward, up = hip
    # Leaned least, the plane still passes inside of a hip that hangs far out;
    # leaned most, it passes outside of one that hangs far in.
    beyond = links.least_lean[0] * outward + links.least_lean[1] * up
    short = links.most_lean[0] * outward + links.most_lean[1] * up
    miss = larger(beyond, 0.0) + smaller(short, 0.0)
    distance_squared = forward * forward + outward * outward + up * up
    miss_squared = miss * miss
    shank_squared, thigh_full = links.shank * links.shank, links.thigh * links.thigh
    reach_squared = distance_squared - miss_squared
    thigh_squared = thigh_full - miss_squared
    bent = distance_squared - shank_squared - thigh_full
    area_squared = 4.0 * shank_squared * thigh_squared - bent * bent
    return Fold(
        hip=hip,
        miss=miss,
        reach_squared=reach_squared,
        thigh_squared=thigh_squared,
        rise=sqrt(reach_squared - forward * forward),
        bent=bent,
        ahead=distance_squared + shank_squared - thigh_full,
        area=sqrt(area_squared),
        reaches=(area_squared > 0.0) & (thigh_squared > 0.0) & (up > 0.0),
    )


def bend_gradients(links: Links, folded: Fold) -> tuple[Vector, Vector]:
    """Gradients of knee flexion and boot flex over the place of the hip (rad/mm).

    Along, outward and up the sole.  Derivatives of the module's arc tangents;
    nan where the leg is straight.
    """
    forward, outward, up = folded.hip
    lean = folded.miss > 0.0
    # Half the gradient of the squared miss, which has no part along the plane.
    miss_out = folded.miss * choose(lean, links.least_lean[0], links.most_lean[0])
    miss_up = folded.miss * choose(lean, links.least_lean[1], links.most_lean[1])
    per_area = ratio(-1.0, folded.area)
    of_miss = per_area * ratio(folded.bent, folded.thigh_squared)
    bend = 2.0 * per_area
    flexion = (
        bend * forward,
        bend * outward + of_miss * miss_out,
        bend * up + of_miss * miss_up,
    )
    per_reach = ratio(1.0, folded.reach_squared)
    of_reach = per_area * folded.ahead * per_reach
    # The knee ahead of the ankle-hip line, and that line ahead of the normal.
    ahead, falling = bend - of_reach, ratio(-forward * per_reach, folded.rise)
    boot_flex = (
        ahead * forward + folded.rise * per_reach,
        ahead * outward + of_reach * miss_out + falling * (outward - miss_out),
        ahead * up + of_reach * miss_up + falling * (up - miss_up),
    )
    return flexion, boot_flex


def wanted_give(chain: Chain, hip: Vector) -> Real:
    """Lean that would put the hip in the hinge plane, less the cuff angle (rad).

    Positive inward.  Boot and ankle give up to ``side_give`` of it.
    """
    return atan2(-hip[1], hip[2]) - chain.cuff


def shank_lean(chain: Chain, wanted: Real) -> Real:
    """Inward lean of the shank's plane from the sole's normal (rad)."""
    return chain.cuff + clipped(wanted, -chain.give, chain.give)
