"""What the command line asks for."""

from __future__ import annotations

import re
from argparse import ArgumentParser, ArgumentTypeError, Namespace, RawDescriptionHelpFormatter
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, NoReturn

from app import __version__
from app.inputs import FIELDS, LEAD_FEET, Field, InputError
from app.setup import FIGURES, KNOWN_FIELDS

SMALLEST_SCALE: Final = 0.5
LARGEST_SCALE: Final = 6.0
USUAL_SCALE: Final = 2.0

CHOICES: Final = {"lead_foot": LEAD_FEET, "figures": FIGURES}
KNOWN: Final = {each.name: each for each in KNOWN_FIELDS}
NAMES: Final = (*CHOICES, *(each.name for each in FIELDS), *KNOWN)

_NUMBER: Final = re.compile(r"[+-]?(?:[0-9]+[.,]?[0-9]*|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?")

_ABOUT: Final = """\
See whether a snowboarder's knees bend in their hinge planes, and set the
bindings so that they do. Without options a window opens on the set-up in FILE,
or on the demo rider."""

_SET: Final = (
    "change one input (names and ranges below); may be given again for others; "
    "7.5 and 7,5 are the same number"
)
_SCALE: Final = (
    f"size of the picture, {SMALLEST_SCALE:g} to {LARGEST_SCALE:g}; {USUAL_SCALE:g} when not given"
)


class CommandError(Exception):
    """A command that cannot be followed, said in one sentence to the user."""


@dataclass(frozen=True, slots=True)
class Command:
    """One command line, understood.

    Attributes:
        file: set-up to start from; None for the demo rider.
        snapshot: where to write a picture, if wanted.
        scale: pixels of the picture per pixel of the window.
        numbers: whether the numbers are wanted.
        changes: inputs to change, and what is known of the body, by name.
        answer: text that answers the whole command (help or version); empty
            when there is something to do.
    """

    file: Path | None = None
    snapshot: Path | None = None
    scale: float = USUAL_SCALE
    numbers: bool = False
    changes: dict[str, float | str] = field(default_factory=dict)
    answer: str = ""

    @property
    def wants_window(self) -> bool:
        """Whether neither a picture nor numbers are asked for."""
        return self.snapshot is None and not self.numbers


def understood(arguments: Sequence[str]) -> Command:
    """The command that the arguments after the program's name stand for.

    Raises:
        CommandError: an option is unknown or lacks its value.
        InputError: a changed input has no such name or no such value.
    """
    parser = _parser()
    options = parser.parse_args(arguments)
    if options.help or options.version:
        answer = parser.format_help() if options.help else f"kneeline {__version__}\n"
        return Command(answer=answer)
    return Command(
        file=options.file,
        snapshot=options.snapshot,
        scale=options.scale,
        numbers=options.numbers,
        changes=_changes(options),
    )


def number(text: str) -> float:
    """The number that a text stands for, with a decimal point or a decimal comma.

    Raises:
        ValueError: it is not a plain number.
    """
    plain = text.strip().replace("\N{MINUS SIGN}", "-")
    if not _NUMBER.fullmatch(plain):
        raise ValueError(f"{text!r} is not a number")
    return float(plain.replace(",", "."))


class _Parser(ArgumentParser):
    """A parser that raises what it would otherwise print over several lines."""

    def error(self, message: str) -> NoReturn:
        raise CommandError(" ".join(message.split()) + "; see kneeline --help")


def _parser() -> ArgumentParser:
    parser = _Parser(
        prog="kneeline",
        usage="kneeline [FILE] [--set NAME=VALUE]... [--numbers] [--snapshot OUT.png [--scale N]]",
        description=_ABOUT,
        epilog=_names_and_ranges(),
        formatter_class=RawDescriptionHelpFormatter,
        allow_abbrev=False,
        add_help=False,
    )
    parser.add_argument_group("what to open").add_argument(
        "file", metavar="FILE", nargs="?", type=Path, help="a set-up saved by this program"
    )
    add = parser.add_argument_group("what to do with it").add_argument
    add("--set", metavar="NAME=VALUE", action="append", default=[], help=_SET)
    add("--numbers", action="store_true", help="print all results as JSON and open no window")
    add("--snapshot", metavar="OUT.png", type=_picture, help="write a picture and open no window")
    add("--scale", metavar="N", type=_scale, default=USUAL_SCALE, help=_SCALE)
    add("--version", action="store_true", help="print the version")
    add("-h", "--help", action="store_true", help="print this help")
    return parser


def _names_and_ranges() -> str:
    return "\n".join(
        [
            "inputs for --set:",
            f"  {'lead_foot':<20} {' or '.join(LEAD_FEET)}",
            *map(_row, FIELDS),
            "",
            "instead of leg dimensions, which are then estimated:",
            *map(_row, KNOWN_FIELDS),
            f"  {'figures':<20} {', '.join(FIGURES)}; whose body figures to estimate from",
        ]
    )


def _row(entry: Field) -> str:
    span = f"{entry.low:g} to {entry.high:g} {entry.unit}"
    return f"  {entry.name:<20} {span}; {entry.label.lower()}"


def _picture(text: str) -> Path:
    if not text.lower().endswith(".png"):
        raise ArgumentTypeError(f"{text!r} must end in .png")
    return Path(text)


def _scale(text: str) -> float:
    try:
        scale = number(text)
    except ValueError as error:
        raise ArgumentTypeError(str(error)) from error
    if not SMALLEST_SCALE <= scale <= LARGEST_SCALE:
        raise ArgumentTypeError(f"{text} must lie between {SMALLEST_SCALE:g} and {LARGEST_SCALE:g}")
    return scale


def _changes(options: Namespace) -> dict[str, float | str]:
    """The inputs to change; of a name given twice the last value counts."""
    return dict(_change(text) for text in options.set)


def _change(text: str) -> tuple[str, float | str]:
    name, equals, value = (part.strip() for part in text.partition("="))
    if not (name and equals):
        raise InputError(f"--set {text!r} is not of the form NAME=VALUE")
    if name not in NAMES:
        raise InputError(_unknown(name))
    if name in CHOICES:
        return name, _chosen(name, value)
    try:
        amount = number(value)
    except ValueError as error:
        raise InputError(f"{name} is {value!r}; it must be a number") from error
    return name, _in_range(name, amount) if name in KNOWN else amount


def _chosen(name: str, value: str) -> str:
    if value not in CHOICES[name]:
        *others, last = CHOICES[name]
        raise InputError(f"{name} is {value!r}; it must be {', '.join(others)} or {last}")
    return value


def _in_range(name: str, value: float) -> float:
    low, high = KNOWN[name].low, KNOWN[name].high
    if not low <= value <= high:
        raise InputError(f"{name} is {value:g}; it must lie between {low:g} and {high:g}")
    return value


def _unknown(name: str) -> str:
    """What to say of a name that no input has, with the likeliest that one has."""
    # Needed for a mistake only, and slow to import.
    from difflib import get_close_matches  # noqa: PLC0415

    near = get_close_matches(name, NAMES, n=1)
    advice = f"did you mean {near[0]}?" if near else "kneeline --help lists them"
    return f"there is no input named {name!r}; {advice}"
