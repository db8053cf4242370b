"""A lesson as the pictures of a clip: each stage as long as it takes to be read.

Nobody can answer a picture, so a question stays for a while; then the legs go from the state
asked over to the one that follows, and what is right is said.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Final, NamedTuple

from app.drawing.marks import Window
from app.features.clip.model import MOST_FRAMES, TICK_MS, Shot, Strip, windows_of
from app.features.compare.model import shown_instead
from app.features.lessons.model import ASK, ONE, REVEAL, Going, Stage, stages_of
from app.features.lessons.words import (
    answer_words,
    heading_of,
    place_words,
    question_words,
    readable,
    title_words,
)
from app.features.player.frames import minimum_jerk
from app.frame import Frame
from app.rider.inputs import Inputs, changed
from app.rider.instead import Instead
from app.rider.lessons import changes_between
from app.words.language import tr

LETTERS_PER_S: Final = 15.0
"""How fast a text is read, by the letter (common practice of subtitles, no source)."""
LOOKED_AT_S: Final = 2.0
"""How long a drawing is looked at beside its words (engineering choice, no source)."""
THOUGHT_S: Final = 5.0
"""How long a question stays besides (likewise)."""
MOVED_FRAMES: Final = 16
"""Pictures in which the legs go from one state to the next, where there is room for so many."""
MOVED_MS: Final = 50
"""How long each of those is there."""
LOOK: Final = "facing"
"""How the front view looks where a step says nothing."""


class Slide(NamedTuple):
    """One stage of a lesson, or its cover.

    Attributes:
        shown: what is drawn.
        place: how far one has come.
        said: its heading.
        words: to be read.
        asks: whether it is a question.
        moves: whether the legs go there from where they were.
    """

    shown: Instead
    place: str
    said: str
    words: str
    asks: bool = False
    moves: bool = False

    @property
    def inputs(self) -> Inputs:
        """The state in which it rests."""
        return self.shown.setup.inputs

    @property
    def lasts_ms(self) -> int:
        """How long it takes to be read and looked at, in whole ticks of a clip."""
        seconds = LOOKED_AT_S + len(f"{self.said} {self.words}") / LETTERS_PER_S
        seconds += THOUGHT_S if self.asks else 0.0
        return round(1000.0 * seconds / TICK_MS) * TICK_MS


class _Picture(NamedTuple):
    """A slide at one state on the way to its own."""

    slide: Slide
    inputs: Inputs
    lasts_ms: int


def lesson_strip(going: Going, *, young: bool = False) -> Strip:
    """The pictures of a lesson, from its cover to its last case.

    Args:
        going: the lesson, under the limits and in the unit of who makes the clip.
        young: whether it is told the way it is told to children.

    Raises:
        ValueError: the lesson has no steps, or the leg dimensions contradict each other.
    """
    slides = slides_of(going, young=young)
    if len(slides) < 2:
        raise ValueError(tr("the lesson has no steps yet"))
    pictures = list(_pictures(slides))
    frames = [_drawn(going, each) for each in pictures]
    looks = [each.slide.shown.look or LOOK for each in pictures]
    # The scale stays while the front view looks the same way.
    windows = {
        look: windows_of(one for one, its in zip(frames, looks, strict=True) if its == look)
        for look in set(looks)
    }
    title = title_words(going.lesson)
    shots = tuple(
        Shot(
            _within(drawn, windows[look]),
            title,
            each.slide.place,
            each.slide.said,
            each.slide.words,
            lit=each.slide.shown.marks,
        )
        for each, drawn, look in zip(pictures, frames, looks, strict=True)
    )
    last = [None, *(each.slide for each in pictures)]
    cuts = frozenset(i for i, each in enumerate(pictures) if each.slide is not last[i])
    return Strip("", shots, tuple(each.lasts_ms for each in pictures), cuts)


def slides_of(going: Going, *, young: bool = False) -> list[Slide]:
    """The cover and the stages, each with what it says; a question says what there is to choose."""
    lesson, stages = going.lesson, stages_of(going.lesson, young=young)
    if not stages:
        return []
    first = going.shown_at(stages[0])
    slides = [Slide(first._replace(marks=frozenset()), "", "", readable(lesson.about.said))]
    for at, stage in enumerate(stages):
        slides.append(
            Slide(
                going.shown_at(stage),
                place_words(at, len(stages)),
                heading_of(stage),
                _words(going, stage, young=young),
                asks=stage.part == ASK,
                moves=stage.part not in (ASK, ONE),
            )
        )
    return slides


def _words(going: Going, stage: Stage, *, young: bool) -> str:
    said = readable(going.said_at(stage, young=young))
    if stage.part == ASK:
        return question_words(going, stage)
    # Children have been told already.
    if stage.part == REVEAL:
        return " ".join(filter(None, (answer_words(going, stage.step), said)))
    return said


def _pictures(slides: list[Slide]) -> Iterator[_Picture]:
    """Every slide at rest, and before those that are come to in a movement, their way."""
    moving = [slide.moves and slide.inputs != before.inputs for before, slide in pairwise(slides)]
    room = MOST_FRAMES - len(slides)
    count = max(0, min(MOVED_FRAMES, room // max(sum(moving), 1)))
    yield _Picture(slides[0], slides[0].inputs, slides[0].lasts_ms)
    for (before, slide), moves in zip(pairwise(slides), moving, strict=True):
        for k in range(count if moves else 0):
            share = minimum_jerk((k + 1) / (count + 1))
            yield _Picture(slide, _between(before.inputs, slide.inputs, share), MOVED_MS)
        yield _Picture(slide, slide.inputs, slide.lasts_ms)


def _between(one: Inputs, other: Inputs, share: float) -> Inputs:
    """What lies on the way from one state to another."""
    way = {
        name: one.value(name) + share * (value - one.value(name))
        for name, value in changes_between(one, other)
    }
    return changed(other, **way)


def _drawn(going: Going, picture: _Picture) -> Frame:
    """The drawings of a picture, with what the slide has behind it."""
    shown = picture.slide.shown
    return drawn_as(going, shown._replace(setup=replace(shown.setup, inputs=picture.inputs)))


def drawn_as(going: Going, shown: Instead) -> Frame:
    """The drawings of what a lesson shows, with what is behind it."""
    return shown_instead(shown, LOOK, going.limits, going.lengths)[1]


def _within(drawn: Frame, windows: dict[str, Window]) -> Frame:
    scenes = {key: scene._replace(window=windows[key]) for key, scene in drawn.scenes.items()}
    return drawn._replace(scenes=scenes)
