"""Kits for several set-ups: the fewest parts, as by going through everything."""

from __future__ import annotations

import math
from itertools import product

import pytest
from by_hand import every_pair
from parts_riders import across, along, parts_of, rider, turnable, uneven
from refused import refused

from geometry.fitting.answer import USUAL_TERMS
from geometry.hardware.kits import Asking, Kit, kits_for
from geometry.hardware.parts import PartsList
from geometry.posture import PostureInputs

ROUND = parts_of(turnable(3.0, step=45.0), turnable(6.0, step=45.0, count=3), stack=1)
FIXED = parts_of(along(3.0), across(2.0), across(4.0, count=1), stack=2)
ACROSS_AND_DUCK = (rider(0.0, 0.0), rider(15.0, -15.0))
FORWARD_TOO = (rider(15.0, -15.0), rider(60.0, 60.0))


def kits(setups: tuple[PostureInputs, ...], parts: PartsList, **options: object) -> tuple[Kit, ...]:
    asking = [Asking(setup, USUAL_TERMS) for setup in setups]
    return kits_for(asking, parts, **options)  # type: ignore[arg-type]


def fewest_by_hand(setups: tuple[PostureInputs, ...], parts: PartsList) -> int:
    """The fewest parts of which each set-up can make what does it as much good as any."""
    served = []
    for setup in setups:
        ways: dict[tuple[int, ...], tuple[float, ...]] = {}
        for pair in every_pair(setup, parts, setup.stance):
            used = [part for part, _ in pair.front + pair.rear]
            counts = tuple(used.count(part) for part in parts.parts)
            ways[counts] = min(ways.get(counts, (math.inf,)), pair.rank[:3])
        best = min(ways.values())
        served.append([counts for counts, rank in ways.items() if rank == best])
    return min(
        sum(kit)
        for kit in product(*(range(part.count + 1) for part in parts.parts))
        if all(any(all(map(int.__le__, way, kit)) for way in ways) for ways in served)
    )


@pytest.mark.parametrize(
    ("setups", "parts"),
    [
        (ACROSS_AND_DUCK, ROUND),
        (FORWARD_TOO, ROUND),
        ((rider(0.0, 0.0), rider(60.0, 60.0)), ROUND),
        ((rider(30.0, 15.0), uneven()), ROUND),
        ((rider(15.0, -15.0),), FIXED),
    ],
)
def test_the_first_kit_has_as_few_parts_as_any_that_serves_all(
    setups: tuple[PostureInputs, ...], parts: PartsList
) -> None:
    assert sum(kits(setups, parts)[0].counts) == fewest_by_hand(setups, parts)


def test_every_set_up_is_built_of_the_kit_alone() -> None:
    for kit in kits(FORWARD_TOO, ROUND):
        for combination in kit.combinations:
            used = [s.part for foot in (combination.front, combination.rear) for s in foot.settings]
            assert all(
                used.count(part) <= count
                for part, count in zip(ROUND.parts, kit.counts, strict=True)
            )


def test_what_is_there_need_not_be_got() -> None:
    owned = kits(ACROSS_AND_DUCK, ROUND, owned=(0, 2))[0]
    assert owned.to_get == (0, 0)
    assert owned.counts == (0, 2)
    nothing = kits(ACROSS_AND_DUCK, ROUND, owned=(0, 0))[0]
    assert nothing.to_get == nothing.counts


def test_a_rider_who_stands_well_on_flat_soles_needs_no_kit() -> None:
    narrow = rider(30.0, 30.0)
    narrow = narrow._replace(stance=type(narrow.stance)(*_mounts(narrow), 380.0))
    assert sum(kits((narrow,), ROUND)[0].counts) == 0


def test_where_one_set_up_has_no_posture_no_kit_serves_all() -> None:
    far = rider()
    far = far._replace(stance=type(far.stance)(*_mounts(far), 1900.0))
    assert kits((rider(), far), ROUND) == ()


def test_more_choices_than_can_be_compared_are_refused_in_words() -> None:
    many = parts_of(*(across(0.5 + 0.25 * i) for i in range(24)), stack=2)
    with refused(r"there are [\d,]+ choices of parts, more than the 5,000 .* a lower stack"):
        kits((rider(),), many)


def _mounts(setup: PostureInputs) -> tuple[object, object]:
    return setup.stance.front, setup.stance.rear
