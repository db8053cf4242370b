"""Parts lists of any kind, for tests that go through them all."""

from __future__ import annotations

from typing import Any

from hypothesis import assume
from hypothesis import strategies as st

from app.rider.parts import KINDS, LIST_FIELDS, PART_FIELDS, PartEntry, Parts, model
from app.words.field import Field
from geometry.hardware.parts import Kind

WHOLE_STEPS = (1.0, 7.5, 10.0, 22.5, 90.0, 180.0)


def number(field: Field) -> st.SearchStrategy[Any]:
    if field.unit:
        return st.floats(field.low, field.high)
    return st.integers(int(field.low), int(field.high))


@st.composite
def entries(draw: st.DrawFn) -> PartEntry:
    values = {field.name: draw(number(field)) for field in PART_FIELDS}
    kind = draw(st.sampled_from(KINDS))
    turnable = kind == Kind.TURNABLE.value
    values["bearing_step_deg"] = draw(st.sampled_from(WHOLE_STEPS)) if turnable else 10.0
    name = draw(st.text(min_size=1).filter(str.strip))
    return PartEntry(name, kind, **values)


@st.composite
def parts_lists_of_any_kind(draw: st.DrawFn) -> Parts:
    values = {field.name: draw(number(field)) for field in LIST_FIELDS}
    values["longest_stance_mm"] = max(values["longest_stance_mm"], values["shortest_stance_mm"])
    some = draw(st.lists(entries(), max_size=4))
    parts = Parts(draw(st.text()), tuple(some), turns_with_binding=draw(st.booleans()), **values)
    try:
        model(parts)
    except ValueError:
        assume(False)
    return parts
