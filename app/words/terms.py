"""Which words have an entry in the help: keys of its terms, and the input that each explains."""

from __future__ import annotations

from typing import Final

TERM_OF: Final = {
    "lead_foot": "front and rear",
    "front_angle_deg": "binding angle",
    "rear_angle_deg": "binding angle",
    "link": "binding angle",
    "stance_length_mm": "stance length",
    "across_spacing_mm": "stance length",
    "front_lift_deg": "lift",
    "rear_lift_deg": "lift",
    "front_cant_deg": "cant",
    "rear_cant_deg": "cant",
    "knee_bend_deg": "knee bend",
    "hips_turned_deg": "hips turned",
    "hip_shift_mm": "hip shift",
    "back_lean_deg": "back lean",
    "weight_ahead_mm": "weight ahead",
    "hip_spacing_mm": "hip spacing",
    "neutral_spacing_mm": "natural spacing",
    "hip_height_mm": "leg heights",
    "knee_height_mm": "leg heights",
    "ankle_height_mm": "leg heights",
    "foot_length_mm": "leg heights",
    "knee_tracking_deg": "knee tracking",
    "forward_lean_deg": "boot flex",
    "flex_range_deg": "boot flex",
    "side_give_deg": "side give",
    "sole_thickness_mm": "boot sole",
    "cuff_offset_deg": "cuff offset",
    "boot_ramp_deg": "boot sole",
    "bend_from_deg": "riding bend",
    "bend_to_deg": "riding bend",
    "largest_lift_deg": "lift",
    "largest_cant_deg": "cant",
}
"""The term that explains an input, by the input's name without a side."""
_SIDES: Final = ("left_", "right_")


def term_of(name: str) -> str:
    """The term that explains an input; "" where none does."""
    if name not in TERM_OF:
        for side in _SIDES:
            name = name.removeprefix(side)
    return TERM_OF.get(name, "")
