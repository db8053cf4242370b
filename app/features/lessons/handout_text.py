"""What stands on the pages of a lesson: tasks in their order, and the answers after all of them."""

from __future__ import annotations

from dataclasses import dataclass

from app.features.lessons.model import ASK, ONE, REVEAL, TELL, TWO, Going, Stage, stages_of
from app.features.lessons.words import (
    answer_words,
    offered_words,
    readable,
    title_words,
    value_words,
)
from app.rider.instead import Instead
from app.words.language import tr

CHOICE, SLIDER, KNEE = "choice", "slider", "knee"


@dataclass(frozen=True, slots=True)
class Task:
    """One step as it is told, or as it is asked before anything is known.

    Attributes:
        heading: which one it is.
        shown: what is drawn.
        words: what is told or asked.
        kind: of the question; "" where nothing is asked.
        options: to choose from, each with a box to tick.
        ends: what stands at both ends of a scale to mark.
        leg: whose knee is to be drawn where it is expected.
    """

    heading: str
    shown: Instead
    words: str
    kind: str = ""
    options: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    leg: str = ""


@dataclass(frozen=True, slots=True)
class Side:
    """A drawing with its words: one of two contrasting cases."""

    shown: Instead
    words: str


@dataclass(frozen=True, slots=True)
class Solution:
    """What is right, and why.

    Attributes:
        heading: which question it answers.
        right: what is right.
        words: why.
        shown: the state after it, that before behind it.
        cases: two contrasting ones, or none.
    """

    heading: str
    right: str
    words: str
    shown: Instead
    cases: tuple[Side, ...]


@dataclass(frozen=True, slots=True)
class LessonText:
    """All words of the pages, in their order."""

    title: str
    about: str
    tasks: tuple[Task, ...]
    solutions: tuple[Solution, ...]
    day: str


def lesson_text(going: Going, day: str, *, young: bool = False) -> LessonText:
    """The words of a lesson's pages.

    Args:
        going: the lesson, under the limits and in the unit of who takes it home.
        day: that stands on them, as "2026-01-31".
        young: whether it is told the way it is told to children.

    Raises:
        ValueError: the lesson has no steps.
    """
    stages = stages_of(going.lesson, young=young)
    if not stages:
        raise ValueError(tr("the lesson has no steps yet"))
    numbers = _numbers(stages)
    tasks = tuple(
        _task(going, stage, numbers, young=young) for stage in stages if stage.part in (TELL, ASK)
    )
    solutions = tuple(
        _solution(going, stage, numbers, young=young) for stage in stages if stage.part == REVEAL
    )
    return LessonText(
        title_words(going.lesson), readable(going.lesson.about.said), tasks, solutions, day
    )


def _numbers(stages: tuple[Stage, ...]) -> dict[int, int]:
    """The number of each step that asks."""
    asking = [stage.step for stage in stages if stage.part == ASK]
    return {step: number for number, step in enumerate(asking, 1)}


def _task(going: Going, stage: Stage, numbers: dict[int, int], *, young: bool) -> Task:
    shown, words = going.shown_at(stage), readable(going.said_at(stage, young=young))
    question = going.step(stage.step).question
    if stage.part == TELL or question is None:
        return Task("", shown, words)
    offered = offered_words(going, stage)
    ends = (
        tuple(value_words(question, end, going.lengths) for end in (question.low, question.high))
        if question.kind == SLIDER
        else ()
    )
    return Task(
        tr("Question {number}", number=str(numbers[stage.step])),
        shown,
        words,
        question.kind,
        offered if question.kind == CHOICE else (),
        ends,
        question.leg if question.kind == KNEE else "",
    )


def _solution(going: Going, stage: Stage, numbers: dict[int, int], *, young: bool) -> Solution:
    i = stage.step
    cases = [Stage(i, part) for part in (ONE, TWO)] if len(going.step(i).cases) == 2 else []
    sides = (Side(going.shown_at(each), readable(going.said_at(each))) for each in cases)
    return Solution(
        tr("Question {number}", number=str(numbers[i])),
        answer_words(going, i),
        readable(going.said_at(stage, young=young)),
        going.shown_at(stage),
        () if young else tuple(sides),
    )
