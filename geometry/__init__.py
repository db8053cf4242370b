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
nan and a reason in words; impossible input raises a ValueError that names the
value and its range.
"""

from geometry.body import SETBACK_SHARE, Body
from geometry.boots import Boots, cuff_angle
from geometry.candidates import StanceLimits, candidates_within
from geometry.combinations import (
    Combination,
    Wanted,
    ranked_combinations,
    wanted_by,
    wanted_exactly,
)
from geometry.contours import contour
from geometry.estimates import (
    Estimate,
    KnownLengths,
    by_segment_ratios,
    estimated_ankle_height,
    estimated_foot_length,
    estimated_hip_height,
    estimated_hip_spacing,
    estimated_knee_height,
    off_segment_ratios,
)
from geometry.fit import Fit, FootFit, Shares, fit_of, fit_reasons, start_values
from geometry.growth import Growth, growth
from geometry.inputs import INPUTS, Setup
from geometry.joints import (
    AAOS_MOVEMENTS,
    SEATED_HIP_ROTATION,
    USUAL_RANGES,
    BeyondRange,
    Excess,
    JointAngles,
    LegAngles,
    Movement,
    beyond_range,
    joint_angles,
)
from geometry.margins import Margins, margins_of, shown, shown_margin
from geometry.parts import (
    Inserts,
    Kind,
    Part,
    PartsList,
    angle_between_soles,
    bearing_from_toe,
    bearing_on_board,
    stack_lift_and_cant,
    stack_normal,
    turned_alone,
)
from geometry.posture import FRONT, REAR, Crouch, Leg, Posture, reasons, solve
from geometry.range_best import RangeBest, range_best_of, range_best_steps
from geometry.range_fit import RangeFit, range_fit_of
from geometry.reachable import Progress, Reachable, Reached, reachable_stances
from geometry.repeats import Repeats, repeats_finding, repeats_of
from geometry.season import Change, Forecast, changes, forecast
from geometry.shares import SettledShare, cant_from_share, settled_share
from geometry.smallest_mounts import canted, lifted, smallest_cants, smallest_lift
from geometry.sole import lift_and_cant, slope_and_bearing
from geometry.stacks import Built, Setting, after_turning
from geometry.stance import (
    Mount,
    Stance,
    long_axes_apart,
    no_cant_length,
    short_axes_apart,
    straight_leg_cant,
)
from geometry.stance_map import MapPlace, StanceMap, map_place, stance_map_of
from geometry.steps import Steps, finished
from geometry.sweep import RidingRange, Sweep, riding_range, sweep_of
from geometry.trials import Felt, NextCant, Pressure, Trial, Tried, Verdict, next_cant, tried_by_leg

__all__ = [
    "AAOS_MOVEMENTS",
    "FRONT",
    "INPUTS",
    "REAR",
    "SEATED_HIP_ROTATION",
    "SETBACK_SHARE",
    "USUAL_RANGES",
    "BeyondRange",
    "Body",
    "Boots",
    "Built",
    "Change",
    "Combination",
    "Crouch",
    "Estimate",
    "Excess",
    "Felt",
    "Fit",
    "FootFit",
    "Forecast",
    "Growth",
    "Inserts",
    "JointAngles",
    "Kind",
    "KnownLengths",
    "Leg",
    "LegAngles",
    "MapPlace",
    "Margins",
    "Mount",
    "Movement",
    "NextCant",
    "Part",
    "PartsList",
    "Posture",
    "Pressure",
    "Progress",
    "RangeBest",
    "RangeFit",
    "Reachable",
    "Reached",
    "Repeats",
    "RidingRange",
    "Setting",
    "SettledShare",
    "Setup",
    "Shares",
    "Stance",
    "StanceLimits",
    "StanceMap",
    "Steps",
    "Sweep",
    "Trial",
    "Tried",
    "Verdict",
    "Wanted",
    "after_turning",
    "angle_between_soles",
    "bearing_from_toe",
    "bearing_on_board",
    "beyond_range",
    "by_segment_ratios",
    "candidates_within",
    "cant_from_share",
    "canted",
    "changes",
    "contour",
    "cuff_angle",
    "estimated_ankle_height",
    "estimated_foot_length",
    "estimated_hip_height",
    "estimated_hip_spacing",
    "estimated_knee_height",
    "finished",
    "fit_of",
    "fit_reasons",
    "forecast",
    "growth",
    "joint_angles",
    "lift_and_cant",
    "lifted",
    "long_axes_apart",
    "map_place",
    "margins_of",
    "next_cant",
    "no_cant_length",
    "off_segment_ratios",
    "range_best_of",
    "range_best_steps",
    "range_fit_of",
    "ranked_combinations",
    "reachable_stances",
    "reasons",
    "repeats_finding",
    "repeats_of",
    "riding_range",
    "settled_share",
    "short_axes_apart",
    "shown",
    "shown_margin",
    "slope_and_bearing",
    "smallest_cants",
    "smallest_lift",
    "solve",
    "stack_lift_and_cant",
    "stack_normal",
    "stance_map_of",
    "start_values",
    "straight_leg_cant",
    "sweep_of",
    "tried_by_leg",
    "turned_alone",
    "wanted_by",
    "wanted_exactly",
]
