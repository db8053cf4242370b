"""What the model assumes, how it works out a leg, and what it does not know."""

from __future__ import annotations

from typing import Final, NamedTuple

from app.words.language import msgid


class Formula(NamedTuple):
    """A formula, the same in all languages, and what it says."""

    said: str
    symbols: str


ASSUMES: Final = (
    msgid(
        "A knee bends like a hinge, in one plane, which foot and boot set. Real knees also turn "
        "and glide a little."
    ),
    msgid(
        "Shank and thigh are straight lines between the centres of ankle, knee and hip. The "
        "pelvis stays level; it can turn and shift."
    ),
    msgid(
        "A boot lets the shank go as far as its range and its side give, and no further. Real "
        "ones stiffen little by little, warm and cold, new and worn."
    ),
    msgid(
        "You stand still: without bumps, forces of turns, speed or fatigue. The weight stands "
        "where it was typed."
    ),
    msgid(
        "The masses are shares of average adults. Boots, clothes and what you carry are left out."
    ),
    msgid("What to begin with is sought with straight hips over the riding bend that was typed."),
)
UNKNOWN: Final = (
    msgid(
        "No published study ties the stance length of a snowboarder to the length of the legs, or "
        "a cant to the load on the knee. The limits here are engineering choices."
    ),
    msgid(
        "Joint loads of snowboarders were measured in carved turns (Klous, Müller & Schwameder "
        "2014), not in relation to lift and cant."
    ),
    msgid(
        "How two clamped feet share a load cannot be told from a posture: six plausible rules "
        "gave side moments of either sign in 79 % of legs. So none is shown."
    ),
    msgid("It does not know your joints: cartilage, ligaments, old injuries, or what hurts."),
    msgid(
        "It does not know how you ride. What feels right in trials counts for more than any "
        "number here."
    ),
)
FORMULAS: Final = (
    Formula(
        msgid(
            "The sole lies as lift and cant tilt it, the ankle above it, behind its middle by "
            "0.3 of the foot's length."
        ),
        "n = unit(z − tan λ · f − tan κ · l)",
    ),
    Formula(
        msgid("A boot fitted flat at the natural spacing holds the shank inward by this angle."),
        "τ₀ = atan((N − W) / 2(H − A)) + Δτ",
    ),
    Formula(
        msgid(
            "To have the hip in the plane of the knee, the shank would have to lean by this one."
        ),
        "τ* = atan(−m′·d / n·d)",
    ),
    Formula(
        msgid("Boot and ankle give what they can of the difference."),
        "τ = τ₀ + clip(τ* − τ₀, −g, +g)",
    ),
    Formula(
        msgid("What is left over brings the hip beside the plane, and the thigh off it."),
        "δ = m″·d,  ε = asin(δ / L₂)",
    ),
    Formula(
        msgid("Within the plane shank, thigh and the line to the hip make a triangle."),
        "θ = atan(u / v) + acos((L₁² + R² − L₂′²) / 2L₁R)",
    ),
    Formula(
        msgid("The hips settle where the mean of both knees is the bend typed …"),
        "½ (k₁ + k₂) = k",
    ),
    Formula(
        msgid("… and where the centre of mass stands over the feet, ahead as typed."),
        "c · F₀ = a",
    ),
    Formula(
        msgid("Whole cant: both cants together, so that neither leg wants any give."),
        "τ*(κ) = τ₀",
    ),
    Formula(
        msgid("To begin with: the cant nearest to flat with which the knee keeps its limit."),
        "min |κ|,  |ε(κ)| ≤ 1°",
    ),
    Formula(
        msgid("And the lift nearest to flat with which the boot keeps off its stops by 1°."),
        "min |λ|,  |θ(λ) − β| ≤ r − 1°",
    ),
)
"""How a leg is worked out, from the sole up: own derivations."""
