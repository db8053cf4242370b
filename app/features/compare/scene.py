"""A second stance behind the first: a quiet outline of what stands elsewhere."""

from __future__ import annotations

from typing import Final

from app.drawing.marks import Area, Line, Mark, Scene
from app.words.language import tr

ROLE: Final = "ghost"
_PARTS: Final = ("sole", "shank", "thigh", "bones")
"""What is outlined of a leg; the pelvis comes with the legs."""
_LEGS: Final = ("front", "rear")


def with_ghost(scene: Scene, other: Scene, name: str) -> Scene:
    """A view with the outline of another stance in it.

    The outline stands over the filled limbs, which would hide it, and behind bones,
    joints and everything written.  What stands where the live one stands is left out.

    Args:
        scene: the live view.
        other: the same view of the other stance.
        name: what the other one is called.
    """
    marks = list(scene.marks)
    for part in (*_LEGS, "pelvis"):
        at = _place(marks, part)
        marks[at:at] = _outline(other, part, set(scene.marks))
    text = f"{scene.text} {tr('Behind it, dashed: {name}.', name=name)}"
    return scene._replace(marks=tuple(marks), window=scene.window.joined(other.window), text=text)


def _outline(other: Scene, part: str, live: set[Mark]) -> list[Mark]:
    """The lines of one leg or the pelvis that differ from the live ones."""
    keys = {part} if part == "pelvis" else {f"{part}.{piece}" for piece in _PARTS}
    lines: list[Mark] = []
    for mark in other.marks:
        if mark.key in keys and mark not in live and isinstance(mark, Line | Area):
            closed = (*mark.points, mark.points[0]) if isinstance(mark, Area) else mark.points
            lines.append(Line(f"ghost.{mark.key}", ROLE, closed))
    return lines


def _place(marks: list[Mark], part: str) -> int:
    """Where in the order of marks an outline goes: before the first thin thing of its part."""
    thin = {part} if part == "pelvis" else {f"{part}.{key}" for key in ("wedge", "trace", "bones")}
    for i, mark in enumerate(marks):
        if mark.key in thin:
            return i
    filled = [i for i, mark in enumerate(marks) if isinstance(mark, Area)]
    return filled[-1] + 1 if filled else len(marks)
