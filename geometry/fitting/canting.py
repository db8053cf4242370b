"""A leg whose sole is canted just as far as its hip asks: a closed form.

A mount's cant turns the sole about the foot axis by the tilt ``eta``, with
``tan(eta) = tan(cant) cos(lift)``, since the inclinometer's plane is square to
the foot in plan.  For any place of the hip there is one tilt at which the hinge
plane, leaned by a given ``tau``, runs right through the hip.

Derivation.  About the binding centre the hip stands at ``E`` along the foot
axis, ``A`` outward and ``Z`` up the sole as it is without cant; the ankle stands
``above`` the sole and a setback behind its centre.  Turned by the tilt, the hip
is ``M = A cos(eta) + Z sin(eta)`` outward and ``Z cos(eta) - A sin(eta) - above``
up from the ankle.  With the knee tracking ``rho`` inside the foot axis the hip
lies in the leaned plane where

    cos(tau) (cos(rho) M + sin(rho) E) + sin(tau) (Z cos(eta) - A sin(eta) - above) = 0

which is ``U cos(eta) + V sin(eta) = C`` with ``U = c A + s Z``, ``V = c Z - s A``,
``C = s above - cos(tau) sin(rho) E``, ``c = cos(tau) cos(rho)``, ``s = sin(tau)``.
So ``sin(eta) = (C V - K U) / (U^2 + V^2)`` with ``K^2 = U^2 + V^2 - C^2``.

The tilt then moves with the hip, and Newton's method for the pelvis needs that
motion too, of the hip and of the facing in the sole's axes: the span of a canted
leg carries both.
"""

from __future__ import annotations

from typing import NamedTuple

from geometry.balance import Load
from geometry.elementary import Real, Truth, atan2, cos, ratio, sin, sqrt, where, where_in_tuples
from geometry.leg import Chain, Links, Pair, Span, span_to
from geometry.vectors import Vector, combined, dot, minus, plus, scaled


class Footing(NamedTuple):
    """How a foot stands on a sole that is about to be canted.

    Attributes:
        above: ankle over the sole (mm).
        track: cosine and sine of the knee tracking.
        level: cosine of the lift.
    """

    above: Real
    track: Pair
    level: Real


class _Canting(NamedTuple):
    """How a sole is canted for a hip: the lean to be met, and the turn that meets it.

    Leans and tilts are pairs of cosine and sine; ``swing`` is how fast the hip
    leaves the plane with the tilt (mm/rad).
    """

    lean: Pair
    outside: Truth
    tilt: Pair
    swing: Real


class CantedPull(NamedTuple):
    """A leg under a pelvis, its cant the smallest that keeps the hip in its plane.

    ``links`` hold the band of lean that may be used without any cant; within it
    the sole stays flat, beyond it the sole turns.  ``rest``, ``fore`` and
    ``lift`` are as in :class:`geometry.settling.Pull`, but along the foot,
    outward and up the sole as it is without cant.
    """

    links: Links
    load: Load
    rest: Vector
    fore: Vector
    lift: Vector
    footing: Footing

    def spanned(self, depth: Real, height: Real) -> Span:
        """The leg, its sole canted to suit, under a pelvis at a depth and a height."""
        hip = self._hip(depth, height)
        lean, outside, tilt, swing = self._sole_for(hip)
        above = self.footing.above
        _, out, up = _tilted((0.0, hip[1], hip[2] + above), tilt)
        canted = _tracked(self.footing, (hip[0], out, up - above))
        # Turning the sole further moves the hip by this much in the sole's axes ...
        turning = _tracked(self.footing, (0.0, up, -out))
        # ... and it turns by what keeps the hip in the leaned plane.
        per_swing = where(outside, ratio(-1.0, swing), 0.0)
        faced, lifted = _tilted(self.fore, tilt), _tilted(self.lift, tilt)
        fore, up_motion = _tracked(self.footing, faced), _tracked(self.footing, lifted)
        by_fore, by_lift = (
            per_swing * (lean[0] * motion[1] + lean[1] * motion[2]) for motion in (fore, up_motion)
        )
        facing_turned = _tracked(self.footing, (0.0, faced[2], -faced[1]))
        return span_to(
            self.links,
            canted,
            (plus(fore, scaled(turning, by_fore)), plus(up_motion, scaled(turning, by_lift))),
            facing=fore,
            turning=(scaled(facing_turned, by_fore), scaled(facing_turned, by_lift)),
        )

    def cant(self, depth: Real, height: Real) -> Real:
        """Cant of the mount for a pelvis at a depth and a height (rad), positive inward."""
        tilt = self._sole_for(self._hip(depth, height)).tilt
        return atan2(tilt[1], tilt[0] * self.footing.level)

    def _hip(self, depth: Real, height: Real) -> Vector:
        return combined((self.rest, 1.0), (self.fore, depth), (self.lift, height))

    def _sole_for(self, hip: Vector) -> _Canting:
        lean, outside = _lean_wanted(self.links, self.footing, hip)
        tilt, swing = _tilt(self.footing, hip, lean)
        return _Canting(lean, outside, where_in_tuples(outside, tilt, (1.0, 0.0)), swing)


def canted_pull(
    chain: Chain,
    load: Load,
    footing: Footing,
    pelvis: tuple[Vector, Vector],
    gives: tuple[Real, Real],
) -> CantedPull:
    """A leg that cants its own sole.

    Args:
        chain: foot and boot on the sole without cant.
        load: what the foot brings to the balance.
        footing: how the foot stands there.
        pelvis: hip centre for a pelvis at depth and height zero (mm), and the
            stance facing, along which the pelvis moves.
        gives: the band of sideways give from the cuff angle, least and most
            (rad), that the cant may leave to boot and ankle.
    """
    sole = chain.sole
    least, most = chain.cuff + gives[0], chain.cuff + gives[1]
    hip, facing = pelvis
    from_ankle = minus(hip, chain.ankle)
    return CantedPull(
        links=chain.links._replace(
            least_lean=(cos(least), sin(least)), most_lean=(cos(most), sin(most))
        ),
        load=load,
        rest=(
            dot(sole.foot_axis, from_ankle),
            dot(sole.outer, from_ankle),
            dot(sole.normal, from_ankle),
        ),
        fore=(dot(sole.foot_axis, facing), dot(sole.outer, facing), dot(sole.normal, facing)),
        lift=(sole.foot_axis[2], sole.outer[2], sole.normal[2]),
        footing=footing,
    )


def _lean_wanted(links: Links, footing: Footing, hip: Vector) -> tuple[Pair, Truth]:
    """The lean to be met by canting, as cosine and sine, and whether canting is needed."""
    _, outward, up = _tracked(footing, hip)
    least, most = links.least_lean, links.most_lean
    far_out = least[0] * outward + least[1] * up > 0.0
    far_in = most[0] * outward + most[1] * up < 0.0
    return where_in_tuples(far_out, least, most), far_out | far_in


def _tilt(footing: Footing, hip: Vector, lean: Pair) -> tuple[Pair, Real]:
    """Cosine and sine of the tilt that leans the plane through the hip, and ``K``.

    ``K`` is also how fast the hip leaves the plane with the tilt (mm/rad).  nan
    where no tilt does it.
    """
    along, outward = hip[0], hip[1]
    from_sole = hip[2] + footing.above
    c, s = lean[0] * footing.track[0], lean[1]
    u, v = c * outward + s * from_sole, c * from_sole - s * outward
    offset = s * footing.above - lean[0] * footing.track[1] * along
    squared = u * u + v * v
    k = sqrt(squared - offset * offset)
    per = ratio(where(k > 0.0, 1.0, float("nan")), squared)
    return (per * (k * v + offset * u), per * (offset * v - k * u)), k


def _tilted(v: Vector, tilt: Pair) -> Vector:
    """A vector in the foot's axes after the sole has turned about the foot axis."""
    return (v[0], tilt[0] * v[1] + tilt[1] * v[2], tilt[0] * v[2] - tilt[1] * v[1])


def _tracked(footing: Footing, v: Vector) -> Vector:
    """From the foot axis to the axis along which the knee tracks."""
    track_cos, track_sin = footing.track
    return (track_cos * v[0] - track_sin * v[1], track_cos * v[1] + track_sin * v[0], v[2])
