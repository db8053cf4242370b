"""Riders whose answers the tests of the program ask for."""

from __future__ import annotations

import random

from app.rider.setup import Setup, edited

PRACTICE = {
    "hip_height_mm": 950.0, "knee_height_mm": 527.0, "ankle_height_mm": 75.0,
    "foot_length_mm": 275.0, "hip_spacing_mm": 175.0, "neutral_spacing_mm": 270.0,
    "stance_length_mm": 540.0,
}  # fmt: skip
"""The rider of the checks from practice (common practice, no source)."""


def practice(front: float, rear: float) -> Setup:
    return edited(Setup(), **PRACTICE, front_angle_deg=front, rear_angle_deg=rear)


def some_riders(count: int, seed: int) -> list[Setup]:
    """Riders and stances of every kind, with something on their bindings already."""
    draws = random.Random(seed)

    def rider() -> Setup:
        hip, front = draws.uniform(760.0, 980.0), draws.uniform(-10.0, 85.0)
        return edited(
            Setup(),
            hip_height_mm=hip,
            knee_height_mm=hip * draws.uniform(0.53, 0.57),
            neutral_spacing_mm=draws.uniform(190.0, 330.0),
            front_angle_deg=front,
            rear_angle_deg=max(front - draws.uniform(-4.0, 22.0), -30.0),
            stance_length_mm=draws.uniform(380.0, 600.0),
            side_give_deg=draws.uniform(1.0, 8.0),
            flex_range_deg=draws.uniform(8.0, 20.0),
            front_cant_deg=draws.choice([0.0, 1.0, -2.0]),
            rear_lift_deg=draws.choice([0.0, -3.0]),
            bend_to_deg=draws.choice([50.0, 55.0, 70.0]),
            largest_cant_deg=draws.choice([9.0, 9.0, 2.3]),
        )

    return [rider() for _ in range(count)]
