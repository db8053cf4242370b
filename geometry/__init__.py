"""Leg geometry of a rider in plate or strap bindings: pure numpy, no screen, no files.

Units are mm and radians throughout.  Axes: the origin lies midway between the
binding centres at the height of the binding plates; x points to the nose of
the board, y to its toe side, z up.  The frame is right-handed for a rider with
the right foot in front; a left-foot-forward rider is its mirror image, so the
package speaks of the front and the rear leg only (side sign +1 and -1).

Signs: binding angle positive with the toes to the nose; lift positive with the
toe end up; cant positive with the little-toe side up (inward cant); off-plane
angle positive knock-kneed (valgus), negative bow-legged (varus); boot flex
positive forward; knee flexion positive as the knee bends.

Every function takes floats or arrays, which broadcast; points and directions
come back with x, y, z on the last axis.  A stance that no leg can reach gives
nan and a reason, of which :mod:`geometry.reasons` tells; impossible input raises
a ValueError that names the value and its range.
"""

from geometry.body import SETBACK_SHARE, Body
from geometry.boots import Boots, cuff_angle
from geometry.posture import FRONT, REAR, Crouch, Leg, Posture, posture_reasons, solve
from geometry.sole import lift_and_cant, slope_and_bearing
from geometry.stance import (
    Mount,
    Stance,
    long_axes_apart,
    no_cant_length,
    short_axes_apart,
    straight_leg_cant,
)

__all__ = [
    "FRONT",
    "REAR",
    "SETBACK_SHARE",
    "Body",
    "Boots",
    "Crouch",
    "Leg",
    "Mount",
    "Posture",
    "Stance",
    "cuff_angle",
    "lift_and_cant",
    "long_axes_apart",
    "no_cant_length",
    "posture_reasons",
    "short_axes_apart",
    "slope_and_bearing",
    "solve",
    "straight_leg_cant",
]
