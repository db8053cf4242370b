"""Where the files are that come with the program.

In a checkout ``assets`` and ``shared`` stand beside the package ``app``; in an
installed wheel they stand inside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from app.words.language import msgid


@dataclass(frozen=True, slots=True)
class StartingPoint:
    """A set-up or a parts list to start from.

    Attributes:
        title: what the menu calls it, in English; translated where it is shown.
        path: its file.
    """

    title: str
    path: Path


def root_of(package: Path) -> Path:
    """The folder that holds ``assets`` and ``shared`` for the package ``app`` in a folder."""
    return package if (package / "assets").is_dir() else package.parent


ROOT: Final = root_of(Path(__file__).resolve().parent.parent)
ASSETS: Final = ROOT / "assets"
SHARED: Final = ROOT / "shared"

_STARTING_POINTS: Final = (
    (msgid("Hard boots"), "hard-boots.json"),
    (msgid("Soft boots, both feet forward"), "soft-boots-forward.json"),
    (msgid("Soft boots, duck"), "soft-boots-duck.json"),
    (msgid("In-line on a narrow board"), "in-line.json"),
    (msgid("Monoski"), "monoski.json"),
    (msgid("Neutral stance"), "neutral.json"),
)

_PARTS_LISTS: Final = (
    (msgid("Round wedges"), "parts-round-wedges.json"),
    (msgid("Fixed slopes"), "parts-fixed-slopes.json"),
    (msgid("Discs screwed to the board"), "parts-board-discs.json"),
    (msgid("No parts"), "parts-none.json"),
)

_LESSONS: Final = (
    "natural-spacing.json",
    "wide-stance.json",
    "no-cant-needed.json",
    "inward-outward.json",
    "lift-and-boots.json",
    "one-depth-only.json",
)


OUR_LESSONS: Final = tuple(name.removesuffix(".json") for name in _LESSONS)
"""The names of the lessons of ours, in their order."""


def lessons() -> tuple[Path, ...]:
    """The lessons in their order; each file holds its titles."""
    return tuple(SHARED / "lessons" / name for name in _LESSONS)


def starting_points() -> tuple[StartingPoint, ...]:
    """The starting points in the order of the menu, the demo rider first."""
    return tuple(StartingPoint(title, SHARED / name) for title, name in _STARTING_POINTS)


def parts_lists() -> tuple[StartingPoint, ...]:
    """The parts lists to start from, in the order of the menu."""
    return tuple(StartingPoint(title, SHARED / name) for title, name in _PARTS_LISTS)
