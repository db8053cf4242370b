"""One leg, from the sole up to a given hip.

The hip is known in three coordinates about the ankle: along the hinge plane's
direction on the sole, square to it on the outer side, and up the sole's normal.
The boot lets the shank lean sideways by the cuff angle give or take its side
give.  Within that band the hinge plane can be leaned right through the hip;
beyond it, the hip stays a distance ``miss`` beside the plane, and the knee has
to take it.

Derivation of the bend.  Let ``Ls`` and ``Lt`` be shank and thigh, ``D`` the
distance from ankle to hip.  In the hinge plane the thigh is foreshortened to
``T^2 = Lt^2 - miss^2``.  A knee bent by ``a`` spans
``D^2 = Ls^2 + Lt^2 + 2 Ls T cos(a)`` by the law of cosines, since the miss that
the plane lacks is also lacking in ``T``; and the shank then stands ahead of the
ankle-hip line by ``atan2(T sin(a), Ls + T cos(a))``.  Both are smooth in the hip
and in the bend, through the straight leg and beyond it.  The bend as a function
of the hip is not: it has the infinite slope of an arc cosine at one.  So the
bend is given here, and :mod:`geometry.settling` finds it along with the hip.
"""

from __future__ import annotations

from typing import NamedTuple, TypeAlias

from geometry.body import Body
from geometry.boots import Boots, cuff_angle
from geometry.elementary import (
    Real,
    Truth,
    atan2,
    chosen,
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

Pair: TypeAlias = tuple[Real, Real]

FARTHEST = 8.0
"""Square of the farthest hip from which a search still finds back, over the sum of
the squares of shank and thigh: about two leg lengths."""


class Links(NamedTuple):
    """What the bend of a leg depends on: bone lengths and the band of lean.

    The leans are pairs of cosine and sine, measured inward from the sole's
    normal; ``squares`` is the sum of the two lengths squared (mm2).
    """

    shank: Real
    thigh: Real
    squares: Real
    least_lean: Pair
    most_lean: Pair


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


class Span(NamedTuple):
    """How a hip stands to its leg, whatever the bend.

    Attributes:
        hip: ankle to hip along, outward and up the sole (mm).
        lean: cosine and sine of the hinge plane's lean inward from the normal.
        rise: height of the hip over the ankle within the leaned plane (mm).
        miss: distance of the hip to the outer side of the plane (mm).
        thigh: length of the thigh within the plane (mm).
        distance_squared: ankle to hip, squared (mm2).
        possible: whether the thigh can reach that far beside the plane, and the
            hip is above the ankle in it and not out of all reason.
        fore: motion of the hip in the axes of the sole as the pelvis moves
            forward by one.
        lift: the same as the pelvis rises by one.
    """

    hip: Vector
    lean: Pair
    rise: Real
    miss: Real
    thigh: Real
    distance_squared: Real
    possible: Truth
    fore: Vector
    lift: Vector


class Bend(NamedTuple):
    """A leg spanning from its ankle to a hip with its knee bent by a given angle.

    Attributes:
        cosine: of the knee flexion.
        sine: of the knee flexion.
        gap: how much longer the squared span is than the leg so bent (mm2);
            zero when the leg fits.
        forward: of the shank in the hinge plane; with ``upward`` its direction,
            of no particular length.
        upward: of the shank in the hinge plane.
    """

    cosine: Real
    sine: Real
    gap: Real
    forward: Real
    upward: Real

    @property
    def boot_flex(self) -> Real:
        """Angle of the shank forward of the sole's normal, in the hinge plane (rad)."""
        return atan2(self.forward, self.upward)


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
    shank, thigh = body.shank, body.thigh
    ankle = plus(centre, scaled(sole.normal, above))
    cuff = cuff_angle(body)
    least, most = cuff - boots.side_give, cuff + boots.side_give
    return Chain(
        sole=sole,
        ankle=minus(ankle, scaled(sole.foot_axis, body.setback)),
        along=turned(sole.foot_axis, sole.outer, track_cos, -track_sin),
        outer=turned(sole.outer, sole.foot_axis, track_cos, track_sin),
        links=Links(
            shank=shank,
            thigh=thigh,
            squares=shank * shank + thigh * thigh,
            least_lean=(cos(least), sin(least)),
            most_lean=(cos(most), sin(most)),
        ),
        cuff=cuff,
        give=boots.side_give,
    )


def in_sole_axes(chain: Chain, v: Vector) -> Vector:
    """Components of a vector along, outward and up the sole."""
    return (dot(chain.along, v), dot(chain.outer, v), dot(chain.normal, v))


def span_to(links: Links, hip: Vector, fore: Vector, lift: Vector) -> Span:
    """How a hip stands to its leg.

    Args:
        links: bone lengths and the band of lean.
        hip: ankle to hip along, outward and up the sole (mm).
        fore: motion of the hip in these axes as the pelvis moves forward by one.
        lift: the same as the pelvis rises by one.
    """
    forward, outward, up = hip
    least, most = links.least_lean, links.most_lean
    # Leaned least, the plane still passes inside of a hip that hangs far out;
    # leaned most, it passes outside of one that hangs far in.
    beyond = least[0] * outward + least[1] * up
    short = most[0] * outward + most[1] * up
    aside_squared = outward * outward + up * up
    per_aside = ratio(1.0, sqrt(aside_squared))
    through = up * per_aside, -outward * per_aside
    lean: Pair = chosen(beyond > 0.0, least, chosen(short < 0.0, most, through))
    rise = lean[0] * up - lean[1] * outward
    miss = larger(beyond, 0.0) + smaller(short, 0.0)
    thigh_squared = links.thigh * links.thigh - miss * miss
    distance_squared = forward * forward + aside_squared
    in_reason = distance_squared < FARTHEST * links.squares
    possible = (thigh_squared > 0.0) & (rise > 0.0) & in_reason
    return Span(hip, lean, rise, miss, sqrt(thigh_squared), distance_squared, possible, fore, lift)


def bend(links: Links, span: Span, knee_flexion: Real) -> Bend:
    """The leg with its knee bent by an angle (rad), laid along a span."""
    shank, thigh = links.shank, span.thigh
    cosine, sine = cos(knee_flexion), sin(knee_flexion)
    gap = span.distance_squared - links.squares - 2.0 * shank * thigh * cosine
    # The line to the hip, turned on by how far the shank stands ahead of it.
    along, aside = shank + thigh * cosine, thigh * sine
    forward = span.hip[0] * along + span.rise * aside
    return Bend(cosine, sine, gap, forward, span.rise * along - span.hip[0] * aside)


class Slopes(NamedTuple):
    """How fast gap and boot flex of a leg change.

    Attributes:
        gap: with the pelvis forward, with the pelvis up (mm), and with the knee
            flexion (mm2).
        flex: the same of the boot flex (rad/mm, rad/mm, 1).
    """

    gap: Vector
    flex: Vector


def slopes(links: Links, span: Span, bent: Bend) -> Slopes:
    """Slopes of a bent leg laid along a span; nan where the thigh is square to its plane."""
    hip, lean, rise, thigh = span.hip, span.lean, span.rise, span.thigh
    bones = links.shank * thigh
    per_reach = ratio(1.0, links.shank * links.shank + 2.0 * bones * bent.cosine + thigh * thigh)
    per_plane = ratio(1.0, hip[0] * hip[0] + rise * rise)
    # What a growing miss does, since it shortens the thigh within the plane.
    shortened = links.shank * ratio(span.miss, thigh)

    of_flex = bent.sine * per_reach

    def along(motion: Vector) -> Pair:
        rising = lean[0] * motion[2] - lean[1] * motion[1]
        missing = shortened * (lean[0] * motion[1] + lean[1] * motion[2])
        return (
            2.0 * (dot(hip, motion) + bent.cosine * missing),
            (rise * motion[0] - hip[0] * rising) * per_plane - of_flex * missing,
        )

    (gap_fore, flex_fore), (gap_up, flex_up) = along(span.fore), along(span.lift)
    flex_more = (thigh * thigh + bones * bent.cosine) * per_reach
    return Slopes((gap_fore, gap_up, 2.0 * bones * bent.sine), (flex_fore, flex_up, flex_more))


def wanted_give(chain: Chain, hip: Vector) -> Real:
    """Lean that would put the hip in the hinge plane, less the cuff angle (rad).

    Positive inward.  Boot and ankle give up to ``side_give`` of it.
    """
    return atan2(-hip[1], hip[2]) - chain.cuff


def shank_lean(chain: Chain, wanted: Real) -> Real:
    """Inward lean of the shank's plane from the sole's normal (rad)."""
    return chain.cuff + clipped(wanted, -chain.give, chain.give)
