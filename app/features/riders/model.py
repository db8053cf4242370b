"""Several riders: the set-ups in a folder, each with the state of its knees at a glance."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from app.files.file_kinds import PICTURE_SUFFIX, OtherKindError
from app.files.safe_files import FileError
from app.files.storage import opened
from app.stance.findings import NO_POSTURE, STATES, Limits, findings_of, state_words
from app.stance.settled import settled
from app.words.language import msgid, tr
from app.words.units import fixed


def is_picture_name(path: Path) -> bool:
    """Whether a file is called as pictures are."""
    return path.suffix.lower() == PICTURE_SUFFIX


UNREADABLE: Final = msgid("not readable")


@dataclass(frozen=True, slots=True)
class Rider:
    """One set-up file at a glance.

    Attributes:
        path: the file.
        name: what the set-up is called; the file's name where it cannot be read.
        state: of the worse knee, one of :data:`app.stance.findings.STATES`, or
            :data:`UNREADABLE`.
        worst_deg: how far that knee is off its plane, without sign; 0 where there
            is no figure.
        legs: front and rear leg in words.
        changed: when the file was last written (seconds since 1970).
        notes: whatever was written about the set-up.
        problem: why it cannot be read; empty for one that can.
        is_none: whether it is no set-up at all, but a picture or another kind of file.
    """

    path: Path
    name: str
    state: str
    worst_deg: float = 0.0
    legs: tuple[str, str] = ("", "")
    changed: float = 0.0
    notes: str = ""
    problem: str = ""
    is_none: bool = False

    @property
    def file(self) -> str:
        """What the file is called, and that it is a picture where it is one."""
        name = self.path.name
        return tr("{file}, a picture", file=name) if is_picture_name(self.path) else name

    @property
    def severity(self) -> tuple[int, float]:
        """What to sort by: the higher, the sooner it should be looked at."""
        if self.state not in STATES:
            return -1, 0.0
        return STATES.index(self.state), self.worst_deg

    @property
    def glance(self) -> str:
        """The worse knee in a few words: "8.5° out of plane"."""
        if self.state in {NO_POSTURE, UNREADABLE}:
            return state_words(self.state) if self.state in STATES else tr(self.state)
        angle = f"{fixed(self.worst_deg, 1)}°"
        return tr("{angle} {state}", angle=angle, state=state_words(self.state))


def listed(path: Path, limits: Limits) -> Rider | None:
    """A file at a glance; None for one that is no set-up at all.

    Pictures without one, and files of ours of another kind, are not a rider's; what is
    damaged may be one.
    """
    rider = rider_in(path, limits)
    return None if rider.is_none else rider


def rider_in(path: Path, limits: Limits) -> Rider:
    """A set-up file at a glance, readable or not."""
    try:
        changed = path.stat().st_mtime
        setup = opened(path).setup
        legs = findings_of(settled(setup.inputs), limits).legs
    except (FileError, OSError, ValueError) as error:
        other = is_picture_name(path) or isinstance(error.__cause__, OtherKindError)
        return Rider(path, path.stem, UNREADABLE, problem=str(error), is_none=other)
    worse = max(legs.values(), key=lambda leg: (STATES.index(leg.state), abs(leg.off_plane_deg)))
    off = 0.0 if worse.state == NO_POSTURE else abs(worse.off_plane_deg)
    words = (legs["front"].spoken, legs["rear"].spoken)
    name = setup.called or path.stem
    return Rider(path, name, worse.state, off, words, changed, setup.notes)


def matches(rider: Rider, typed: str) -> bool:
    """Whether a rider has all the words typed, each anywhere in their row or their notes."""
    shown = " ".join((rider.name, rider.file, rider.glance, *rider.legs, rider.notes))
    shown = shown.casefold()
    return all(word in shown for word in typed.casefold().split())
