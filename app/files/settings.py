"""What the program remembers between starts, and that no broken file can spoil.

The settings are one JSON file, read by the same strict reader as set-ups and
written whole or not at all.  Each entry stands for itself: one that is missing,
of the wrong kind or out of its range falls back to its default and leaves the
others alone.  A settings file is never a reason not to start.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, Final

from app.files.records import Reader, Record, number, one_of, text, truth, whole_number
from app.files.safe_files import FileError, RefusalError, contents, write_atomically
from app.files.strict_json import parsed, written
from app.files.user_folders import settings_file, users_folder
from app.stance.findings import USUAL_LIMITS, Limits
from app.words.language import NAMES
from app.words.units import LENGTH_UNITS

THEMES: Final = ("system", "light", "dark", "contrast", "contrast_dark")
"""As the desktop, or one of the program's own."""
MOTIONS: Final = ("system", "reduced")
"""Whether things may start to move by themselves: as the desktop has it, or never."""
LANGUAGES: Final = ("system", *NAMES)
"""The desktop's language, or one that the program speaks."""
PICTURES: Final = ("ask", "whole", "stance")
"""What pictures carry: not chosen yet, the whole set-up, or the stance without its rider."""
TEXT_PERCENT: Final = (80, 200)
"""Range of the size of letters, in percent of the usual one."""
LEAST_LIMIT, LARGEST_LIMIT = 0.1, 20.0
"""Range of both limits on the off-plane angle (degrees)."""
MOST_RECENT: Final = 8
"""How many files the menu of recent ones holds."""
_FARTHEST: Final = 100_000
"""No screen has as many pixels from its edge."""


@dataclass(frozen=True, slots=True)
class WindowPlace:
    """Where a window stands on the desktop, in logical pixels."""

    x: int
    y: int
    width: int
    height: int
    maximised: bool = False


@dataclass(frozen=True, slots=True)
class Settings:
    """What the user chose, and where they left off.

    Attributes:
        unit: of lengths, one of :data:`app.words.units.LENGTH_UNITS`.
        theme: one of :data:`THEMES`.
        language: one of :data:`LANGUAGES`.
        text_percent: size of letters, in percent of the usual one.
        motion: one of :data:`MOTIONS`.
        limits: where a knee counts as drifting and as out of plane.
        folder: last used for set-ups; empty for none yet.
        recent: set-up files, the latest first.
        place: of the window when it was closed.
        page_height: of the pages under the drawings (logical px).
        welcomed: whether somebody has answered who is riding.
        pictures: what they carry, one of :data:`PICTURES`.
    """

    unit: str = "mm"
    theme: str = "system"
    language: str = "system"
    text_percent: int = 100
    motion: str = "system"
    limits: Limits = USUAL_LIMITS
    folder: str = ""
    recent: tuple[str, ...] = ()
    place: WindowPlace | None = None
    page_height: int = 312
    welcomed: bool = False
    pictures: str = "ask"


class SettingsStore:
    """The settings in force and their file; every change is written at once.

    Args:
        path: the file.  A file that cannot be read or written costs nothing but
            the memory of the settings.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.now = read_settings(path)

    @property
    def folder(self) -> str:
        """Where to look for files first: the last folder, or the user's own where it has gone."""
        return self.now.folder if Path(self.now.folder or "?").is_dir() else str(users_folder())

    def change(self, **changes: Any) -> None:
        """Change settings by name and remember them."""
        self.now = replace(self.now, **changes)
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            write_atomically(self.path, written(_as_json(self.now)))
        except (FileError, OSError):
            return  # they hold until the program ends

    def used(self, path: Path) -> None:
        """Remember a set-up file as the latest, and its folder."""
        name = str(path.absolute())
        # Another window may have added to them meanwhile.
        recent = read_settings(self.path).recent or self.now.recent
        others = (each for each in recent if each != name)
        self.change(recent=(name, *others)[:MOST_RECENT], folder=str(path.absolute().parent))

    def forget(self, path: str) -> None:
        """Take a file out of the recent ones."""
        self.change(recent=tuple(each for each in self.now.recent if each != path))


def create_settings() -> SettingsStore:
    """The user's settings: the one place that says where they are."""
    return SettingsStore(settings_file())


def read_settings(path: Path) -> Settings:
    """The settings in a file, with the default of each that cannot be taken."""
    try:
        raw = parsed(contents(path))
    except (FileError, RefusalError):
        return Settings()
    if not isinstance(raw, dict):
        return Settings()
    return Settings(**dict(_sound(raw)))


def _sound(raw: dict[str, Any]) -> Iterator[tuple[str, Any]]:
    """The settings that can be taken, each by itself."""
    for name in raw.keys() & _READERS.keys():
        with suppress(RefusalError):
            yield name, _READERS[name](name, raw[name])


def _ordered_limits(**values: float) -> Limits:
    limits = Limits(**values)
    if limits.in_plane_deg > limits.drifting_deg:
        raise RefusalError("a knee cannot be out of plane before it drifts")
    return limits


def _recent(name: str, value: Any) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise RefusalError(f"{name} is no list")
    return tuple(each for each in value if isinstance(each, str) and each)[:MOST_RECENT]


_LIMITS: Final = {
    "in_plane_deg": number(LEAST_LIMIT, LARGEST_LIMIT),
    "drifting_deg": number(LEAST_LIMIT, LARGEST_LIMIT),
}
_PLACE: Final = {
    "x": whole_number(-_FARTHEST, _FARTHEST),
    "y": whole_number(-_FARTHEST, _FARTHEST),
    "width": whole_number(1, _FARTHEST),
    "height": whole_number(1, _FARTHEST),
    "maximised": truth,
}
_READERS: Final[dict[str, Reader]] = {
    "unit": one_of(LENGTH_UNITS),
    "theme": one_of(THEMES),
    "language": one_of(LANGUAGES),
    "text_percent": whole_number(*TEXT_PERCENT),
    "motion": one_of(MOTIONS),
    "limits": Record(_ordered_limits, _LIMITS, required=_LIMITS),
    "folder": text,
    "recent": _recent,
    "welcomed": truth,
    "pictures": one_of(PICTURES),
    "page_height": whole_number(1, _FARTHEST),
    "place": Record(WindowPlace, _PLACE, required=_PLACE),
}


def _as_json(settings: Settings) -> dict[str, Any]:
    whole = asdict(settings)
    if settings.place is None:
        del whole["place"]
    return whole
