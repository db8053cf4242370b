"""Pictures put together to a file that moves: GIF, animated WebP, or animated PNG.

All pictures of a clip share one set of inks, so that nothing flickers, and what stays the same
from one picture to the next takes no room.  Pillow writes the files; it is loaded only here.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any, Final, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Pixels: TypeAlias = NDArray[np.uint8]
"""Red, green and blue by row and column."""
Colour: TypeAlias = tuple[int, int, int]
"""Red, green and blue, up to 255."""
Inked: TypeAlias = NDArray[np.uint8]
"""The number of the ink by row and column."""

INKS: Final = 240
"""Of a clip; a GIF has room for 256, and needs one for what stays the same."""
_LEVELS: Final = 32
"""Levels of each colour at which inks are told apart."""

_SETTINGS: Final[dict[str, dict[str, Any]]] = {
    # Pixels that stay the same become transparent, which packs well.
    ".gif": {"format": "GIF", "optimize": True, "disposal": 1, "interlace": 0},
    # Without key pictures between: a clip is looked at from its beginning.
    ".webp": {
        "format": "WEBP", "lossless": True, "quality": 20, "method": 2, "kmin": 0, "kmax": 0,
    },
    ".png": {"format": "PNG"},
}  # fmt: skip
ENDINGS: Final = tuple(_SETTINGS)
"""Of files that move, the one that opens anywhere first."""


class Inks(NamedTuple):
    """The inks of a clip.

    Attributes:
        palette: red, green and blue of each, one after another.
        nearest: the nearest ink to a colour by its three levels.
    """

    palette: tuple[int, ...]
    nearest: Inked


def inks_of(samples: Sequence[Pixels], flat: Sequence[Colour]) -> Inks:
    """The inks that suit some pictures.

    Args:
        samples: pictures of the clip.
        flat: colours in which whole areas, lines and words stand: each is an ink of its own,
            so that it is never a shade off. The last is the most important one.
    """
    whole = Image.fromarray(np.concatenate(samples))
    count = INKS - len(flat)
    chosen = whole.quantize(count, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
    palette = list(chosen.getpalette() or ())
    first = len(palette) // 3
    palette += [level for colour in flat for level in colour]
    holder = Image.new("P", (1, 1))
    holder.putpalette(palette)
    levels = np.arange(_LEVELS) * 255 // (_LEVELS - 1)
    cube = np.stack(np.meshgrid(levels, levels, levels, indexing="ij"), axis=-1)
    colours = Image.fromarray(cube.reshape(_LEVELS, -1, 3).astype(np.uint8))
    nearest = np.array(colours.quantize(palette=holder, dither=Image.Dither.NONE)).ravel()
    for place, (red, green, blue) in enumerate(flat):
        nearest[(red >> 3 << 10) | (green >> 3 << 5) | blue >> 3] = first + place
    return Inks(tuple(palette), nearest)


def inked(pixels: Pixels, inks: Inks) -> Inked:
    """A picture in the inks of its clip."""
    red, green, blue = (pixels[..., i].astype(np.uint16) >> 3 for i in range(3))
    picture: Inked = inks.nearest[(red << 10) | (green << 5) | blue]
    return picture


def encoded(
    ending: str, pictures: Sequence[Inked], inks: Inks, durations_ms: Sequence[int]
) -> bytes:
    """A clip as the bytes of a file, that begins anew when it is over.

    Args:
        ending: of the file, one of :data:`ENDINGS`.
        pictures: no two alike one after another, or they would become one.
        inks: of all pictures.
        durations_ms: how long each picture is there.
    """
    images = [Image.fromarray(picture) for picture in pictures]
    for image in images:
        image.putpalette(inks.palette)
    first, *rest = images
    file = io.BytesIO()
    first.save(
        file,
        save_all=True,
        append_images=rest,
        duration=list(durations_ms),
        loop=0,
        **_SETTINGS[ending],
    )
    return file.getvalue()


class Alike(NamedTuple):
    """Pictures of a clip that differ about as much from the ones before them.

    Attributes:
        times: how many there are.
        pairs: some of them, each with the one before it.
    """

    times: int
    pairs: Sequence[tuple[Inked, Inked]]


def foretold(ending: str, first: Inked, groups: Sequence[Alike], inks: Inks) -> int:
    """About how large a clip will be (bytes).

    Args:
        ending: of the file.
        first: the first picture.
        groups: all the others.
        inks: of all pictures.
    """
    size = float(len(encoded(ending, (first,), inks, (50,))))
    for times, pairs in groups:
        alone = sum(len(encoded(ending, pair[:1], inks, (50,))) for pair in pairs)
        both = sum(len(encoded(ending, pair, inks, (50, 50))) for pair in pairs)
        size += times * (both - alone) / len(pairs)
    return round(size)
