"""One pass from inputs to everything that is shown of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from app.drawing.above import Balance, scene_above
from app.drawing.along_foot import scene_along_foot
from app.drawing.front import scene_front
from app.drawing.marks import Mark, Scene
from app.drawing.side import scene_side
from app.drawing.solids import figure_of
from app.rider.setup import Setup
from app.stance.findings import USUAL_LIMITS, Findings, Limits, findings_of
from app.stance.settled import Settled, settled
from app.words.lengths import IN_MM, Lengths
from geometry import Posture


class Frame(NamedTuple):
    """What the window shows at one moment.

    Attributes:
        setup: from which it was made.
        settled: its inputs as the geometry takes them, and the solved legs.
        findings: what these mean.
        scenes: the views by key.
        lengths: writes lengths in the unit chosen.
        limits: where a knee counts as drifting and as out of plane.
        look: how the front view looks, a key of :data:`app.drawing.front.LOOKS`.
    """

    setup: Setup
    settled: Settled
    findings: Findings
    scenes: dict[str, Scene]
    lengths: Lengths = IN_MM
    limits: Limits = USUAL_LIMITS
    look: str = "facing"

    def marked(self, more: Mapping[str, tuple[Mark, ...]]) -> Frame:
        """The same with more drawn over its views, by their keys; their windows stay."""
        scenes = {
            key: scene._replace(marks=scene.marks + more[key]) if key in more else scene
            for key, scene in self.scenes.items()
        }
        return self._replace(scenes=scenes)


def frame(
    setup: Setup,
    look: str = "facing",
    limits: Limits = USUAL_LIMITS,
    lengths: Lengths = IN_MM,
) -> Frame:
    """Solve a set-up and draw it.

    Args:
        setup: the rider's set-up.
        look: how the front view looks, a key of :data:`app.drawing.front.LOOKS`.
        limits: where a knee counts as drifting and as out of plane.
        lengths: writes lengths in the unit chosen.

    Raises:
        ValueError: the leg dimensions contradict each other; says how.
    """
    stood = settled(setup.inputs)
    inputs, posture = stood.inputs, stood.posture
    findings = findings_of(stood, limits, lengths)
    figures = {
        "front": figure_of(posture.front, inputs.front),
        "rear": figure_of(posture.rear, inputs.rear),
    }
    states = {name: leg.state for name, leg in findings.legs.items()}
    scenes = [
        scene_above(
            inputs, stood.model.stance, figures, states, lengths, balance=_balance(stood.posture)
        ),
        scene_front(inputs, figures, findings.legs, look),
        scene_side(inputs, figures, findings.legs),
        *(
            scene_along_foot(inputs, name, figures[name], findings.legs[name])
            for name in ("front", "rear")
        ),
    ]
    drawn = {scene.key: scene for scene in scenes}
    return Frame(setup, stood, findings, drawn, lengths, limits, look)


def _balance(posture: Posture) -> Balance:
    """Where the weight stands."""
    x, y, z = (float(each) for each in posture.mass_centre)
    return Balance((x, y, z), float(posture.front_share))
