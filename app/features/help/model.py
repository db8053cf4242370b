"""What the help is made of: its sections, its terms in their order, and the sources."""

from __future__ import annotations

from typing import Final, NamedTuple

from app.stance import topics
from app.words.language import msgid


class Term(NamedTuple):
    """One word of the trade.

    Attributes:
        title: the word, or the words that belong together.
        said: what it is, in a rider's words.
        joints: the same in terms of anatomy and joints.
        topic: under which a rider's own number is reasoned; "" where there is none.
    """

    title: str
    said: str
    joints: str
    topic: str = ""


TERMS: Final[dict[str, Term]] = {
    "front and rear": Term(
        msgid("Front foot, rear foot"),
        msgid(
            "The front foot is the one nearer to the nose of the board. Toe side and heel side "
            "of the board are where your toes and your heels are."
        ),
        msgid(
            "All is worked out for front and rear. A rider who leads with the left foot is the "
            "mirror image of one who leads with the right."
        ),
    ),
    "binding angle": Term(
        msgid("Binding angle"),
        msgid(
            "How far a foot is turned from straight across the board; positive turns the toes to "
            "the nose. With a negative angle behind the feet point apart: a duck stance."
        ),
        msgid(
            "The angle φ of the foot's long axis to the board's transverse axis, in plan. The "
            "mean of both is the direction that the pelvis faces with the hips straight."
        ),
        topics.SPACING,
    ),
    "stance length": Term(
        msgid("Stance length, across spacing"),
        msgid(
            "The stance length lies between the centres of the two bindings along the board, the "
            "across spacing across it: 0 on a snowboard, all of it on a monoski."
        ),
        msgid("S along and B across the board, both from centre to centre of the bindings."),
        topics.SPACING,
    ),
    "feet apart": Term(
        msgid("Feet apart: long axes, short axes"),
        msgid(
            "Seen along the feet, the long axes lie so far apart as the legs are really spread. "
            "The short axes tell how far one foot stands ahead of the other."
        ),
        msgid(
            "X = S cos φ + B sin φ in the frontal plane of the pelvis, Y = S sin φ − B cos φ in "
            "the sagittal one, φ the mean of the binding angles."
        ),
        topics.SPACING,
    ),
    "natural spacing": Term(
        msgid("Natural spacing"),
        msgid(
            "How far apart your feet come to stand by themselves, in the boots, legs straight, "
            "soles parallel and flat. It is measured between the long axes of the soles."
        ),
        msgid(
            "The spacing N at which the straight limbs hang without abduction or adduction of "
            "their own; a cuff fitted there leans by atan((N − W) / 2(H − A))."
        ),
        topics.SPACING,
    ),
    "no-cant line": Term(
        msgid("No-cant line"),
        msgid(
            "The stance length at which the feet stand just as far apart as the legs hang: longer "
            "ones ask for inward cant, shorter ones for outward cant. The more the feet are "
            "turned, the longer it is."
        ),
        msgid(
            "S = N sec φ for straight legs. The stance map draws the line of the solved legs, "
            "which bend, and which a boot holds."
        ),
    ),
    "lift": Term(
        msgid("Lift: toe lift, heel lift"),
        msgid(
            "The slope of the sole along the foot. Toe lift raises the toe end, heel lift the "
            "heel. It brings the boot back between its stops."
        ),
        msgid(
            "The slope λ of the sole along its own axis, as an inclinometer laid along the boot "
            "reads it; positive toe up. It turns the boot's range against the tibia."
        ),
        topics.LIFT,
    ),
    "cant": Term(
        msgid("Cant: inward, outward"),
        msgid(
            "The slope of the sole across the foot. Inward cant raises the little-toe side and "
            "tips the leg in, outward cant raises the big-toe side and tips it out."
        ),
        msgid(
            "The slope κ of the sole in the frontal plane of the foot, as an inclinometer laid "
            "square across the boot reads it; positive with the lateral side up."
        ),
        topics.CANT,
    ),
    "straight-leg rule": Term(
        msgid("Straight-leg rule"),
        msgid(
            "A rule of thumb of the trade: half of what the feet stand wider than the legs hang, "
            "over the height of the hip. It knows neither bend nor boots and is shown beside the "
            "solved leg to compare."
        ),
        msgid("κ = atan((X − N) / 2H): the limb as one rigid segment under a hinge at the hip."),
        topics.RULE,
    ),
    "whole cant": Term(
        msgid("Whole cant"),
        msgid(
            "The cant with which the hip hangs right in the plane of the knee, so that boot and "
            "ankle need not give at all. Less is often enough: the boot gives some, and the knee "
            "may play a little."
        ),
        msgid("The pair of cants, solved together, at which neither leg wants side give: τ* = τ₀."),
        topics.CANT,
    ),
    "riding bend": Term(
        msgid("Riding bend"),
        msgid(
            "From the tallest to the deepest that you stand while riding. What to begin with is "
            "sought for all depths between the two."
        ),
        msgid("The interval of mean knee flexion over which |ε| has to keep its limit."),
        topics.CANT,
    ),
    "leg heights": Term(
        msgid("Hip, knee and ankle height, foot length"),
        msgid(
            "All barefoot from the floor: to the bony knob at the side of the hip, to the gap at "
            "the outer side of the knee, to the middle of the outer ankle knob. Thigh and shank "
            "lie between them."
        ),
        msgid(
            "H to the top of the greater trochanter, K to the lateral joint line of the knee, A "
            "to the tip of the lateral malleolus. Thigh H − K, shank K − A."
        ),
    ),
    "hip spacing": Term(
        msgid("Hip spacing"),
        msgid(
            "Between the middles of the two hip joints, deep inside: narrower than the hips look."
        ),
        msgid(
            "W between the hip joint centres, about 0.72 of the distance between the anterior "
            "superior iliac spines."
        ),
    ),
    "knee tracking": Term(
        msgid("Knee tracking"),
        msgid(
            "Where the knee goes over the foot as it bends: over the toes, inside or outside of "
            "them. Not everybody's foot points where the knee goes."
        ),
        msgid(
            "The angle ρ from the foot's axis to the track of the hinge plane on the sole, "
            "positive with the knee medial to the toes: torsion of tibia and foot."
        ),
    ),
    "hinge plane": Term(
        msgid("Hinge plane, hinge axis"),
        msgid(
            "A knee bends like a hinge. The plane in which it swings is set by the foot, the boot "
            "and how far both tilt. Its trace is drawn dashed."
        ),
        msgid(
            "The plane of the tibia and the track of the knee; the flexion axis is square to it. "
            "With the hip joint centre in it, knee flexion is a pure hinge."
        ),
        topics.KNEE,
    ),
    "off-plane angle": Term(
        msgid("Out of its plane: knock-kneed, bow-legged"),
        msgid(
            "How far the thigh lies out of the plane in which the knee bends, the drawn wedge. "
            "With the hip outside, the knee is pushed inward, knock-kneed; with the hip inside, "
            "outward, bow-legged."
        ),
        msgid(
            "ε = asin(δ / L) between femur and hinge plane; positive is valgus, negative varus. "
            "In plane up to 1.0°, out beyond 3.3° unless set otherwise: half the knee's passive "
            "play."
        ),
        topics.KNEE,
    ),
    "knee bend": Term(
        msgid("Knee bend"),
        msgid(
            "How deep you crouch: 0 with straight knees. What you set is the mean of both; each "
            "leg takes what its place on the board asks for."
        ),
        msgid(
            "Knee flexion: the angle of the femur behind the line of the tibia, in the hinge plane."
        ),
        topics.BEND,
    ),
    "boot flex": Term(
        msgid("Boot flex, forward lean, flex range"),
        msgid(
            "Forward lean is how the boot holds the shank at rest; from there it lets it go some "
            "way forward and back, its flex range. At either end is a stop."
        ),
        msgid("Dorsiflexion θ of the tibia from the sole's normal, against rest β and range ± r."),
        topics.BOOT,
    ),
    "side give": Term(
        msgid("Side give"),
        msgid(
            "How far boot and ankle together let the shank tip sideways. It takes up a part of "
            "what stance and sole ask for; the rest goes to the knee."
        ),
        msgid(
            "The frontal-plane play ± g of cuff, liner and subtalar joint around the angle τ₀ at "
            "which the cuff holds the tibia."
        ),
        topics.KNEE,
    ),
    "cuff offset": Term(
        msgid("Cuff offset"),
        msgid(
            "How much further inward the boot's cuff leans than fits your leg; 0 once the cuffs "
            "were adjusted while you stood at your natural spacing with flat soles."
        ),
        msgid("Added to τ₀ = atan((N − W) / 2(H − A)), the lean of a cuff that was fitted."),
        topics.KNEE,
    ),
    "boot sole": Term(
        msgid("Sole thickness, boot ramp"),
        msgid(
            "The sole lifts the foot off the binding. The ramp is the slope inside the boot, the "
            "heel above the toes: it adds to what lift does under your foot."
        ),
        msgid(
            "The thickness raises the ankle centre; the ramp tilts the foot bed and moves no bone "
            "here."
        ),
    ),
    "hips turned": Term(
        msgid("Hips turned, facing"),
        msgid(
            "The facing is where your hips point. With 0 they point where the feet do on average; "
            "turned hips reach one leg forward and one back."
        ),
        msgid(
            "Rotation of the pelvis about its own vertical axis, from the mean of the foot axes; "
            "positive towards the nose."
        ),
        topics.HIP,
    ),
    "hip shift": Term(
        msgid("Hip shift"),
        msgid(
            "The hips held to one side: towards the front leg puts more weight there and alters "
            "what both knees need."
        ),
        msgid("Translation of the pelvis along the line of the hips; positive to the front leg."),
        topics.WEIGHT,
    ),
    "back lean": Term(
        msgid("Back lean"),
        msgid(
            "How far back and head lean forward from upright. It moves the weight, and with it the "
            "hips: they go back as the back comes forward."
        ),
        msgid(
            "Inclination χ of head, arms and trunk towards the facing, their mass in one at 0.18 "
            "of stature above the hips."
        ),
        topics.BEND,
    ),
    "weight ahead": Term(
        msgid("Weight: ahead, and in front"),
        msgid(
            "Weight ahead is how far towards the toes the weight stands; the share in front is "
            "how much of it the front foot carries."
        ),
        msgid(
            "The ground point of the centre of mass, measured along the stance facing from the "
            "middle of the bindings, and along the line between them."
        ),
        topics.WEIGHT,
    ),
    "hip movements": Term(
        msgid("Hip: spread, turned, bent"),
        msgid(
            "A thigh can come up, be spread away from the other one or come in, and turn the "
            "kneecap in or out. What goes beyond the usual is flagged."
        ),
        msgid(
            "Flexion and extension, abduction and adduction, internal and external rotation of "
            "the femur against the pelvis, in the axes of Grood & Suntay."
        ),
        topics.HIP,
    ),
}
"""The words by their keys, those of the stance first."""


class Source(NamedTuple):
    """A citation, the same in all languages, and what rests on it."""

    cited: str
    used_for: str


SOURCES: Final = (
    Source(
        "Markolf, Graff-Radford & Amstutz 1978, J Bone Joint Surg Am 60:664–674",
        msgid("Passive side play of the knee, 6.7° in all; half of it is the flag at 3.3°."),
    ),
    Source(
        "de Leva 1996, J Biomech 29:1223–1230",
        msgid("Masses of thigh, shank and foot, and where their centres lie."),
    ),
    Source(
        "Winter 2009, Biomechanics and Motor Control of Human Movement, 4th ed.",
        msgid("Centre of head, arms and trunk (from memory)."),
    ),
    Source(
        "Gordon et al. 2014, NATICK/TR-15/007 (ANSUR II)",
        msgid("Leg dimensions estimated from stature and other single measures."),
    ),
    Source(
        "Fredriks et al. 2000, Pediatr Res 47:316–323; 2005, Arch Dis Child 90:807–812",
        msgid("Stature and leg length of children."),
    ),
    Source(
        "Bell, Brand & Pedersen 1989, Hum Mov Sci 8:3–16",
        msgid("Hip spacing from the front points of the hip bones."),
    ),
    Source(
        "Grood & Suntay 1983, J Biomech Eng 105:136–144; Wu et al. 2002, J Biomech 35:543–548",
        msgid("How angles of hip, knee and ankle are named and counted."),
    ),
    Source(
        "AAOS 1965; Kouyoumdjian et al. 2012, Orthop Traumatol Surg Res 98:17–23",
        msgid("Usual ranges of hip and knee (the first from memory)."),
    ),
    Source(
        "Klous, Müller & Schwameder 2014, Comput Math Methods Med 340272",
        msgid(
            "Joint loads of carved turns on ski and snowboard, measured; nothing here rests on it."
        ),
    ),
    Source(
        "Lorenzetti et al. 2018, BMC Sports Sci Med Rehabil 10:14",
        msgid("Squats: how spread and turned feet change the moments at knee and hip."),
    ),
    Source(
        "ISO 14790:2005; ISO 11634; ISO 10958",
        msgid("Plate bindings, their boots, and the mounting area of boards."),
    ),
)
"""What the program rests on, or was measured against."""
