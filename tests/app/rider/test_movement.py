"""Key postures of a movement, changed in a table."""

from __future__ import annotations

from dataclasses import replace

from app.rider.movement import (
    LEAST_GAP_S,
    MOST_POSTURES,
    NO_MOVEMENT,
    KeyPosture,
    Movement,
    time_range,
    with_one_more,
    with_posture,
    without,
)

OWN = Movement((KeyPosture(0.0), KeyPosture(1.0, 80.0), KeyPosture(2.0)))


def test_a_posture_stays_between_its_neighbours_in_time() -> None:
    assert time_range(OWN, 1) == (LEAST_GAP_S, 2.0 - LEAST_GAP_S)
    late = with_posture(OWN, 1, replace(OWN.postures[1], at_s=5.0))
    assert [each.at_s for each in late.postures] == [0.0, 1.9, 2.0]
    assert late.postures[1].knee_bend_deg == 80.0
    assert time_range(OWN, 0)[0] == 0.0
    assert time_range(OWN, 2)[1] == 60.0


def test_another_posture_comes_half_a_second_after_the_last_like_it() -> None:
    more = with_one_more(OWN)
    assert more.postures[:-1] == OWN.postures
    assert more.postures[-1] == replace(OWN.postures[-1], at_s=2.5)


def test_a_movement_takes_no_more_postures_than_a_file_holds_nor_beyond_the_last_second() -> None:
    long = NO_MOVEMENT
    for _ in range(MOST_POSTURES + 5):
        long = with_one_more(long)
    assert len(long.postures) == MOST_POSTURES
    last = Movement((KeyPosture(0.0), KeyPosture(60.0)))
    assert with_one_more(last) == last


def test_two_postures_are_the_fewest_that_are_left() -> None:
    assert without(OWN, 1).postures == (OWN.postures[0], OWN.postures[2])
    assert without(without(OWN, 1), 0) == without(OWN, 1)


def test_a_movement_lasts_from_its_first_posture_to_its_last() -> None:
    assert OWN.seconds == 2.0
    assert NO_MOVEMENT.seconds == 0.0
