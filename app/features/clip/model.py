"""What a clip shows, picture by picture: moments, times, words, and drawings at one scale.

    film = film_of(setup, Sweep("front_angle_deg", 30.0, 60.0), Extras(seconds=4.0))
    strip = strip_of(film, draw)  # what stands on each picture

Each picture of such a clip is one moment and is there for the same time as any other, to
within the hundredth of a second that a GIF can tell.  A :class:`Strip` of something else may
hold its pictures as long as they take to be read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Final, NamedTuple

from app.drawing.marks import Window
from app.features.player.frames import Course, Moment, moments
from app.features.player.model import Played, Sweep, course_of, seconds_of
from app.features.player.scene import backdrop_of, dressed
from app.frame import Frame
from app.rider.inputs import FIELD, InputError, Inputs, changed
from app.rider.setup import Setup
from app.words.field import Field
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import spoken
from app.words.units import SECONDS as SECOND
from app.words.units import amount

FRAMES_PER_S: Final = 20
"""Pictures to the second: a twentieth is five hundredths, which a GIF can tell exactly."""
MOST_FRAMES: Final = 160
"""Pictures of one clip; a longer one has fewer to the second: the largest take 0.7 GB to make."""
SECONDS: Final = Field(
    "seconds", "clip", msgid("Length of the clip"), "s", 1.0, 60.0, 0.5,
    msgid("From the first picture to the end of the last."),
)  # fmt: skip
TICK_MS: Final = 10
"""The grain of times in a GIF."""


class Shot(NamedTuple):
    """What stands on one picture of a clip.

    Attributes:
        frame: what is drawn, its windows those of the whole clip.
        title: what is shown, over the drawings.
        place: at the other end of the same line; "" for nothing.
        said: right under the drawings: the value, the time, or what is to be done.
        words: under that, to be read; "" for nothing.
        about: what has to be known beside the caution; "" for nothing.
        lit: keys of the marks that stand out.
    """

    frame: Frame
    title: str
    place: str = ""
    said: str = ""
    words: str = ""
    about: str = ""
    lit: frozenset[str] = frozenset()


class Strip(NamedTuple):
    """All pictures of a clip, before they are painted.

    Attributes:
        name: whose set-up it is; written only where that is asked for.
        shots: one for each picture.
        durations_ms: how long each picture is there.
        cuts: places of the pictures in which much is new, such as another text.
    """

    name: str
    shots: tuple[Shot, ...]
    durations_ms: tuple[int, ...]
    cuts: frozenset[int] = frozenset()


class Film(NamedTuple):
    """What is shown of a set-up, from its first picture to its last.

    Attributes:
        setup: whose inputs move.
        course: the way they go.
        title: what moves, in words.
        about: what has to be known of it; "" for nothing.
        moments: one for each picture.
        turns_at: the picture from which on it goes back; as many as there are if it does not.
        said: what stands under each picture: the value, or the time.
        durations_ms: how long each picture is there.
    """

    setup: Setup
    course: Course
    title: str
    about: str
    moments: tuple[Moment, ...]
    turns_at: int
    said: tuple[str, ...]
    durations_ms: tuple[int, ...]


class Extras(NamedTuple):
    """How a clip is to go, and what is said of it.

    Attributes:
        seconds: how long it is; as long as what is played when None.
        back: whether it goes back to where it began, in the same time.
        title: what moves; of a sweep it is said by itself.
        about: what has to be known of it; "" for nothing.
    """

    seconds: float | None = None
    back: bool = False
    title: str = ""
    about: str = ""


def film_of(setup: Setup, played: Played, extras: Extras, lengths: Lengths = IN_MM) -> Film:
    """What is played, as the pictures of a clip.

    Args:
        setup: whose inputs move.
        played: a sweep or a movement.
        extras: how it is to go.
        lengths: writes lengths.

    Raises:
        InputError: there is no such input, an end is beyond its range, or nothing moves.
        ValueError: the movement has too few postures, or they are out of order.
    """
    seconds = usual_seconds(played, back=extras.back) if extras.seconds is None else extras.seconds
    _require_length(seconds)
    course, title = course_of(setup.inputs, played), extras.title
    if isinstance(played, Sweep):
        if played.start == played.end:
            raise InputError(tr("from a value to the same value nothing moves"))
        field = FIELD[played.name]
        ends = (spoken(field, value, lengths) for value in (played.start, played.end))
        title = tr("{what}: {first} to {last}", what=field.label, first=next(ends), last=next(ends))
        if not played.steps:
            course = _on_grid(field, course)
    count = min(MOST_FRAMES, round(seconds * FRAMES_PER_S))
    made = moments(course, count // 2 + 1 if extras.back else count)
    turns_at = len(made)
    if extras.back:
        # Neither end stands still for a second picture, here or where the clip begins anew.
        made += made[-2:0:-1]
    return Film(
        setup=setup,
        course=course,
        title=title,
        about=extras.about,
        moments=tuple(made),
        turns_at=turns_at,
        said=tuple(_said(played, moment, lengths) for moment in made),
        durations_ms=_durations(seconds, len(made)),
    )


def usual_seconds(played: Played, *, back: bool) -> float:
    """How long a clip of it is where nothing else is asked for."""
    seconds = seconds_of(played) * (2.0 if back else 1.0)
    return min(max(round(seconds, 2), SECONDS.low), SECONDS.high)


def _require_length(seconds: float) -> None:
    if not SECONDS.low <= seconds <= SECONDS.high:
        raise InputError(
            tr(
                "a clip of {seconds} cannot be made; it must take from {low} to {high}",
                seconds=amount(seconds, SECOND),
                low=amount(SECONDS.low, SECOND),
                high=amount(SECONDS.high, SECOND),
            )
        )


def _said(played: Played, moment: Moment, lengths: Lengths) -> str:
    """The value of a moment, or its time in the movement itself."""
    if isinstance(played, Sweep):
        field = FIELD[played.name]
        value = spoken(field, moment.inputs.value(played.name), lengths)
        return tr("{what}: {value}", what=field.label, value=value)
    whole = played.seconds
    now, all_of_it = (amount(round(time, 2), SECOND) for time in (moment.phase * whole, whole))
    return tr("{now} of {whole}", now=now, whole=all_of_it)


def _on_grid(field: Field, course: Course) -> Course:
    """The course of an input on the grid of its slider, so that it is what is said of it."""
    ends = {course(phase).value(field.name) for phase in (0.0, 1.0)}

    def at(phase: float) -> Inputs:
        inputs = course(phase)
        value = inputs.value(field.name)
        if value in ends:
            return inputs
        snapped = round(round(value / field.fine_step) * field.fine_step, 6)
        return changed(inputs, **{field.name: min(max(snapped, min(ends)), max(ends))})

    return at


def _durations(seconds: float, count: int) -> tuple[int, ...]:
    """Times of so many pictures, as even as whole ticks allow; together they are exact."""
    ticks = round(1000.0 * seconds / TICK_MS)
    ends = [round(ticks * i / count) for i in range(count + 1)]
    return tuple(TICK_MS * (b - a) for a, b in pairwise(ends))


def strip_of(film: Film, draw: Callable[[Setup], Frame]) -> Strip:
    """The pictures of a film, each with its own drawing and value.

    Args:
        film: what is shown.
        draw: solves and draws a set-up.

    Raises:
        ValueError: the leg dimensions contradict each other on the way.
    """
    shots = (
        Shot(shown, film.title, said=said, about=film.about)
        for shown, said in zip(drawn(film, draw), film.said, strict=True)
    )
    return Strip(film.setup.called, tuple(shots), film.durations_ms)


def drawn(film: Film, draw: Callable[[Setup], Frame]) -> Iterator[Frame]:
    """The frame of each moment with the traces left behind, all drawings at one scale.

    The first comes when all are solved, since the last decides about the scale too.

    Args:
        film: what is shown.
        draw: solves and draws a set-up.

    Raises:
        ValueError: the leg dimensions contradict each other on the way.
    """

    def drawn_at(inputs: Inputs) -> Frame:
        return draw(replace(film.setup, inputs=inputs))

    backdrop = backdrop_of(film.course, drawn_at, None)
    frames = [drawn_at(moment.inputs) for moment in film.moments]
    backdrop = replace(backdrop, windows=windows_of(frames, backdrop.windows))
    for place, (moment, frame) in enumerate(zip(film.moments, frames, strict=True)):
        passed = moment.phase if place < film.turns_at else 1.0
        yield dressed(frame, backdrop, passed, ghost=False, traces=True)


def windows_of(
    frames: Iterable[Frame], known: Mapping[str, Window] | None = None
) -> dict[str, Window]:
    """The windows of the views with room for every one of some frames.

    Args:
        frames: at least one, where nothing is known.
        known: windows that have to be within.
    """
    windows = dict(known or {})
    for frame in frames:
        for key, scene in frame.scenes.items():
            windows[key] = windows[key].joined(scene.window) if key in windows else scene.window
    return windows
