"""People of every size, by heights that were published, for the tests that go through them."""

from __future__ import annotations

# Hip, knee, ankle height and foot length, 5th, 50th and 95th percentile, mm.
# ANSUR II: Gordon et al. 2014, NATICK/TR-15/007, from its public data.
GROWN_UP = {
    "man 5": (824.0, 449.0, 64.0, 250.0),
    "man 50": (899.0, 491.0, 73.0, 271.0),
    "man 95": (985.0, 537.0, 83.0, 293.0),
    "woman 5": (774.0, 422.0, 54.0, 226.0),
    "woman 50": (844.0, 465.0, 63.0, 246.0),
    "woman 95": (919.0, 511.0, 71.0, 268.0),
}
# Stature 1328 and 1315 mm (Fredriks et al. 2000, Pediatr Res 47:316-323); heights by
# the segment ratios of Drillis & Contini 1966 (Winter, Biomechanics and Motor Control
# of Human Movement, 4th ed. 2009, Fig. 4.1), hip 0.530, knee 0.285, ankle 0.039 and
# foot 0.152 of stature.
EIGHT = {"boy of 8": (703.8, 378.5, 51.8, 201.9), "girl of 8": (697.0, 374.8, 51.3, 199.9)}
PEOPLE = {**GROWN_UP, **EIGHT}
