"""The steps that tell of one solved leg: its knee, its bend, its boot and its hip."""

from __future__ import annotations

from typing import Final

from app.features.why import model, sources
from app.features.why.step import Step, angle, half_degrees, way
from app.frame import Frame
from app.rider.inputs import FIELD
from app.stance.answer_words import mount_words
from app.words.language import msgid, tr
from app.words.sentences import spoken
from app.words.units import fixed

_MOVED: Final = {
    "flexion": msgid("The thigh comes up towards the belly by {angle}; {most} are usual."),
    "extension": msgid("The thigh goes back by {angle}; {most} are usual."),
    "abduction": msgid("The thigh is spread away from the other one by {angle}; {most} are usual."),
    "adduction": msgid("The thigh comes in towards the other one by {angle}; {most} are usual."),
    "internal rotation": msgid("The kneecap is turned in by {angle}; {most} are usual."),
    "external rotation": msgid("The kneecap is turned out by {angle}; {most} are usual."),
}


def knee_steps(frame: Frame, leg: str) -> list[Step]:
    """What leads from the rule for straight legs to the off-plane angle of a bent one."""
    at, inputs, text = model.solved_of(frame, leg), frame.settled.inputs, frame.lengths.text
    own, found = inputs.leg(leg), frame.findings.legs[leg]
    cant = spoken(FIELD[f"{leg}_cant_deg"], getattr(inputs, f"{leg}_cant_deg"))
    rule = mount_words("cant", half_degrees(model.rule_of(frame, leg).cant_deg))
    spread, high = (
        inputs.neutral_spacing_mm - inputs.hip_spacing_mm,
        own.hip_height_mm - own.ankle_height_mm,
    )
    fitted = f"atan({text(spread, 0)} / (2 · {text(high, 0)}))"
    offset = (
        f" {'+' if at.offset_deg > 0.0 else '−'} {angle(abs(at.offset_deg))}"
        if at.offset_deg
        else ""
    )
    rest = at.wanted_deg - at.given_deg
    limits = frame.limits
    return [
        Step(
            tr(
                "The rule for straight legs asks for {rule}; under the sole: {cant}. Now the "
                "leg is bent, and the boot has its say.",
                rule=rule,
                cant=cant,
            ),
            tr(
                "From the rigid limb to the solved one: ankle, hinge knee and hip joint, the "
                "tibia held by the cuff. Slope of the sole: {cant}; by the rule: {rule}.",
                rule=rule,
                cant=cant,
            ),
        ),
        Step(
            tr(
                "The boot holds your shank {way} of square to the sole: its cuff was fitted while "
                "you stood at your natural spacing.",
                way=way(at.cuff_deg),
            ),
            tr(
                "The cuff holds the tibia at τ₀ from the normal of the sole, in the frontal plane "
                "of the foot: the line from ankle to hip at the natural spacing N and the hip "
                "spacing W."
            ),
            tr("cuff = atan((natural − hip spacing) / 2 (hip − ankle height)) + offset")
            if offset
            else tr("cuff = atan((natural − hip spacing) / 2 (hip − ankle height))"),
            "τ₀ = atan((N − W) / 2(H − A))" + (" + Δτ" if offset else ""),
            f"{fitted}{offset} = {angle(at.cuff_deg)}",
            tr(sources.LEG),
        ),
        Step(
            tr(
                "With the knee bent your hip hangs only {up} above the ankle, no longer {high}. "
                "So the same way to the side is a larger angle: seen from the ankle the hip is "
                "{way}.",
                up=text(at.up, 0),
                high=text(high, 0),
                way=way(at.hip_lean_deg),
            ),
            tr(
                "Seen in the plane square to the track of the knee, the line from the ankle to "
                "the hip joint centre leans by τ* from the normal of the sole; positive is medial."
            ),
            tr("hip = atan(inward of the ankle / above the ankle)"),
            "τ* = atan(−m′·d / n·d)",
            f"atan({text(-at.outward, 0)} / {text(at.up, 0)}) = {angle(at.hip_lean_deg)}",
            tr(sources.LEG),
        ),
        Step(
            tr(
                "To bring the hip into the plane in which the knee bends, boot and ankle would "
                "have to tilt by the difference."
            ),
            tr(
                "Wanted side give: the eversion or inversion, with the cuff's play, that would "
                "let the knee flex as a pure hinge."
            ),
            tr("wanted = hip − cuff"),
            "τ* − τ₀",
            f"{angle(at.hip_lean_deg)} − {_bracketed(at.cuff_deg)} = {angle(at.wanted_deg)}",
            tr(sources.LEG),
        ),
        Step(
            _given_words(at),
            tr("Ankle and cuff give at most g either way; the remainder goes to the knee."),
            tr("left = wanted − given"),
            "τ* − τ,  |τ − τ₀| ≤ g",
            f"{angle(at.wanted_deg)} − {_bracketed(at.given_deg)} = {angle(rest)}",
            tr(sources.TYPED),
        ),
        Step(
            _knee_words(at, text(abs(at.miss), 0), text(at.thigh, 0)),
            tr(
                "The femur leaves the hinge plane by ε = asin(δ / L): valgus is positive, varus "
                "negative. δ is the distance of the hip joint centre from the plane, L the length "
                "of the thigh."
            ),
            tr("out of plane = asin(beside the plane / thigh)"),
            "ε = asin(δ / L)",
            f"asin({text(at.miss, 0)} / {text(at.thigh, 0)}) = {angle(at.off_plane_deg)}",
            tr(sources.LEG),
        ),
        Step(
            tr(
                "That is: {finding}. Up to {near}° counts as in its plane, more than {far}° as "
                "out of it.",
                finding=found.spoken,
                near=fixed(limits.in_plane_deg, 1),
                far=fixed(limits.drifting_deg, 1),
            ),
            tr(
                "That is: {finding}. |ε| up to {near}° counts as in plane, beyond {far}° as out "
                "of it.",
                finding=found.spoken,
                near=fixed(limits.in_plane_deg, 1),
                far=fixed(limits.drifting_deg, 1),
            ),
            source=tr(sources.PLAY, source=sources.MARKOLF),
        ),
    ]


def _bracketed(deg: float) -> str:
    said = angle(deg)
    return f"({said})" if deg < 0.0 else said


def _given_words(at: model.Solved) -> str:
    if abs(at.wanted_deg) <= at.give_deg:
        return tr(
            "Together they can tilt {give} either way: enough, and nothing is left for the knee.",
            give=angle(at.give_deg),
        )
    return tr(
        "Together they can tilt {give} either way: not enough, and the knee has to take the rest.",
        give=angle(at.give_deg),
    )


def _knee_words(at: model.Solved, miss: str, thigh: str) -> str:
    if abs(at.off_plane_deg) < 0.05:
        return tr("The hip hangs in the plane of the knee: it bends as the hinge that it is.")
    if at.off_plane_deg < 0.0:
        return tr(
            "The hip hangs {miss} to the inner side of the plane of the knee. With a thigh of "
            "{thigh} the knee is pushed outward, bow-legged.",
            miss=miss,
            thigh=thigh,
        )
    return tr(
        "The hip hangs {miss} to the outer side of the plane of the knee. With a thigh of {thigh} "
        "the knee is pushed inward, knock-kneed.",
        miss=miss,
        thigh=thigh,
    )


def bend_steps(frame: Frame, leg: str) -> list[Step]:
    """What bends this knee as far as it does."""
    at, text = model.solved_of(frame, leg), frame.lengths.text
    here, other = angle(at.bend_deg), angle(at.other_bend_deg)
    reach, shank, thigh = (text(each, 0) for each in (at.reach, at.shank, at.thigh_in_plane))
    return [
        Step(
            tr(
                "You asked for a knee bend of {asked}: that is the mean of both knees. The hips "
                "settle where it holds and the weight stands over the feet.",
                asked=angle(at.asked_bend_deg),
            ),
            tr(
                "Two conditions place the pelvis in height and in the sagittal plane: the mean "
                "knee flexion, and the centre of mass over the middle of the feet."
            ),
            tr("bend = (this knee + the other) / 2"),
            "(k₁ + k₂) / 2",
            f"({here} + {other}) / 2 = {angle(at.asked_bend_deg)}",
            tr(sources.MASSES, source=sources.LEVA),
        ),
        Step(
            tr(
                "From ankle to hip it is {reach} then. Shank and thigh, {shank} and {thigh}, are "
                "longer together, and so the knee bends.",
                reach=reach,
                shank=shank,
                thigh=thigh,
            ),
            tr(
                "Knee flexion k is the angle of the femur behind the line of the tibia, within "
                "the hinge plane; R spans from ankle to hip, L are tibia and femur within the "
                "plane."
            ),
            tr("cos bend = (reach² − shank² − thigh²) / (2 · shank · thigh)"),
            "k = acos((R² − L₁² − L₂²) / 2L₁L₂)",
            f"acos((({reach})² − ({shank})² − ({thigh})²) / (2 · {shank} · {thigh})) = {here}",
            tr(sources.COSINES),
        ),
    ]


def boot_steps(frame: Frame, leg: str) -> list[Step]:
    """What flexes the boot, and what it has left."""
    at, boot = model.solved_of(frame, leg), model.flexed_of(frame, leg)
    flex, rest = angle(boot.flex_deg), angle(boot.rest_deg)
    return [
        Step(
            tr(
                "Seen from the ankle your hip is {line} forward of square to the sole, and the "
                "bent knee stands {knee} further forward.",
                line=angle(at.line_deg),
                knee=angle(at.knee_ahead_deg),
            ),
            tr(
                "The line from ankle to hip joint leans forward within the hinge plane; the tibia "
                "stands ahead of it by the angle at the ankle of the triangle tibia, femur, reach."
            ),
            tr("flex = line to the hip + knee ahead of it"),
            "θ = atan(u / v) + acos((L₁² + R² − L₂²) / 2L₁R)",
            f"{angle(at.line_deg)} + {_bracketed(at.knee_ahead_deg)} = {flex}",
            tr(sources.COSINES),
        ),
        Step(
            tr(
                "At rest the boot holds the shank {rest} forward, and it goes {range} either way "
                "from there.",
                rest=rest,
                range=angle(boot.range_deg),
            ),
            tr("Dorsiflexion within the boot: rest β, range r either way."),
            tr("range = rest ± play"),
            "β ± r",
            f"{rest} ± {angle(boot.range_deg)} = {angle(boot.low_deg)} … {angle(boot.high_deg)}",
            tr(sources.TYPED),
        ),
        Step(
            _left_words(boot),
            tr("What is left to the nearer stop; negative is past it."),
            tr("left = play − |flex − rest|"),
            "r − |θ − β|",
            f"{angle(boot.range_deg)} − |{flex} − {rest}| = {angle(boot.left_deg)}",
            tr(sources.LEG),
        ),
    ]


def _left_words(boot: model.Flexed) -> str:
    left, forward = angle(abs(boot.left_deg)), boot.flex_deg > boot.rest_deg
    if boot.left_deg < 0.0:
        if forward:
            return tr(
                "It would have to go {left} past its front stop: no boot does that, so the stance "
                "will push you elsewhere.",
                left=left,
            )
        return tr(
            "It would have to go {left} past its rear stop: no boot does that, so the stance will "
            "push you elsewhere.",
            left=left,
        )
    if forward:
        return tr("To its front stop {left} are left.", left=left)
    return tr("To its rear stop {left} are left.", left=left)


def hip_steps(frame: Frame, leg: str) -> list[Step]:
    """What the hip does, against what hips usually can."""
    said = []
    for each in model.movements_of(frame, leg):
        here, most = angle(each.angle_deg), angle(each.most_deg)
        source = sources.KOUYOUMDJIAN if "rotation" in each.name else sources.AAOS
        said.append(
            Step(
                tr(_MOVED[each.name], angle=here, most=most),
                tr(
                    "Hip {movement}: {angle} of {most}.",
                    movement=tr(each.name),
                    angle=here,
                    most=most,
                ),
                tr("left = usual − here"),
                "",
                f"{most} − {here} = {angle(each.most_deg - each.angle_deg)}",
                tr(sources.RANGES, source=source),
            )
        )
    axes = tr("Angles of thigh against pelvis by the axes of {source}.", source=sources.AXES)
    return [
        *said,
        Step(
            tr("Usual is what many people can do in an examination; yours may be more or less."),
            axes,
        ),
    ]
