"""A lesson as the groups of values that stand in its file, or within a set-up's.

A text is one in quotes, or a group of them by language.  A condition is a row of three:
a quantity, a sign, and another quantity or a number.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import replace
from typing import Any, Final

from app.files.inputs_json import INPUTS
from app.files.records import Reader, Record, group, list_of, number_of, one_of, refusal, text
from app.files.safe_files import RefusalError
from app.files.strict_json import on_one_line
from app.rider.inputs import ENDS, FIELD, model
from app.rider.lessons import (
    KINDS,
    LOOKS,
    MOST_STEPS,
    NO_LESSON,
    SIGNS,
    Case,
    Changes,
    Condition,
    Lesson,
    Option,
    Question,
    Step,
    Text,
)
from app.stance.quantities import QUANTITIES, parted
from app.words.language import msgid, tr
from app.words.reasons import reason_phrase

STATES: Final = ("", "before", "then", "one", "two")
"""What may stand before a quantity: the state shown, before and after a question, its cases."""
LARGEST_NUMBER: Final = 10_000.0
"""No quantity comes near it."""


def _text(name: str, raw: Any) -> Text:
    """A text, or texts by the codes of languages; those of languages to come are kept."""
    if isinstance(raw, str):
        return Text((("", raw),))
    return Text(tuple((code, text(f"{name}.{code}", each)) for code, each in _group(name, raw)))


def _group(name: str, raw: Any) -> list[tuple[str, Any]]:
    if not isinstance(raw, dict):
        said = msgid("{name} is {value}; it must be text in quotes, or one for each language")
        raise refusal(said, name, raw)
    return list(raw.items())


def _text_json(said: Text) -> Any:
    texts = dict(said.by_language)
    return texts[""] if [*texts] == [""] else texts


def _changes(name: str, raw: Any) -> Changes:
    """Inputs by name, each in its range."""
    for key in group(name, raw):
        if key not in FIELD:
            raise RefusalError(tr("{name} names {key}, which is no input", name=name, key=key[:40]))
    return tuple((key, number_of(FIELD[key])(f"{name}.{key}", raw[key])) for key in raw)


def _quantity(name: str, raw: Any) -> str:
    state, quantity = parted(raw) if isinstance(raw, str) else ("", "")
    if quantity not in QUANTITIES or state not in STATES:
        raise refusal(msgid("{name} is {value}; that is no quantity of a stance"), name, raw)
    return str(raw)


def _condition(name: str, raw: Any) -> Condition:
    if not isinstance(raw, list) or len(raw) != 3:
        said = msgid("{name} is {value}; it must be a row of quantity, sign and what it is held to")
        raise refusal(said, name, raw)
    one, sign, other = raw
    if isinstance(other, int | float) and not isinstance(other, bool):
        if not -LARGEST_NUMBER <= other <= LARGEST_NUMBER:
            raise refusal(msgid("{name} is {value}; no quantity is as large"), name, other)
        held: str | float = float(other)
    else:
        held = _quantity(name, other)
    return Condition(_quantity(name, one), one_of(SIGNS)(name, sign), held)


def _numbered(name: str, place: int) -> str:
    return f"{name}.{place}"


_ROW: Final = msgid("{name} is {value}; it must be a list in brackets")
_MANY: Final = msgid("{name} has {count} entries; {most} are the most")
_CONDITIONS: Final = list_of(_condition, _ROW, most=10, too_many=_MANY, called=_numbered)


class _Terse(Record[Any]):
    """A group that leaves out what says nothing, so that people can read it.

    What it stands for keeps its own unknown keys: it has no name to find them by again.

    Args:
        make: makes what the group stands for.
        readers: of its values.
        required: keys that may not be missing.
        written: how values are written that are not written as they are.
    """

    def __init__(
        self,
        make: Callable[..., Any],
        readers: Mapping[str, Reader],
        required: Collection[str] = (),
        **written: Callable[[Any], Any],
    ) -> None:
        super().__init__(make, readers, required)
        object.__setattr__(self, "written", written)

    written: Mapping[str, Callable[[Any], Any]]

    def __call__(self, name: str, raw: Any) -> Any:
        """What the group of this name stands for."""
        thing, unknown = super().__call__(name, raw), self.unknown_keys(raw)
        return replace(thing, unknown_keys=json.dumps(unknown)) if unknown else thing

    def written_of(self, thing: Any) -> dict[str, Any]:
        """The group that stands for a thing, with its unknown keys behind it."""
        known = {key: self.written.get(key, _same)(getattr(thing, key)) for key in self.readers}
        said = {
            key: each
            for key, each in known.items()
            if key in self.needed_of(thing) or each not in ("", [], {}, None)
        }
        unknown = json.loads(thing.unknown_keys or "{}")
        return said | {key: each for key, each in unknown.items() if key not in known}

    def needed_of(self, _thing: Any) -> Collection[str]:
        """The keys that a file cannot do without, whatever they say."""
        return self.required

    def all_of(self, things: Iterable[Any]) -> list[dict[str, Any]]:
        """The groups of several."""
        return [self.written_of(each) for each in things]


def _same(each: Any) -> Any:
    return list(each) if isinstance(each, tuple) else each


def _conditions_json(conditions: tuple[Condition, ...]) -> list[list[Any]]:
    return [[each.one, each.sign, each.other] for each in conditions]


_OPTION: Final = _Terse(
    Option,
    {"say": _text, "when": _CONDITIONS},
    ("say", "when"),
    say=_text_json,
    when=_conditions_json,
)
_CASE: Final = _Terse(
    Case, {"say": _text, "set": _changes}, ("say", "set"), say=_text_json, set=dict
)
_OPTIONS: Final = list_of(_OPTION, _ROW, most=6, too_many=_MANY, called=_numbered)


class _QuestionRecord(_Terse):
    """A question; only one with a slider has ends."""

    def needed_of(self, thing: Any) -> Collection[str]:
        return (*self.required, *_NEEDS[thing.kind])

    def written_of(self, thing: Any) -> dict[str, Any]:
        known = super().written_of(thing)
        slides = thing.kind == "slider"
        return {key: each for key, each in known.items() if slides or key not in ("low", "high")}


_NUMBER: Final = number_of(
    replace(FIELD["stance_length_mm"], low=-LARGEST_NUMBER, high=LARGEST_NUMBER)
)
_QUESTION: Final = _QuestionRecord(
    Question,
    {
        "kind": one_of(KINDS),
        "ask": _text,
        "options": _OPTIONS,
        "leg": one_of(ENDS),
        "inputs": list_of(one_of(FIELD), _ROW, fewest=1, most=6, too_many=_MANY),
        "low": _NUMBER,
        "high": _NUMBER,
        "until": _CONDITIONS,
    },
    ("kind", "ask"),
    ask=_text_json,
    options=_OPTION.all_of,
    until=_conditions_json,
)
_NEEDS: Final = {
    "choice": ("options",),
    "slider": ("inputs", "low", "high", "until"),
    "knee": ("leg",),
}
"""What a question of each kind cannot do without."""


def _question(name: str, raw: Any) -> Question | None:
    if raw is None:
        return None
    question: Question = _QUESTION(name, raw)
    for key in _NEEDS[question.kind]:
        if key not in raw:
            raise RefusalError(tr("{name} is missing", name=f"{name}.{key}"))
    if question.kind == "slider":
        for each in question.inputs:
            field = FIELD[each]
            if not field.low <= question.low < question.high <= field.high:
                said = msgid("{name} is {value}; low and high must lie in the range of {input}")
                raise refusal(said, f"{name}.high", question.high, input=each)
    return question


_STEP: Final = _Terse(
    Step,
    {
        "say": _text,
        "child": _text,
        "set": _changes,
        "look": one_of(LOOKS),
        "mark": list_of(text, _ROW, most=20, too_many=_MANY, called=_numbered),
        "question": _question,
        "cases": list_of(_CASE, _ROW, most=2, too_many=_MANY, called=_numbered),
    },
    say=_text_json,
    child=_text_json,
    set=dict,
    question=lambda asked: None if asked is None else _QUESTION.written_of(asked),
    cases=_CASE.all_of,
)
_STEPS: Final = list_of(_STEP, _ROW, most=MOST_STEPS, too_many=_MANY, called=_numbered)


def _made(**values: Any) -> Lesson:
    """The lesson, whose every state is one that its rider can be in."""
    lesson = Lesson(**values)
    for place, step in enumerate(lesson.steps, 1):
        states = [step.set, *(case.set for case in step.cases)]
        question = step.question
        if question is not None and question.kind == "slider":
            states += [
                (*step.set, *((name, end) for name in question.inputs))
                for end in (question.low, question.high)
            ]
        for changes in states:
            try:
                model(lesson.inputs_with(changes))
            except ValueError as error:
                why = on_one_line(reason_phrase(error))
                raise RefusalError(f"steps.{place}: {why}") from error
    return lesson


class LessonRecord(Record[Lesson]):
    """A lesson among the values of a file."""

    def __init__(self) -> None:
        readers: dict[str, Reader] = {
            "title": _text,
            "about": _text,
            "inputs": INPUTS,
            "steps": _STEPS,
        }
        super().__init__(_made, readers, required=("inputs", "steps"))

    def as_json(self, thing: Lesson, unknown_keys: Mapping[str, Any]) -> dict[str, Any]:
        """The group that stands for a lesson, with the unknown keys in their places."""
        texts = {"title": _text_json(thing.title), "about": _text_json(thing.about)}
        return super().as_json(thing, unknown_keys) | texts | {"steps": _STEP.all_of(thing.steps)}


class CarriedLesson(LessonRecord):
    """The lesson that a set-up carries, if it carries one."""

    def __call__(self, name: str, raw: Any) -> Lesson:
        if not self.readers.keys() & group(name, raw).keys():
            return NO_LESSON
        try:
            return super().__call__("", raw)
        except RefusalError as error:
            raise RefusalError(tr("the lesson: {reason}", reason=error)) from error

    def as_json(self, thing: Lesson, unknown_keys: Mapping[str, Any]) -> dict[str, Any]:
        """Nothing for none."""
        return dict(unknown_keys) if thing == NO_LESSON else super().as_json(thing, unknown_keys)


LESSON: Final = LessonRecord()
