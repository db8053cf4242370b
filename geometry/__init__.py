"""Leg geometry of a rider in plate or strap bindings: pure numpy, no screen, no files.

Units are mm and radians throughout.  Axes: the origin lies midway between the
binding centres at the height of the binding plates; x points to the nose of
the board, y to its toe side, z up.  The frame is right-handed for a rider with
the right foot in front; a left-foot-forward rider is its mirror image, so the
package speaks of the front and the rear leg only (side sign +1 and -1).

A rider settles where the knees bend as asked and the body's weight stands over
the feet: see :mod:`geometry.posture`.  Each leg and each boot has its own measures.

Signs: binding angle positive with the toes to the nose; lift positive with the
toe end up; cant positive with the little-toe side up (inward cant); off-plane
angle positive knock-kneed (valgus), negative bow-legged (varus); boot flex
positive forward; knee flexion positive as the knee bends.

Every function takes floats or arrays, which broadcast; points and directions
come back with x, y, z on the last axis, and what comes back for one element does
not depend on the others.  A stance that no leg can reach, or in which a thigh would
leave its hinge plane too far, gives nan and a reason, of which :mod:`geometry.reasons`
tells; impossible input raises a ValueError that names the value and its range.
"""

from geometry.body import SETBACK_SHARE, Body, LegMeasures
from geometry.boots import Boot, Boots, cuff_angle
from geometry.crouch import Crouch
from geometry.posture import Leg, Posture, PostureInputs, posture_reasons, solve
from geometry.sole import lift_and_cant, slope_and_bearing
from geometry.stance import (
    FRONT,
    REAR,
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
    "Boot",
    "Boots",
    "Crouch",
    "Leg",
    "LegMeasures",
    "Mount",
    "Posture",
    "PostureInputs",
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
