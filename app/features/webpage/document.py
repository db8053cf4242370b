"""The page itself: one file that needs neither server nor network, and asks for neither.

All texts go through :func:`html.escape`, all that the script reads through :func:`_data`.  What
may run is told to the browser by its check sum, so that no text of a user could, even if it
got there; and nothing may be fetched from anywhere.
"""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Collection
from datetime import date
from hashlib import sha256
from html import escape
from math import isnan
from string import Template
from typing import Any, Final

from app.features.paper.fit_sheet_text import LONGEST_READ, trial_line
from app.features.webpage.look import HATCHED, rules
from app.features.webpage.model import SLIDERS, slider, told_numbers
from app.features.webpage.telling import NAME, NOTES, TRIALS
from app.features.webpage.words import (
    BINDINGS,
    ENDS,
    LESS,
    MORE,
    VIEWS,
    answer_text,
    stance_words,
    told_words,
    view_title,
)
from app.files.resources import ASSETS
from app.rider.cuffs import cuff_words
from app.rider.inputs import FIELD, Inputs
from app.rider.setup import Setup
from app.stance.answer import Answer, FootAnswer, answer_of
from app.stance.answer_words import range_words
from app.stance.findings import CAUTION, IN_A_LINE, USUAL_LIMITS, Limits
from app.stance.mending import Mend, mending_of
from app.words.bounds import shortened
from app.words.language import spoken as language
from app.words.language import tr, with_decimal_mark
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import spoken

SCRIPTS: Final = ("solve.js", "solids.js", "views.js", "painting.js", "page.js")


def web_page(
    setup: Setup,
    on: date,
    *,
    limits: Limits = USUAL_LIMITS,
    lengths: Lengths = IN_MM,
    telling: Collection[str] = (),
) -> bytes:
    """The page of a set-up as the bytes of an HTML file, in the language in force.

    Args:
        setup: the set-up; its inputs are in the page, for without them it could not solve.
        on: the day.
        limits: up to where a knee counts as in its plane, and as drifting.
        lengths: writes lengths.
        telling: which of :data:`.telling.OF_THE_USER` the page tells too.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    inputs, answer = setup.inputs, answer_of(setup, limits)
    style = f"{rules()}\n{_asset('page.css')}"
    script = "\n".join(_asset(name) for name in SCRIPTS)
    name = setup.called if NAME in telling else ""
    texts = {
        "language": language(),
        "title": f"{name} – Kneeline" if name else tr("A stance – Kneeline"),
        "heading": name or tr("A stance"),
        "stance": stance_words(inputs, lengths),
        "briefly": tr(IN_A_LINE),
        "no_script": tr(
            "The drawings and sliders need JavaScript; the answer and the caution do not."
        ),
        "drawings": tr("Drawings"),
        "view": tr("View"),
        "try_it": tr("Try it"),
        "begin_with": tr("Begin with"),
        "of_saved": tr("For the stance as saved: {stance}", stance=stance_words(inputs, lengths)),
        "moved": tr("You have changed the stance. What stands here is for the stance as saved."),
        "caution_title": tr("Caution"),
        "caution": tr(CAUTION),
        "made": f"Kneeline · {on.isoformat()}",
    }
    pieces = {
        "policy": _policy(style, script),
        "style": style,
        "script": script,
        "choices": "".join(_choice(key) for key in VIEWS),
        "views": _HATCHING + "".join(_view(key) for key in VIEWS),
        "findings": "".join(_finding(end) for end in ENDS),
        "sliders": "\n".join(_slider(each, inputs, lengths) for each in SLIDERS),
        "buttons": _buttons(answer),
        "answer": _answer(setup, answer, mending_of(setup, answer, limits), lengths),
        "told_too": _told_too(setup, lengths, telling),
        "told": _data(
            told_numbers(inputs, limits, lengths, answer)
            | {"words": told_words(), "decimal_mark": with_decimal_mark("."), "hatched": HATCHED}
        ),
    }
    escaped = {place: escape(text) for place, text in texts.items()}
    page = Template(_asset("page.html")).substitute(escaped | pieces)
    # Notes may hold half a surrogate pair, which UTF-8 cannot.
    return page.encode("utf-8", "replace")


def _asset(name: str) -> str:
    return (ASSETS / "web" / name).read_text("utf-8")


def _policy(style: str, script: str) -> str:
    """What the browser may do: run this script, use this style, and nothing else."""
    allowed = {"script-src": _check_sum(script), "style-src": _check_sum(style)}
    told = [f"{source} '{check_sum}'" for source, check_sum in allowed.items()]
    return "; ".join(["default-src 'none'", *told, "base-uri 'none'", "form-action 'none'"])


def _check_sum(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode('utf-8')).digest()).decode()}"


def _data(told: Any) -> str:
    """JSON that no browser takes for an end of the script, whatever it holds."""
    return json.dumps(told, ensure_ascii=True, separators=(",", ":")).replace("<", "\\u003c")


_HATCHING: Final = (
    '<svg class="hidden" aria-hidden="true"><defs><pattern id="hatch" width="5" height="5" '
    'patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="hatching" '
    'd="M0 0V5"/></pattern></defs></svg>'
)
_SHOWN: Final = "front"
"""The view with which a narrow screen begins."""


def _choice(key: str) -> str:
    checked = " checked" if key == _SHOWN else ""
    return (
        f'<input type="radio" name="view" id="see-{key}" value="{key}"{checked}>'
        f'<label for="see-{key}">{escape(tr(VIEWS[key]))}</label>'
    )


_VIEW_CLASSES: Final = {"above": "above", "front": "front-view", "side": "side-view"}


def _view(key: str) -> str:
    title = escape(view_title(key))
    return (
        f'<figure class="{_VIEW_CLASSES[key]}"><figcaption>{title}</figcaption>'
        f'<svg class="drawn" id="drawn-{key}" role="img" '
        f'aria-labelledby="title-{key} desc-{key}"><title id="title-{key}">{title}</title>'
        f'<desc id="desc-{key}"></desc><g></g></svg></figure>'
    )


def _finding(end: str) -> str:
    return (
        f'<div class="finding {end}"><h2>{escape(tr(ENDS[end]))}</h2>'
        f'<output id="{end}-off-plane" aria-live="off"></output><p id="{end}-boot"></p></div>'
    )


def _slider(name: str, inputs: Inputs, lengths: Lengths) -> str:
    """One input: its name and value, and under them less, the slider, more."""
    field, told, value = FIELD[name], slider(name, lengths), inputs.value(name)
    end = name.partition("_")[0]
    side = f" {end}" if end in ENDS else ""
    buttons = {
        way: f'<button type="button" id="{name}-{way}" aria-label="'
        f'{escape(tr(said, label=field.label))}">{sign}</button>'
        for way, said, sign in (("less", LESS, "−"), ("more", MORE, "+"))
    }
    said = escape(spoken(field, value, lengths))
    return (
        f'<div class="row{side}"><div class="said{side}"><label for="{name}">'
        f"{escape(field.label)}</label>"
        f'<output id="{name}-said" for="{name}" aria-live="off">{said}</output></div>'
        f'<div class="slide">{buttons["less"]}<input type="range" id="{name}" '
        f'min="{told["low"]:.10g}" max="{told["high"]:.10g}" step="{told["step"]:.10g}" '
        f'value="{value!r}" aria-valuetext="{said}">{buttons["more"]}</div></div>'
    )


def _buttons(answer: Answer) -> str:
    saved = f'<button type="button" id="as-saved" disabled>{escape(tr("As saved"))}</button>'
    if not answer.exists:
        return saved
    return f'<button type="button" id="put-on">{escape(tr("Put both on"))}</button>{saved}'


def _answer(setup: Setup, answer: Answer, mends: dict[str, Mend], lengths: Lengths) -> str:
    """What both bindings begin with, how sure that is and why."""
    waits = cuff_words(setup)
    told = f'<p class="loud">{escape(waits)}</p>' if waits else ""
    texts = {
        foot.name: answer_text(foot, answer, setup.inputs, mends.get(foot.name), lengths)
        for foot in answer.feet
    }
    feet = "".join(_foot(foot, texts[foot.name]) for foot in answer.feet)
    return f'{told}<div class="feet">{feet}</div>'


def _foot(foot: FootAnswer, text: list[str]) -> str:
    names = {"cant": tr("Cant"), "lift": tr("Lift")}
    lines = "".join(
        f'<dt>{escape(names[kind])}</dt><dd><output id="{foot.name}-{kind}" '
        f'data-value="{_value(getattr(foot.begin, f"{kind}_deg"))}">'
        f"{escape(range_words(kind, foot))}</output></dd>"
        for kind in ("cant", "lift")
    )
    why = "".join(f"<p>{escape(said)}</p>" for said in text)
    heading = f"<h3>{escape(tr(BINDINGS[foot.name]))}</h3>"
    return f'<div class="foot {foot.name}">{heading}<dl>{lines}</dl>{why}</div>'


def _value(number: float) -> str:
    """A number for those who check it; nothing where there is none."""
    return "" if isnan(number) else repr(number + 0.0)


def _told_too(setup: Setup, lengths: Lengths, telling: Collection[str]) -> str:
    """Notes and trials, where they are asked for."""
    cards = ""
    if NOTES in telling and setup.notes.strip():
        notes = f'<p class="told-too">{escape(shortened(setup.notes, LONGEST_READ))}</p>'
        cards += f'<section class="card"><h2>{escape(tr("Notes"))}</h2>{notes}</section>'
    if TRIALS in telling and setup.trials:
        lines = (escape(trial_line(each, lengths)) for each in setup.trials[::-1])
        items = "".join(f"<li>{line}</li>" for line in lines)
        heading = f"<h2>{escape(tr('Trials'))}</h2>"
        cards += f'<section class="card">{heading}<ul class="trials">{items}</ul></section>'
    return cards
