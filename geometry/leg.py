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

A thigh that leaves its plane by more than any knee bears is no posture, but a
search may pass there.  Beyond :data:`TRUSTED_OFF_PLANE` its part in the plane
therefore shrinks without end instead of to nothing at a right angle.
"""

from __future__ import annotations

import math
from typing import NamedTuple, TypeAlias

from geometry.body import LegMeasures
from geometry.boots import Boot
from geometry.elementary import (
    Real,
    Truth,
    atan2,
    clipped,
    cos,
    every,
    exp,
    larger,
    magnitude,
    ratio,
    sin,
    smaller,
    sqrt,
    where,
    where_in_tuples,
    within,
)
from geometry.sole import Sole
from geometry.vectors import Vector, dot, minus, plus, scaled, turned

Pair: TypeAlias = tuple[Real, Real]

FARTHEST = 8.0
"""Square of the farthest hip from which a search still finds back, over the sum of
the squares of shank and thigh: about two leg lengths."""
TRUSTED_OFF_PLANE = math.radians(80.0)
"""Off-plane angle up to which a leg is spanned as it really would be (rad)."""


class Links(NamedTuple):
    """What the bend of a leg depends on: bone lengths and the band of lean.

    The leans are pairs of cosine and sine, measured inward from the sole's
    normal; ``squares`` is the sum of the two lengths squared (mm2), ``shorter``
    the shorter of the two (mm).
    """

    shank: Real
    thigh: Real
    squares: Real
    shorter: Real
    least_lean: Pair
    most_lean: Pair


class Chain(NamedTuple):
    """What one leg keeps while the pelvis moves: foot, boot and bone lengths.

    The axes are unit vectors in the frame of the board: ``along`` the hinge
    plane on the sole, ``outer`` square to it, ``normal`` out of the sole.
    """

    measures: LegMeasures
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
        shortening: how fast that shrinks as the miss grows.
        leaning: how fast the plane follows a hip that leaves it (rad/mm): not at
            all at either end of the band.
        distance_squared: ankle to hip, squared (mm2).
        possible: whether the hip is not out of all reason.
        fore: motion of the hip in the axes of the sole as the pelvis moves
            forward by one.
        lift: the same as the pelvis rises by one.
        facing: direction in which the weight is balanced, in the axes of the sole.
        turning: how that changes with the pelvis forward and with the pelvis up
            (per mm), for a sole that follows the hip; None for one that stays.
    """

    hip: Vector
    lean: Pair
    rise: Real
    miss: Real
    thigh: Real
    shortening: Real
    leaning: Real
    distance_squared: Real
    possible: Truth
    fore: Vector
    lift: Vector
    facing: Vector
    turning: tuple[Vector, Vector] | None


class Bend(NamedTuple):
    """A leg spanning from its ankle to a hip with its knee bent by a given angle.

    Attributes:
        cosine: of the knee flexion.
        sine: of the knee flexion.
        gap: how much longer the squared span is than the leg so bent (mm2);
            zero when the leg fits.
        forward: of the shank in the hinge plane; with ``upward`` the sine and
            cosine of the boot flex.
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


def chain_of(sole: Sole, centre: Vector, leg: LegMeasures, boot: Boot, cuff: Real) -> Chain:
    """One leg's fixed part.

    Args:
        sole: axes of the sole.
        centre: centre of the binding (mm).
        leg: its dimensions.
        boot: its boot.
        cuff: how far inward the boot holds the shank (rad).
    """
    track_cos, track_sin = cos(leg.knee_tracking), sin(leg.knee_tracking)
    above = leg.ankle_height + boot.sole_thickness
    shank, thigh = leg.shank, leg.thigh
    ankle = plus(centre, scaled(sole.normal, above))
    least, most = cuff - boot.side_give, cuff + boot.side_give
    return Chain(
        measures=leg,
        sole=sole,
        ankle=minus(ankle, scaled(sole.foot_axis, leg.setback)),
        along=turned(sole.foot_axis, sole.outer, track_cos, -track_sin),
        outer=turned(sole.outer, sole.foot_axis, track_cos, track_sin),
        links=Links(
            shank=shank,
            thigh=thigh,
            squares=shank * shank + thigh * thigh,
            shorter=smaller(shank, thigh),
            least_lean=(cos(least), sin(least)),
            most_lean=(cos(most), sin(most)),
        ),
        cuff=cuff,
        give=boot.side_give,
    )


def in_sole_axes(chain: Chain, v: Vector) -> Vector:
    """Components of a vector along, outward and up the sole."""
    return (dot(chain.along, v), dot(chain.outer, v), dot(chain.normal, v))


def span_to(
    links: Links,
    hip: Vector,
    motions: tuple[Vector, Vector],
    facing: Vector,
    turning: tuple[Vector, Vector] | None = None,
) -> Span:
    """How a hip stands to its leg.

    Args:
        links: bone lengths and the band of lean.
        hip: ankle to hip along, outward and up the sole (mm).
        motions: of the hip in these axes as the pelvis moves forward by one, and
            as it rises by one.
        facing: direction in which the weight is balanced, in these axes.
        turning: how that changes with the two motions; None where it does not.
    """
    forward, outward, up = hip
    least, most = links.least_lean, links.most_lean
    # Leaned least, the plane still passes inside of a hip that hangs far out;
    # leaned most, it passes outside of one that hangs far in.
    beyond = least[0] * outward + least[1] * up
    short = most[0] * outward + most[1] * up
    far_out, far_in = beyond > 0.0, short < 0.0
    aside_squared = outward * outward + up * up
    per_aside = ratio(1.0, sqrt(aside_squared))
    through = up * per_aside, -outward * per_aside
    lean: Pair = where_in_tuples(far_out, least, where_in_tuples(far_in, most, through))
    rise = lean[0] * up - lean[1] * outward
    miss = larger(beyond, 0.0) + smaller(short, 0.0)
    thigh, shortening = _in_plane(links.thigh, miss)
    distance_squared = forward * forward + aside_squared
    leaning = where(far_out | far_in, 0.0, per_aside)
    possible = distance_squared < FARTHEST * links.squares
    stretched = thigh, shortening, leaning, distance_squared, possible
    return Span(hip, lean, rise, miss, *stretched, *motions, facing, turning)


def _in_plane(thigh: Real, miss: Real) -> Pair:
    """Length of a thigh within its plane (mm), and how fast it shrinks with the miss."""
    if every(miss == 0.0):
        return thigh, 0.0
    most = math.sin(TRUSTED_OFF_PLANE) * thigh
    if every(within(miss, most)):
        in_plane = sqrt(thigh * thigh - miss * miss)
        return in_plane, ratio(miss, in_plane)
    trusted = clipped(miss, -most, most)
    squared = thigh * thigh - trusted * trusted
    in_plane = sqrt(squared)
    # Goes on with the same slope, so that nothing jumps.
    shrunk = exp(-magnitude(miss - trusted) * most / squared)
    return in_plane * shrunk, ratio(trusted, in_plane) * shrunk


def bend(links: Links, span: Span, knee_flexion: Real) -> Bend:
    """The leg with its knee bent by an angle (rad), laid along a span."""
    shank, thigh = links.shank, span.thigh
    cosine, sine = cos(knee_flexion), sin(knee_flexion)
    gap = span.distance_squared - links.squares - 2.0 * shank * thigh * cosine
    # The line to the hip, turned on by how far the shank stands ahead of it.
    along, aside = shank + thigh * cosine, thigh * sine
    forward = span.hip[0] * along + span.rise * aside
    upward = span.rise * along - span.hip[0] * aside
    per = ratio(1.0, sqrt(forward * forward + upward * upward))
    return Bend(cosine, sine, gap, forward * per, upward * per)


class Slopes(NamedTuple):
    """How fast gap, boot flex and lean of a leg change.

    Attributes:
        gap: with the pelvis forward, with the pelvis up (mm), and with the knee
            flexion (mm2).
        flex: the same of the boot flex (rad/mm, rad/mm, 1).
        lean: the same of the hinge plane's lean, with the pelvis alone (rad/mm).
    """

    gap: Vector
    flex: Vector
    lean: Pair


def slopes(links: Links, span: Span, bent: Bend) -> Slopes:
    """Slopes of a bent leg laid along a span; nan where the thigh is square to its plane."""
    hip, lean, rise, thigh = span.hip, span.lean, span.rise, span.thigh
    bones = links.shank * thigh
    per_reach = ratio(1.0, links.shank * links.shank + 2.0 * bones * bent.cosine + thigh * thigh)
    per_plane = ratio(1.0, hip[0] * hip[0] + rise * rise)
    # What a growing miss does, since it shortens the thigh within the plane.
    shortened = links.shank * span.shortening
    of_flex = bent.sine * per_reach

    def along(motion: Vector) -> tuple[Real, Real, Real]:
        rising = lean[0] * motion[2] - lean[1] * motion[1]
        leaving = lean[0] * motion[1] + lean[1] * motion[2]
        missing = shortened * leaving
        return (
            2.0 * (dot(hip, motion) + bent.cosine * missing),
            (rise * motion[0] - hip[0] * rising) * per_plane - of_flex * missing,
            -span.leaning * leaving,
        )

    (gap_fore, flex_fore, lean_fore), (gap_up, flex_up, lean_up) = (
        along(span.fore),
        along(span.lift),
    )
    flex_more = (thigh * thigh + bones * bent.cosine) * per_reach
    return Slopes(
        (gap_fore, gap_up, 2.0 * bones * bent.sine),
        (flex_fore, flex_up, flex_more),
        (lean_fore, lean_up),
    )


def wanted_give(chain: Chain, hip: Vector) -> Real:
    """Lean that would put the hip in the hinge plane, less the cuff angle (rad).

    Positive inward.  Boot and ankle give up to ``side_give`` of it.
    """
    return atan2(-hip[1], hip[2]) - chain.cuff


def shank_lean(chain: Chain, wanted: Real) -> Real:
    """Inward lean of the shank's plane from the sole's normal (rad)."""
    return chain.cuff + clipped(wanted, -chain.give, chain.give)
