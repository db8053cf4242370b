"""Colours and line widths, in one place: each role of a mark has its style here.

Two cool hues tell the legs apart, a dark and a lighter one, so that tone alone
does it too; the one warm hue is kept for what needs attention.  Text colours
reach a contrast of 4.5 to 1 on their paper, line colours 3 to 1.

Widths follow the technical drawing: a thin line for dimensions, axes and
projection, twice that for outlines, and limbs heavier than either.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

FONT_FAMILY: Final = "Kneeline Drafting"

THIN: Final = 1.0
THICK: Final = 2.0
HEAVY: Final = 4.0
"""Line widths in logical pixels, each twice the one before (ISO 128 widths
stand in the ratio 1 : 2)."""

SOLID: Final[tuple[float, ...]] = ()
DASHED: Final = (7.0, 3.5)
LONG_DASH_DOT: Final = (15.0, 3.5, 1.2, 3.5)
"""Dash patterns in logical pixels: hidden lines and centre lines of ISO 128."""


@dataclass(frozen=True, slots=True)
class Theme:
    """One set of colours, as "#rrggbb".

    Attributes:
        dark: whether light lines stand on dark paper.
        paper: of the drawing.
        panel: behind the controls.
        field: behind typed numbers.
        rule: frames and separators.
        ink: main text and the pelvis.
        quiet: secondary text.
        faint: grids and the board.
        front: lines of the front leg.
        front_text: words and numbers of the front leg.
        rear: lines of the rear leg.
        rear_text: words and numbers of the rear leg.
        accent: what to look at: the off-plane wedge and every flag.
        accent_text: words in the accent.
    """

    dark: bool
    paper: str
    panel: str
    field: str
    rule: str
    ink: str
    quiet: str
    faint: str
    front: str
    front_text: str
    rear: str
    rear_text: str
    accent: str
    accent_text: str

    def leg(self, side: str) -> str:
        """Line colour of the "front" or the "rear" leg."""
        return self.front if side == "front" else self.rear

    def leg_text(self, side: str) -> str:
        """Text colour of the "front" or the "rear" leg."""
        return self.front_text if side == "front" else self.rear_text


LIGHT: Final = Theme(
    dark=False,
    paper="#fbfcfd",
    panel="#eef1f4",
    field="#ffffff",
    rule="#c3cad3",
    ink="#17202b",
    quiet="#566270",
    faint="#9aa5b1",
    front="#1b3a8c",
    front_text="#1b3a8c",
    rear="#1493a3",
    rear_text="#0b6b78",
    accent="#e0470c",
    accent_text="#b8360a",
)

DARK: Final = Theme(
    dark=True,
    paper="#10161d",
    panel="#182029",
    field="#0b1016",
    rule="#35414e",
    ink="#e7ecf2",
    quiet="#a3b0be",
    faint="#5f6d7b",
    front="#a9c1ff",
    front_text="#b9ccff",
    rear="#22a7b8",
    rear_text="#4cc3d2",
    accent="#ff7a3d",
    accent_text="#ff9a6b",
)


def mixed(colour: str, paper: str, share: float) -> str:
    """A colour thinned with paper: ``share`` of it, opaque."""
    parts = zip(bytes.fromhex(colour[1:]), bytes.fromhex(paper[1:]), strict=True)
    return "#" + "".join(f"{round(share * a + (1.0 - share) * b):02x}" for a, b in parts)


def printed(theme: Theme) -> Theme:
    """The theme for pictures that leave the program: its own paper made white."""
    return theme if theme.dark else replace(theme, paper="#ffffff")
