"""From the side: lift, boot flex against its range, and the bend of the knees."""

from __future__ import annotations

from math import cos, degrees, radians, sin

from app.drawing.front import board_mark, pelvis_marks, soles_reach
from app.drawing.leg_marks import bone_marks, flex_fan, foot_marks, limb_marks
from app.drawing.marks import STEP, Callout, Label, Line, Mark, Scene, Window, outward
from app.drawing.projection import View, mixed
from app.drawing.solids import PLATE_DEPTH, Figure
from app.rider.inputs import FIELD, Inputs, flex_range
from app.stance.findings import BOOT_IN, BOOT_NEAR, BOOT_OUT, LegFinding
from app.stance.foot_bed import bed_words, beds_words
from app.words.language import msgid, tr
from app.words.sentences import plain, spoken

_BOOTS = {
    ("front", BOOT_IN): msgid("front boot,of {low}° to {high}°,knee bend {bend}°"),
    ("rear", BOOT_IN): msgid("rear boot,of {low}° to {high}°,knee bend {bend}°"),
    ("front", BOOT_NEAR): msgid("front boot,near its stop,of {low}° to {high}°,knee bend {bend}°"),
    ("rear", BOOT_NEAR): msgid("rear boot,near its stop,of {low}° to {high}°,knee bend {bend}°"),
    ("front", BOOT_OUT): msgid("front boot,past its stop,of {low}° to {high}°,knee bend {bend}°"),
    ("rear", BOOT_OUT): msgid("rear boot,past its stop,of {low}° to {high}°,knee bend {bend}°"),
}
"""A boot's range and its knee's bend, in lines parted by the commas."""
_LIFTS = {"front": msgid("front, {lift}"), "rear": msgid("rear, {lift}")}
_BENT = {
    "front": msgid("front knee bent {bend} degrees, boot flexed {flex} degrees"),
    "rear": msgid("rear knee bent {bend} degrees, boot flexed {flex} degrees"),
}


def side_view(inputs: Inputs) -> View:
    """The view from the tail's side, square to the facing."""
    facing, hand = radians(inputs.facing_deg), inputs.hand
    s, c = sin(facing), cos(facing)
    return View(right=(hand * s, hand * c, 0.0), up=(0.0, 0.0, 1.0), toward=(-c, s, 0.0))


def scene_side(inputs: Inputs, figures: dict[str, Figure], legs: dict[str, LegFinding]) -> Scene:
    """The side view; figures and findings by "front" and "rear"."""
    view = side_view(inputs)
    window = _window(inputs, figures, view)
    marks: list[Mark] = [board_mark(view, figures)]
    for name in ("front", "rear"):
        marks += foot_marks(name, figures[name], view)
    if figures["front"].stands:
        for name, tone in (("front", "far"), ("rear", "near")):
            figure = figures[name]
            marks += flex_fan(name, figure, inputs.leg(name), view)
            marks += limb_marks(name, figure, inputs.leg(name), view, tone)
            marks += bone_marks(name, figure, view, tone)
            marks += _bend(name, figure, view)
        marks += pelvis_marks(figures, view)
        marks += _callouts(figures, legs, inputs, view)
    marks += _feet_labels(figures, inputs, view)
    return Scene("side", tr("From the side"), window, tuple(marks), _text(figures, inputs))


def _bend(name: str, figure: Figure, view: View) -> list[Mark]:
    """The shank's line produced past the knee, and the arc of the bend."""
    radius, start = 0.34 * figure.thigh, figure.boot_flex
    fan = (figure.knee, figure.plane_up, figure.along)
    produced = (view.seen(figure.knee), view.seen(mixed(*fan, 1.2 * radius, start)))
    by = -figure.knee_flexion / 10.0
    arc = tuple(view.seen(mixed(*fan, radius, start + i * by)) for i in range(11))
    return [
        Line(f"{name}.produced", f"{name}.thin", produced),
        Line(f"{name}.bend", f"{name}.thin", arc),
    ]


def _window(inputs: Inputs, figures: dict[str, Figure], view: View) -> Window:
    least, most = soles_reach(figures, view)
    half = outward(max(-least, most, 320.0) + 30.0, STEP)
    top = outward(inputs.highest_hip_mm + 55.0, 50.0)
    return Window(-half, -PLATE_DEPTH - 14.0, half, top)


def _callouts(
    figures: dict[str, Figure], legs: dict[str, LegFinding], inputs: Inputs, view: View
) -> list[Mark]:
    """Boot flex of each leg: the far one's before the knees, the near one's behind."""
    marks: list[Mark] = []
    ahead_right = view.seen(figures["front"].along)[0] + view.seen(figures["rear"].along)[0] >= 0.0
    for name, figure in figures.items():
        low, high = flex_range(inputs.leg(name))
        edge = 1 if ahead_right == (name == "front") else -1
        state = legs[name].boot
        told = tr(_BOOTS[name, state], low=plain(low, 0), high=plain(high, 0),
                  bend=plain(degrees(figure.knee_flexion), 0))  # fmt: skip
        if inputs.leg(name).boot_ramp_deg:
            # Without a ramp the foot lies as its mount does.
            told = f"{told},{bed_words(inputs, name)}"
        marks.append(
            Callout(f"{name}.bend_callout", f"{name}.callout", edge, view.seen(figure.knee), state,
                    f"{plain(degrees(figure.boot_flex), int(state != BOOT_IN))}°", told)
        )  # fmt: skip
    return marks


def _feet_labels(figures: dict[str, Figure], inputs: Inputs, view: View) -> list[Mark]:
    """The names of the feet with their lifts, either side of the middle between them."""
    xs = {name: view.seen(figure.centre)[0] for name, figure in figures.items()}
    middle = (0.5 * (xs["front"] + xs["rear"]), -PLATE_DEPTH - 10.0)
    front_right = 1 if xs["front"] >= xs["rear"] else -1
    marks: list[Mark] = []
    for name, align in (("front", front_right), ("rear", -front_right)):
        said = spoken(FIELD[f"{name}_lift_deg"], getattr(inputs, f"{name}_lift_deg"))
        text, shift = tr(_LIFTS[name], lift=said), (9.0 * align, 13.0)
        marks.append(Label(f"{name}.lift", f"{name}.slope", middle, text, align, shift))
    return marks


def _text(figures: dict[str, Figure], inputs: Inputs) -> str:
    if not figures["front"].stands:
        return tr("From the side: no posture.")
    legs = "; ".join(
        tr(
            _BENT[name],
            bend=plain(round(degrees(figure.knee_flexion))),
            flex=plain(round(degrees(figure.boot_flex))),
        )
        for name, figure in figures.items()
    )
    told = tr("From the side: {legs}.", legs=legs)
    if not any(inputs.leg(end).boot_ramp_deg for end in figures):
        return told
    return f"{told} {tr('Inside the boots: {beds}.', beds=beds_words(inputs))}"
