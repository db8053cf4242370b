"""What the page says, in the user's language: made once, with places for what moves."""

from __future__ import annotations

from typing import Any, Final

from app.drawing.front import LOOKS
from app.rider.inputs import Inputs
from app.stance.answer import Answer, FootAnswer
from app.stance.answer_words import bench_words, left_words, next_words, why_words
from app.stance.findings import (
    BOOT_IN,
    BOOT_NEAR,
    BOOT_OUT,
    REMEDY,
    STATES,
    state_words,
)
from app.stance.mending import Mend
from app.words.language import msgid, tr
from app.words.lengths import Lengths
from app.words.reasons import reason_sentence
from app.words.sentences import plain

ENDS: Final = {"front": msgid("Front leg"), "rear": msgid("Rear leg")}
BINDINGS: Final = {"front": msgid("Front binding"), "rear": msgid("Rear binding")}
VIEWS: Final = {
    "above": msgid("From above"),
    "front": msgid("From the front"),
    "side": msgid("From the side"),
}
"""The views as one chooses among them."""
_LEADS: Final = {"left": msgid("Left foot in front"), "right": msgid("Right foot in front")}
_BOOTS: Final = {
    BOOT_IN: msgid("Boot {flex}° of {low}° to {high}°, knee bend {bend}°"),
    BOOT_NEAR: msgid("Boot {flex}°, near its stop of {low}° to {high}°, knee bend {bend}°"),
    BOOT_OUT: msgid("Boot {flex}°, past its stop of {low}° to {high}°, knee bend {bend}°"),
}
LESS: Final = msgid("{label}: less")
MORE: Final = msgid("{label}: more")


def view_title(key: str) -> str:
    """What stands over a view."""
    if key == "front":
        return tr("From the front, {look}", look=tr(LOOKS["facing"]))
    return tr(VIEWS[key])


def stance_words(inputs: Inputs, lengths: Lengths) -> str:
    """The saved stance in one line."""
    parts = [
        tr(_LEADS[inputs.lead_foot]),
        f"{plain(inputs.front_angle_deg)}° / {plain(inputs.rear_angle_deg)}°",
        tr("stance length {length}", length=lengths.text(inputs.stance_length_mm)),
    ]
    if inputs.across_spacing_mm:
        parts.append(tr("across {length}", length=lengths.text(inputs.across_spacing_mm)))
    return " · ".join(parts)


def answer_text(
    foot: FootAnswer, answer: Answer, inputs: Inputs, mend: Mend | None, lengths: Lengths
) -> list[str]:
    """Why a foot begins with what it does, what that leaves and how to go there."""
    left = left_words(foot, mend, lengths), next_words(foot, mend, lengths)
    said = [
        why_words(foot, answer, inputs, lengths),
        " ".join(filter(None, left)),
        bench_words(foot, inputs) if foot.exists else "",
    ]
    return [each for each in said if each]


def told_words() -> dict[str, Any]:
    """The words that the script fills in; places in braces stay for it."""
    return {
        "ends": {"front": tr("front"), "rear": tr("rear")},
        "headlines": {
            "front": tr("front leg {finding}"),
            "rear": tr("rear leg {finding}"),
        },
        "states": {state: state_words(state) for state in STATES},
        "knock_kneed": tr("knock-kneed"),
        "bow_legged": tr("bow-legged"),
        "in_plane": tr("in its plane to within {angle}"),
        "state_way": tr("{state}, {way}"),
        "finding": tr("{angle} {state}"),
        "boots": {state: tr(said) for state, said in _BOOTS.items()},
        "reasons": {end: _reasons(end) for end in ("front", "rear")},
        "amount_side": tr("{amount} {side}"),
        "angles": {"front": tr("front {angle}°"), "rear": tr("rear {angle}°")},
        "feet": tr("feet {length}"),
        "natural": tr("natural {length}"),
        "share": tr("{share} % of the weight in front"),
        "nose": tr("nose"),
        "tail": tr("tail"),
        "range": tr("{low} to {high}"),
        "no_input": tr("The address names “{name}”, which is no input here; it was passed over."),
        "not_taken": tr(
            "The address asks for {name} = “{value}”, which cannot be taken: {range} only. "
            "It stays as saved."
        ),
        "heights": tr(
            "The address asks for a leg whose ankle, knee and hip do not stand above one "
            "another; it stays as saved."
        ),
    }


def _reasons(end: str) -> dict[str, str]:
    """Why no posture settles, by whether the leg cannot reach or its knee leaves its plane."""
    keys = {"leg": f"{end} leg cannot reach", "knee": f"{end} knee leaves its plane"}
    return {what: f"{reason_sentence(key)} {tr(REMEDY)}" for what, key in keys.items()}
