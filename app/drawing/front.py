"""From the front: both legs as somebody sees them who stands before the rider."""

from __future__ import annotations

from math import cos, radians, sin

from app.drawing.leg_marks import board_edge, bone_marks, foot_marks, limb_marks, wedge_marks
from app.drawing.marks import STEP, Callout, Dot, Label, Line, Mark, Scene, Window, outward
from app.drawing.projection import View, along
from app.drawing.solids import PLATE_DEPTH, Figure
from app.rider.inputs import FIELD, Inputs
from app.stance.findings import LegFinding
from app.words.language import msgid, tr
from app.words.reasons import reason_phrase
from app.words.sentences import spoken

LOOKS = {
    "facing": msgid("along the facing"),
    "front": msgid("along the front foot"),
    "rear": msgid("along the rear foot"),
}
"""Ways to look from the front, with what is said of them."""
_FEET = {"front": msgid("front"), "rear": msgid("rear")}
_CALLED = {"front": msgid("front: {finding}"), "rear": msgid("rear: {finding}")}
LEAST_GAP = 80.0
"""Feet nearer to each other than this have their words at least so far apart (mm)."""
SIDE_BY_SIDE = 30.0
"""Feet whose nearness differs less than this do not stand behind each other (mm)."""
ASIDE, PER_MM = 52.0, 0.11
"""How far outward the words under feet in line are written (logical px), and how much
less for each mm between the feet."""


def front_view(inputs: Inputs, look: str) -> View:
    """The view from before the rider, against the facing or against a foot's axis."""
    turned = {
        "facing": inputs.facing_deg,
        "front": inputs.front_angle_deg,
        "rear": inputs.rear_angle_deg,
    }
    s, c = sin(radians(turned[look])), cos(radians(turned[look]))
    return View(
        right=(inputs.hand * c, -inputs.hand * s, 0.0), up=(0.0, 0.0, 1.0), toward=(s, c, 0.0)
    )


def scene_front(
    inputs: Inputs, figures: dict[str, Figure], legs: dict[str, LegFinding], look: str
) -> Scene:
    """The view from the front; figures and findings by "front" and "rear"."""
    view = front_view(inputs, look)
    far, near = sorted(figures, key=lambda name: view.nearness(figures[name].centre))
    depth = view.nearness(figures[near].centre) - view.nearness(figures[far].centre)
    tones = {near: "near", far: "far" if depth > SIDE_BY_SIDE else "near"}
    window = _window(inputs, figures, view)
    marks: list[Mark] = [board_mark(view, figures)]
    for name in (far, near):
        marks += foot_marks(name, figures[name], view)
        if figures[name].stands:
            marks += limb_marks(name, figures[name], inputs.leg(name), view, tones[name])
    if figures[near].stands:
        for name in (far, near):
            marks += wedge_marks(name, figures[name], legs[name].state, view)
            marks += bone_marks(name, figures[name], view, tones[name])
        marks += pelvis_marks(figures, view)
        marks += _callouts(figures, legs, view)
    else:
        marks += _notice(legs, window)
    marks += _feet_labels(figures, inputs, view)
    title = tr("From the front, {look}", look=tr(LOOKS[look]))
    findings = "; ".join(leg.headline for leg in legs.values())
    text = tr("{view}: {findings}.", view=title, findings=findings)
    return Scene("front", title, window, tuple(marks), text)


def _notice(legs: dict[str, LegFinding], window: Window) -> list[Mark]:
    """Why there are no legs to draw."""
    at = (0.0, 0.55 * window.top)
    reasons = dict.fromkeys(leg.reason for leg in legs.values() if leg.at_fault)
    lines = [tr("No posture"), *map(reason_phrase, reasons)]
    return [Label("notice", "notice", at, line, 0, (0.0, 20.0 * i)) for i, line in enumerate(lines)]


def board_mark(view: View, figures: dict[str, Figure]) -> Mark:
    """The board's surface, edge on, wide enough for what stands on it."""
    least, most = soles_reach(figures, view)
    return board_edge(least - 40.0, most + 40.0)


def soles_reach(figures: dict[str, Figure], view: View) -> tuple[float, float]:
    """From where to where the soles lie across the paper (mm)."""
    return view.reach([p for figure in figures.values() for p in figure.sole])


def pelvis_marks(figures: dict[str, Figure], view: View) -> list[Mark]:
    """The line between the hip joint centres."""
    rear, front = view.seen(figures["rear"].hip), view.seen(figures["front"].hip)
    return [
        Line("pelvis", "pelvis", (rear, front)),
        Dot("rear.hip", "hip", rear, 6.0),
        Dot("front.hip", "hip", front, 6.0),
    ]


def _window(inputs: Inputs, figures: dict[str, Figure], view: View) -> Window:
    least, most = soles_reach(figures, view)
    xs = [-least, most]
    if figures["front"].stands:
        xs += [abs(view.seen(figure.knee)[0]) + 60.0 for figure in figures.values()]
    half = outward(max(max(xs) + 30.0, 350.0), STEP)
    top = outward(inputs.highest_hip_mm + 55.0, 50.0)
    return Window(-half, -PLATE_DEPTH - 14.0, half, top)


def _callouts(figures: dict[str, Figure], legs: dict[str, LegFinding], view: View) -> list[Mark]:
    """Number and word of each knee, on the side where its hip is."""
    marks: list[Mark] = []
    front_right = view.seen(figures["front"].hip)[0] >= view.seen(figures["rear"].hip)[0]
    for name, figure in figures.items():
        edge = 1 if (name == "front") == front_right else -1
        target = view.seen(along(figure.knee, figure.thigh_in_plane, 0.55 * figure.thigh))
        leg = legs[name]
        marks.append(
            Callout(f"{name}.callout", f"{name}.callout", edge, target,
                    leg.state, leg.number, tr(_CALLED[name], finding=leg.word))
        )  # fmt: skip
    return marks


def _feet_labels(figures: dict[str, Figure], inputs: Inputs, view: View) -> list[Mark]:
    """The names of the feet under the board with their cants.

    Apart even where the feet are not; a change of their words moves none of them.
    """
    xs = {name: view.seen(figure.centre)[0] for name, figure in figures.items()}
    gap = xs["front"] - xs["rear"]
    aside = max(ASIDE - PER_MM * abs(gap), 0.0)
    spread = max(0.0, 0.5 * (LEAST_GAP - abs(gap)))
    toward_front = 1.0 if gap >= 0.0 else -1.0
    marks: list[Mark] = []
    for name, way in (("front", toward_front), ("rear", -toward_front)):
        at = (xs[name] + way * spread, -PLATE_DEPTH - 10.0)
        off = way * aside
        said = spoken(FIELD[f"{name}_cant_deg"], getattr(inputs, f"{name}_cant_deg"))
        marks.append(Label(f"{name}.name", f"{name}.word", at, tr(_FEET[name]), 0, (off, 13.0)))
        marks.append(Label(f"{name}.cant", f"{name}.slope", at, said, 0, (off, 29.0)))
    return marks
