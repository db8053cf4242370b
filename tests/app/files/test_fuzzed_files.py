"""Files spoilt at random are taken or refused in one line; tests/fuzz.py does it for longer."""

from __future__ import annotations

import re
from random import Random

import pytest
from fuzz_mutations import mutated
from fuzz_targets import TARGETS, outcome, seeds

INPUTS = 1000
FIGURES = re.compile(r"[\d.,+-]+(e[+-]?\d+)?|\".*\"")


@pytest.mark.parametrize("target", TARGETS)
def test_spoilt_files_are_taken_and_come_back_or_are_refused_in_one_line(target):
    random, pool = Random(11), seeds(target)
    answers = {outcome(target, each) for each in pool}
    assert answers == {""}, "a sound file is refused"
    for _ in range(INPUTS):
        data = mutated(random.choice(pool), random)
        kind = FIGURES.sub("", outcome(target, data))
        # What leads to an answer that none led to before leads to others.
        if kind not in answers:
            answers.add(kind)
            pool.append(data)
    # Settings are taken one by one, and only the JSON can be refused.
    assert len(answers) > (2 if target == "settings" else 20)
