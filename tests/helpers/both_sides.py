"""What was measured of both legs or boots alike, as a set-up keeps it."""

from __future__ import annotations

from app.rider.inputs import sided_names


def repeats_of_both(**taken: tuple[float, ...]) -> tuple[tuple[str, tuple[float, ...]], ...]:
    """Repeats by name without a side, taken on either side (mm or degrees)."""
    return tuple((each, values) for name, values in taken.items() for each in sided_names(name))
