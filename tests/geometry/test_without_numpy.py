"""A single stance needs no numpy, which takes longer to load than to solve a thousand."""

from __future__ import annotations

import subprocess
import sys

import pytest

SOLVED = """
import sys
from geometry import Body, Boots, Crouch, Mount, Stance, solve
from geometry.riders.bodies import KnownLengths, estimated_body
legs = dict(hip_height=880.0, knee_height=490.0, ankle_height=70.0, foot_length=255.0)
body = Body.equal(**legs, hip_spacing=170.0, neutral_spacing=260.0)
boots = Boots.equal(sole_thickness=25.0, forward_lean=0.3, flex_range=0.26, side_give=0.07)
stance = Stance(Mount(0.75), Mount({rear}), 505.0)
posture = solve(body, boots, stance, Crouch(0.8))
said = posture.exists, posture.front_share, posture.mass_centre
estimated_body(KnownLengths(1750.0))
print("numpy" in sys.modules)
"""


@pytest.mark.parametrize(
    ("rear", "loaded"), [("0.66", "False"), ("__import__('numpy').zeros(2)", "True")]
)
def test_numpy_is_loaded_when_an_array_first_comes(rear: str, loaded: str) -> None:
    command = [sys.executable, "-c", SOLVED.format(rear=rear)]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    assert run.stdout.strip() == loaded
