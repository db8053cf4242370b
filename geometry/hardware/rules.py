"""By what the stances in a search are judged."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.boots import Boots
from geometry.crouch import Crouch
from geometry.fitting.answer import DEPTHS, Mounts, Terms
from geometry.hardware.order import NOTHING, steps_up
from geometry.hardware.wishes import Wishes, wishes_for
from geometry.posture import PostureInputs, solve
from geometry.stance import Mount, Stance

AT_ONCE = 16_384
"""Postures solved in one go: as many as stay in the processor's cache."""


class Judged(NamedTuple):
    """What the legs do over the riding bend, hips straight, in each of n stances.

    Attributes:
        boot_past: how far the front and the rear boot are past their range at its
            middle (rad), shape (2, n).
        off_plane: how far each knee leaves its plane at worst, whatever the sign (rad).
        off_rest: how far each boot is from rest at the middle, whatever the sign (rad).
        allowed: whether postures settle where they have to, shape (n,).
    """

    boot_past: NDArray[Any]
    off_plane: NDArray[Any]
    off_rest: NDArray[Any]
    allowed: NDArray[np.bool_]


@dataclass(frozen=True, eq=False, slots=True)
class Rules:
    """A rider and the riding bend.

    Attributes:
        rider: in the present stance, hips straight, single values all.
        terms: the riding bend, and what is allowed.
        depths: of the bend, its middle last, shape (depths + 1,).
        needed: at which of them a posture has to settle.
        held: lifts and cants known otherwise, for a single stance; None where none are.
    """

    rider: PostureInputs
    terms: Terms
    depths: NDArray[Any]
    needed: NDArray[np.bool_]
    held: Mounts | None = None

    @property
    def middle(self) -> Crouch:
        """The rider at the middle of the riding bend."""
        return replace(self.rider.crouch, knee_bend=self.terms.middle)

    def wishes(self, stances: Stance) -> Wishes:
        """The answers for stances, arrays of shape (n,)."""
        return wishes_for(self.rider, stances, self.terms, self.held)

    def judged(self, stances: Stance) -> Judged:
        """What the legs do in stances, arrays of shape (n,) or single values."""
        whole = _level(stances)
        many, at_once = np.size(whole.length), AT_ONCE // len(self.depths)
        blocks = [
            self._block(_some_of(whole, slice(start, start + at_once)))
            for start in range(0, max(many, 1), at_once)
        ]
        return Judged(*(np.concatenate(each, axis=-1) for each in zip(*blocks, strict=True)))

    def _block(self, stances: Stance) -> Judged:
        crouch = replace(self.rider.crouch, knee_bend=self.depths)
        spread = _some_of(stances, (slice(None), np.newaxis))
        posture = solve(self.rider.body, self.rider.boots, spread, crouch)
        off_plane = np.abs(np.array([leg.off_plane for leg in posture.legs]))
        flex = np.array([np.asarray(leg.boot_flex)[:, -1] for leg in posture.legs])
        lean, reach = _lean_and_reach(self.rider.boots)
        off_rest = np.abs(flex - lean)
        allowed = np.all(np.asarray(posture.exists)[:, self.needed], axis=1)
        worst = np.fmax.reduce(off_plane[..., :-1], axis=-1)
        return Judged(np.maximum(off_rest - reach, 0.0), worst, off_rest, np.asarray(allowed))

    def boots_past(self, off_rest: NDArray[Any]) -> NDArray[np.int64]:
        """How far boots this far from rest are past their range, front and rear first, in steps."""
        reach = _lean_and_reach(self.rider.boots)[1].reshape(2, *(1,) * (off_rest.ndim - 1))
        return np.asarray(steps_up(off_rest - reach).sum(axis=0))

    def out_of_plane(self, off_plane: NDArray[Any]) -> NDArray[np.int64]:
        """How far knees are out of plane, front and rear first, in steps added up."""
        in_plane = off_plane <= self.terms.in_plane + NOTHING
        return np.asarray(steps_up(np.where(in_plane, 0.0, off_plane)).sum(axis=0))


def _level(stance: Stance) -> Stance:
    """The stances, every field an array of the same shape, of one element at least."""
    front, rear = stance.front, stance.rear
    angles = front.angle, front.lift, front.cant, rear.angle, rear.lift, rear.cant
    whole = np.broadcast_arrays(np.zeros(1), *angles, stance.length, stance.across)
    return Stance(Mount(*whole[1:4]), Mount(*whole[4:7]), *whole[7:])


def _some_of(stances: Stance, which: Any) -> Stance:
    """Some of an array of stances whose fields are :func:`_level`, by index, slice or mask."""

    def some(value: Any) -> Any:
        return value[which]

    def mount(whole: Mount) -> Mount:
        return Mount(some(whole.angle), some(whole.lift), some(whole.cant))

    return Stance(
        mount(stances.front), mount(stances.rear), some(stances.length), some(stances.across)
    )


def _lean_and_reach(boots: Boots) -> tuple[NDArray[Any], NDArray[Any]]:
    """Forward lean and flex range of both boots (rad), each of shape (2, 1)."""
    lean, reach = (
        np.array([[float(getattr(boot, name))] for boot in boots.both])
        for name in ("forward_lean", "flex_range")
    )
    return lean, reach


def rules_of(setup: PostureInputs, terms: Terms, held: Mounts | None = None) -> Rules:
    """The rules for a rider: hips straight, and no posture lost that the present stance has.

    A stance has to settle at the middle of the riding bend, and deeper wherever the
    present one does.
    """
    rider = setup._replace(crouch=replace(setup.crouch, hips_turned=0.0))
    depths = np.append(np.linspace(terms.bend_from, terms.bend_to, DEPTHS), terms.middle)
    present = solve(rider.body, rider.boots, rider.stance, replace(rider.crouch, knee_bend=depths))
    needed = np.asarray(present.exists) & (depths >= terms.middle)
    needed[-1] = True
    return Rules(rider, terms, depths, needed, held)
