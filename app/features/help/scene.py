"""The small drawings beside the words: views of the demo rider, cut down to what is meant."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any, Final, NamedTuple

from app.drawing.marks import Callout, Dot, Label, Line, Mark, Scene, Span, window_around
from app.drawing.side import side_view
from app.features.why.scene import marks_of
from app.frame import Frame, frame
from app.rider.inputs import changed
from app.rider.setup import DEMO
from app.stance import topics
from app.stance.topics import Asked
from app.words.lengths import Lengths

_FEET: Final = ("board", "front.sole", "rear.sole", "front.axis", "rear.axis", "front.centre",
                "rear.centre")  # fmt: skip
_LEGS: Final = ("board", "front.", "rear.", "pelvis")


class Drawing(NamedTuple):
    """What is drawn of a word.

    Attributes:
        view: key of the view.
        changes: to the demo rider, by the names of inputs.
        keys: beginnings of the keys of the marks that are left; all where there are none.
        topic: whose reasoning is drawn too; "" for none.
        leg: of which leg.
        more: makes further marks.
    """

    view: str
    changes: dict[str, Any]
    keys: tuple[str, ...] = ()
    topic: str = ""
    leg: str = "front"
    more: Callable[[Frame], tuple[Mark, ...]] | None = None


def scenes_of(term: str, lengths: Lengths) -> tuple[Scene, ...]:
    """The drawings of a word, with lengths in the unit chosen."""
    return tuple(_scene(each, lengths) for each in DRAWINGS[term])


def _scene(drawing: Drawing, lengths: Lengths) -> Scene:
    setup = replace(DEMO, inputs=changed(DEMO.inputs, **drawing.changes))
    shown = frame(setup, lengths=lengths)
    scene = shown.scenes[drawing.view]
    kept: list[Mark] = [
        mark
        for mark in scene.marks
        if not isinstance(mark, Callout) and (not drawing.keys or mark.key.startswith(drawing.keys))
    ]
    if drawing.topic:
        asked = Asked(drawing.leg, drawing.topic)
        kept += marks_of(shown, asked, None).get(drawing.view, ())
    if drawing.more is not None:
        kept += drawing.more(shown)
    return scene._replace(marks=tuple(kept), window=window_around(kept, 12.0, 10.0))


def _heights(shown: Frame) -> tuple[Mark, ...]:
    """Hip, knee and ankle height beside a straight leg."""
    leg, text = shown.settled.inputs.front, shown.lengths.text
    marks: list[Mark] = []
    for i, name in enumerate(("ankle", "knee", "hip")):
        high = float(getattr(leg, f"{name}_height_mm"))
        x, floor = -130.0 - 90.0 * i, leg.sole_thickness_mm
        marks.append(Span(f"why.{name}", "why.span", (x, floor), (x, floor + high), text(high, 0)))
        marks.append(Line(f"why.{name}_at", "why.thin", ((x, floor + high), (0.0, floor + high))))
    return tuple(marks)


def _between_hips(shown: Frame) -> tuple[Mark, ...]:
    ends = _seen_hips(shown)
    text = shown.lengths.text(shown.settled.inputs.hip_spacing_mm, 0)
    return (Span("why.hips", "why.span", *ends, text, (0.0, 1.0), 1),)


def _seen_hips(shown: Frame) -> tuple[tuple[float, float], tuple[float, float]]:
    dots = {mark.key: mark.at for mark in shown.scenes["front"].marks if isinstance(mark, Dot)}
    return dots["rear.hip"], dots["front.hip"]


def _trunk(shown: Frame) -> tuple[Mark, ...]:
    """Head, arms and trunk as a line from the hips to their centre of mass."""
    view, posture = side_view(shown.settled.inputs), shown.settled.posture
    rear, front = posture.rear.hip_centre, posture.front.hip_centre
    x, y, z = (0.5 * (float(a) + float(b)) for a, b in zip(rear, front, strict=True))
    mass = (
        float(posture.upper_body[0]),
        float(posture.upper_body[1]),
        float(posture.upper_body[2]),
    )
    foot, head = view.seen((x, y, z)), view.seen(mass)
    lean = f"{shown.settled.inputs.back_lean_deg:.0f}°"
    return (
        Line("why.upright", "why.thin", (foot, (foot[0], head[1]))),
        Line("why.trunk", "why.line", (foot, head)),
        Dot("why.mass", "why.dot", head, 5.0),
        Label("why.lean", "why.word", head, lean, 1, (10.0, 0.0)),
    )


def _way(shown: Frame) -> tuple[Mark, ...]:
    """Under the foot, which way the knee is pushed."""
    leg = shown.findings.legs["front"]
    return (Label("why.way", "why.word", (0.0, _UNDER), leg.way, 0, (0.0, 8.0)),)


def _depth(shown: Frame) -> tuple[Mark, ...]:
    """Under the feet, how deep the rider stands."""
    said = f"{shown.settled.inputs.knee_bend_deg:.0f}°"
    return (Label("why.depth", "why.word", (0.0, _UNDER), said, 0, (0.0, 30.0)),)


_UNDER: Final = -60.0
"""Height of a word under the feet (mm)."""
_ALIKE: Final = {"front_angle_deg": 30.0, "rear_angle_deg": 30.0}
DRAWINGS: Final[dict[str, tuple[Drawing, ...]]] = {
    "front and rear": (
        Drawing("above", {}, ("board", "front.sole", "rear.sole", "front.angle", "rear.angle")),
    ),
    "binding angle": (
        Drawing("above", {}, (*_FEET, "front.angle", "rear.angle")),
        Drawing(
            "above",
            {"front_angle_deg": 15.0, "rear_angle_deg": -15.0},
            (*_FEET, "front.angle", "rear.angle"),
        ),
    ),
    "stance length": (
        Drawing("above", {}, (*_FEET, "length")),
        Drawing(
            "above",
            {
                "front_angle_deg": 90.0,
                "rear_angle_deg": 90.0,
                "stance_length_mm": 0.0,
                "across_spacing_mm": 200.0,
            },
            (*_FEET, "across"),
        ),
    ),
    "feet apart": (Drawing("above", {}, _FEET, topics.SPACING),),
    "natural spacing": (
        Drawing("above", _ALIKE | {"stance_length_mm": 300.0}, (*_FEET, "neutral", "long_axes")),
    ),
    "no-cant line": (
        Drawing("above", _ALIKE | {"stance_length_mm": 300.2}, _FEET, topics.SPACING),
    ),
    "lift": (
        Drawing(
            "side",
            {"front_lift_deg": 9.0, "rear_lift_deg": -9.0},
            (
                "board",
                "front.plate",
                "front.mount",
                "front.shell",
                "front.sole",
                "front.lift",
                "rear.plate",
                "rear.mount",
                "rear.shell",
                "rear.sole",
                "rear.lift",
            ),
        ),
    ),
    "cant": (
        Drawing(
            "front",
            _ALIKE | {"front_cant_deg": 9.0, "rear_cant_deg": 9.0},
            (
                "board",
                "front.plate",
                "front.mount",
                "front.shell",
                "front.sole",
                "front.cant",
                "rear.plate",
                "rear.mount",
                "rear.shell",
                "rear.sole",
                "rear.cant",
            ),
        ),
    ),
    "straight-leg rule": (
        Drawing(
            "front",
            _ALIKE,
            ("board", "front.plate", "front.sole", "rear.plate", "rear.sole"),
            topics.RULE,
        ),
    ),
    "whole cant": (
        Drawing("front", _ALIKE | {"front_cant_deg": 6.5, "rear_cant_deg": 6.5}, _LEGS),
    ),
    "riding bend": (
        Drawing("side", {"knee_bend_deg": 30.0}, _LEGS, more=_depth),
        Drawing("side", {"knee_bend_deg": 55.0}, _LEGS, more=_depth),
    ),
    "leg heights": (
        Drawing(
            "front_foot",
            {"knee_bend_deg": 40.0, "front_cant_deg": 3.8, "rear_cant_deg": 4.8},
            (
                "board",
                "front.plate",
                "front.shell",
                "front.sole",
                "front.shank",
                "front.thigh",
                "front.bones",
                "front.ankle",
                "front.knee",
                "front.hip",
            ),
            more=_heights,
        ),
    ),
    "hip spacing": (Drawing("front", _ALIKE, _LEGS, more=_between_hips),),
    "knee tracking": (
        Drawing(
            "above",
            {"knee_tracking_deg": 12.0},
            (*_FEET, "front.bones", "front.knee", "front.trace", "front.hip"),
        ),
    ),
    "hinge plane": (Drawing("front", {"front_angle_deg": 0.0, "rear_angle_deg": 0.0}, _LEGS),),
    "off-plane angle": (
        Drawing("front_foot", {"front_angle_deg": 90.0, "rear_angle_deg": 90.0}, more=_way),
        Drawing("front_foot", {"front_angle_deg": 0.0, "rear_angle_deg": 0.0}, more=_way),
    ),
    "knee bend": (Drawing("side", {}, _LEGS, topics.BEND, "rear"),),
    "boot flex": (Drawing("side", {}, ("board", "rear."), topics.BOOT, "rear"),),
    "side give": (
        Drawing(
            "rear_foot", {"front_angle_deg": 0.0, "rear_angle_deg": 0.0}, (), topics.KNEE, "rear"
        ),
    ),
    "cuff offset": (Drawing("rear_foot", {"cuff_offset_deg": 5.0}, (), topics.KNEE, "rear"),),
    "boot sole": (
        Drawing(
            "side",
            {"sole_thickness_mm": 45.0, "boot_ramp_deg": 8.0},
            ("board", "front.plate", "front.shell", "front.sole", "front.ankle"),
        ),
    ),
    "hips turned": (
        Drawing(
            "above",
            {"hips_turned_deg": 25.0},
            (*_FEET, "pelvis", "facing", "front.hip", "rear.hip", "front.bones", "rear.bones"),
        ),
    ),
    "hip shift": (Drawing("front", _ALIKE | {"hip_shift_mm": 70.0}, _LEGS),),
    "back lean": (Drawing("side", {}, _LEGS, more=_trunk),),
    "weight ahead": (
        Drawing(
            "above",
            {"weight_ahead_mm": 40.0, "hip_shift_mm": 30.0},
            (*_FEET, "balance"),
            topics.WEIGHT,
        ),
    ),
    "hip movements": (
        Drawing(
            "front", {"front_angle_deg": 0.0, "rear_angle_deg": 0.0}, _LEGS, topics.HIP, "rear"
        ),
        Drawing("side", {}, _LEGS, topics.HIP, "rear"),
    ),
}
"""The drawings of each term."""
