"""Colours and line widths, in one place: each role of a mark has its style here.

Two cool hues tell the legs apart, a dark and a lighter one, so that tone alone
does it too; the one warm hue is kept for what needs attention.  Text colours
reach a contrast of 4.5 to 1 on their paper as rendered, where thin letters come out
paler than their colour; line colours and the edges of controls 3 to 1.  The themes of
high contrast reach 7 to 1 and 4.5 to 1.

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
        rule: separators, which nobody has to see.
        edge: edges of fields, of buttons and of the grooves of sliders.
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
    edge: str
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
    edge="#6f7a86",
    ink="#17202b",
    quiet="#434e5a",
    faint="#9aa5b1",
    front="#1b3a8c",
    front_text="#1b3a8c",
    rear="#11808f",
    rear_text="#0a616d",
    accent="#e0470c",
    accent_text="#a83008",
)

DARK: Final = Theme(
    dark=True,
    paper="#10161d",
    panel="#182029",
    field="#0b1016",
    rule="#35414e",
    edge="#6f7d8b",
    ink="#e7ecf2",
    quiet="#aebac7",
    faint="#5f6d7b",
    front="#a9c1ff",
    front_text="#b9ccff",
    rear="#22a7b8",
    rear_text="#4cc3d2",
    accent="#ff7a3d",
    accent_text="#ff9a6b",
)

CONTRAST: Final = Theme(
    dark=False,
    paper="#ffffff",
    panel="#ffffff",
    field="#ffffff",
    rule="#6b6b6b",
    edge="#000000",
    ink="#000000",
    quiet="#262626",
    faint="#6b6b6b",
    front="#00326b",
    front_text="#00326b",
    rear="#006f7d",
    rear_text="#00535e",
    accent="#b03a00",
    accent_text="#8a2c00",
)

CONTRAST_DARK: Final = Theme(
    dark=True,
    paper="#000000",
    panel="#000000",
    field="#000000",
    rule="#9a9a9a",
    edge="#ffffff",
    ink="#ffffff",
    quiet="#dedede",
    faint="#9a9a9a",
    front="#c3d5ff",
    front_text="#d3e0ff",
    rear="#2fc4d6",
    rear_text="#6fdbe8",
    accent="#ff9a4d",
    accent_text="#ffb27a",
)

BY_NAME: Final = {
    "light": LIGHT,
    "dark": DARK,
    "contrast": CONTRAST,
    "contrast_dark": CONTRAST_DARK,
}
"""The themes by the names that they have among the settings."""


def name_of(theme: Theme) -> str:
    """The name of a theme among the settings."""
    return next(name for name, each in BY_NAME.items() if each == theme)


def turned(theme: Theme) -> Theme:
    """The theme of as much contrast on dark paper, or on light where it is dark already."""
    pairs = ((LIGHT, DARK), (CONTRAST, CONTRAST_DARK))
    return next(pair[not theme.dark] for pair in pairs if theme in pair)


def mixed(colour: str, paper: str, share: float) -> str:
    """A colour thinned with paper: ``share`` of it, opaque."""
    parts = zip(bytes.fromhex(colour[1:]), bytes.fromhex(paper[1:]), strict=True)
    return "#" + "".join(f"{round(share * a + (1.0 - share) * b):02x}" for a, b in parts)


def printed(theme: Theme) -> Theme:
    """The theme for pictures that leave the program: its own paper made white."""
    return theme if theme.dark else replace(theme, paper="#ffffff")
