"""What --help tells below the options: names with ranges and defaults, and examples."""

from __future__ import annotations

from textwrap import wrap
from typing import Final

from app.features.growing.ages import AHEAD
from app.numbers.question import GROUPS, MEANINGS, SECTIONS
from app.rider.inputs import DEFAULTS, LEG_FIELDS, SHARED_FIELDS
from app.rider.setup import KNOWN_FIELDS
from app.start.named_values import NamedValues
from app.words.field import Field

_WIDTH: Final = 78

_EXAMPLES: Final = """\
examples:
  kneeline rider.kneeline --numbers --only front,rear
  kneeline riders/ --numbers --only front,rear > results.jsonl
  kneeline --set stature_mm=1700 --set front_angle_deg=30 --save rider.kneeline
  kneeline rider.kneeline --parts parts.json --sheet rider.pdf
  kneeline rider.kneeline --wedge rear wedge.stl
  kneeline rider.kneeline --handout rider.pdf
  kneeline rider.kneeline --clip bend.gif --over knee_bend_deg=30:60
  other-program | kneeline - --numbers

exit codes:
  0 done, 1 some of several FILES have no results, 2 the command could not be
  followed, 130 interrupted"""


def names_and_examples(changes: NamedValues, asking: NamedValues) -> str:
    """Every name that the options take, and some commands to begin with."""
    lead, figures = changes.choices["lead_foot"], changes.choices["figures"]
    return "\n".join(
        [
            "inputs for --set, with the demo rider's in brackets:",
            _line("lead_foot", f"{' or '.join(lead)} [{DEFAULTS.lead_foot}]"),
            *(_line(each.name, _input(each)) for each in SHARED_FIELDS),
            "",
            "inputs of legs and boots, for both sides; with left_ or right_ in front for one:",
            *(_line(each.name, _input(each)) for each in LEG_FIELDS),
            "",
            "instead of leg dimensions, which are then estimated:",
            *(_line(each.name, _range(each)) for each in KNOWN_FIELDS),
            _line("figures", f"{_words(figures)}; whose body figures to estimate from"),
            "",
            "groups for --only; without it all of the first, and those that --with names:",
            *_wrapped([name for name in GROUPS if name not in SECTIONS]),
            *_wrapped([*SECTIONS]),
            "",
            "names for --with:",
            *(_line(name, about, 23) for name, about in SECTIONS.items()),
            "",
            "names for --ask; where no limit is given it lies near the present stance:",
            *(
                _line(name, f"{_range(each)}{_when_unsaid(name)}", 23)
                for name, each in asking.numbers.items()
            ),
            *(
                _line(name, f"{_words(words)}; {MEANINGS[name]}", 23)
                for name, words in asking.choices.items()
            ),
            *(_line(name, about, 23) for name, about in asking.texts.items()),
            "",
            _EXAMPLES,
        ]
    )


def _line(name: str, about: str, width: int = 20) -> str:
    return f"  {name:<{width}} {about}"


def _range(entry: Field) -> str:
    return f"{entry.low:g} to {entry.high:g} {entry.unit}; {entry.label.lower()}"


def _input(entry: Field) -> str:
    """The range of an input, and what the demo rider has."""
    value = DEFAULTS.value(entry.name)
    return f"{entry.low:g} to {entry.high:g} {entry.unit} [{value:g}]; {entry.label.lower()}"


def _words(words: tuple[str, ...]) -> str:
    """Words to choose from, with the usual one in brackets."""
    return ", ".join([f"[{words[0]}]", *words[1:]])


_UNSAID: Final = {
    "age_years": "no forecast",
    "years_ahead": f"{AHEAD.step:g}",
    "cant_step_deg": "as the listed parts make it",
}
"""What holds where a number other than a limit is not said."""


def _when_unsaid(name: str) -> str:
    return f"; {_UNSAID[name]} when not given" if name in _UNSAID else ""


def _wrapped(names: list[str]) -> list[str]:
    return wrap(", ".join(names), _WIDTH, initial_indent="  ", subsequent_indent="  ")
