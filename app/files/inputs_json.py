"""The inputs among the values of a file: of a set-up, or of a lesson's rider."""

from __future__ import annotations

from typing import Final

from app.files.records import Reader, Record, numbers, one_of, possible, refusal
from app.rider.inputs import LEG_FIELDS, SHARED_FIELDS, SIDES, Inputs, LegInputs, model
from app.words.language import msgid


def _used(inputs: Inputs) -> None:
    """Raises ValueError where there is no leg, or no range of bends, of that kind."""
    model(inputs)
    tallest, deepest = inputs.bend_from_deg, inputs.bend_to_deg
    if tallest >= deepest:
        said = msgid("{name} is {value}; it must be less than inputs.bend_to_deg, {deepest}")
        raise refusal(said, "inputs.bend_from_deg", tallest, deepest=f"{deepest:g}")


_LEG: Final = numbers(LEG_FIELDS)
_INPUTS: Final[dict[str, Reader]] = {
    "lead_foot": one_of(SIDES, msgid("inputs.lead_foot is {value}; it must be left or right")),
    **numbers(SHARED_FIELDS),
    **{side: Record(LegInputs, _LEG, required=_LEG) for side in SIDES},
}
# None is filled in: a default in place of a lost measure is a wrong answer.
INPUTS: Final = Record(possible(Inputs, _used), _INPUTS, required=_INPUTS)
"""All inputs of a rider."""
