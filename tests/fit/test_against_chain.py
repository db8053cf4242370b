"""Cants and lifts against a root-finder on a physics engine's hinge chain.

The engine is MuJoCo, the root-finder scipy's; neither knows the package's
closed forms, and the package's solver is not asked where to start.
"""

from __future__ import annotations

import math

import pytest
from fit_chain import Chain
from fit_riders import random_setups

from geometry.fitting.inputs import Setup
from geometry.fitting.smallest_mounts import smallest_cants, smallest_lift

RIDERS = random_setups(100, seed=20240201)
CLOSE = math.radians(0.01)


def _flat(setup: Setup, held: float, cants: bool) -> list[dict[str, float]]:
    mounts = setup.stance.front, setup.stance.rear
    return [
        {"lift": m.lift, "cant": m.cant * cants, "lean": held, "off": 0.0, "flex": 0.0}
        for m in mounts
    ]


def cants_by_chain(setup: Setup, allowance: float) -> list[float]:
    """Cants of both feet: flat where the lean stays within the allowance, else as needed."""
    chain = Chain(setup)
    held = chain.held()
    free, fixed = ["lean", "lean"], _flat(setup, held, cants=False)
    for _ in range(4):
        legs = chain.closed(tuple(free), fixed)
        beyond = [i for i in (0, 1) if abs(legs[i]["lean"] - held) > allowance + 1e-12]
        if not beyond:
            return [leg["cant"] for leg in legs]
        for i in beyond:
            free[i] = "cant"
            fixed[i]["lean"] = held + math.copysign(allowance, legs[i]["lean"] - held)
    raise ArithmeticError("the legs do not agree on who needs a cant")


def legs_by_chain(setup: Setup, lift_to: float | None) -> list[dict[str, float]]:
    """Both legs on their cants, without lift or with the lift that gives the front boot a flex."""
    chain = Chain(setup)
    held, give = chain.held(), setup.boots.side_give
    free, fixed = ["lean", "lean"], _flat(setup, held, cants=True)
    for leg in fixed:
        leg["lift"] = 0.0
    fixed[0]["flex"] = lift_to if lift_to is not None else 0.0
    for _ in range(6):
        legs = chain.closed(tuple(free), fixed, lift=lift_to is not None)
        beyond = [i for i in (0, 1) if abs(legs[i]["lean"] - held) > give + 1e-12]
        wrong = [i for i in (0, 1) if legs[i]["off"] * (legs[i]["lean"] - held) > 1e-12]
        if not beyond and not wrong:
            return legs
        for i in beyond:
            free[i] = "off"
            fixed[i]["lean"] = held + math.copysign(give, legs[i]["lean"] - held)
        for i in wrong:
            free[i], fixed[i]["off"] = "lean", 0.0
    raise ArithmeticError("the legs do not agree on who leaves the plane")


def lift_by_chain(setup: Setup, allowance: float) -> float:
    """Toe lift in front, heel lift behind, that leaves the boots an allowance off rest."""
    rest = setup.boots.forward_lean
    off_rest = legs_by_chain(setup, None)[0]["flex"] - rest
    left = min(max(off_rest, -allowance), allowance)
    return 0.0 if left == off_rest else legs_by_chain(setup, rest + left)[0]["lift"]


@pytest.mark.parametrize("share", [0.0, 1.0], ids=["full", "least"])
def test_cants_of_a_hundred_riders_agree_with_the_chain(share: float) -> None:
    for setup in RIDERS:
        allowance = share * setup.boots.side_give
        ours = smallest_cants(*setup, allowance)
        assert [ours.front, ours.rear] == pytest.approx(cants_by_chain(setup, allowance), abs=CLOSE)


@pytest.mark.parametrize("share", [0.0, 1.0], ids=["full", "least"])
def test_lifts_of_a_hundred_riders_agree_with_the_chain(share: float) -> None:
    for setup in RIDERS:
        allowance = share * setup.boots.flex_range
        ours = smallest_lift(*setup, allowance)
        assert ours == pytest.approx(lift_by_chain(setup, allowance), abs=CLOSE)


def test_the_hundred_riders_are_a_mixed_lot() -> None:
    least = [smallest_cants(*setup, setup.boots.side_give).front for setup in RIDERS]
    assert sum(cant == 0.0 for cant in least) > 10
    assert sum(cant > 0.0 for cant in least) > 10
    assert sum(cant < 0.0 for cant in least) > 10
