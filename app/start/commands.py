"""What the command line asks for."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, RawDescriptionHelpFormatter
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final, NoReturn

from app import __version__
from app.rider.inputs import FIELD, LEG_FIELDS, SHARED_FIELDS, SIDES
from app.rider.setup import FIGURES, KNOWN_FIELDS
from app.start.named_values import NamedValues, likeliest, number
from app.words.field import Field

SMALLEST_SCALE: Final = 0.5
LARGEST_SCALE: Final = 6.0
USUAL_SCALE: Final = 2.0

CHANGES: Final = NamedValues(
    "--set",
    "input",
    {"lead_foot": SIDES, "figures": FIGURES},
    {each.name: each for each in (*FIELD.values(), *KNOWN_FIELDS)},
)
"""What can be changed: the inputs, and what is known of the body."""

_ABOUT: Final = """\
See whether a snowboarder's knees bend in their hinge planes, and set the
bindings so that they do. Without options a window opens on the set-up in FILE,
or on the demo rider."""

_USAGE: Final = """\
kneeline [FILE] [--set NAME=VALUE]... [--parts FILE]
                [--snapshot OUT.png [--scale N]]
                [--numbers [--with NAME]... [--ask NAME=VALUE]... [--last-season FILE]
                           [--also FILE]...]"""

_SET: Final = (
    "change one input (names and ranges below); may be given again for others; "
    "7.5 and 7,5 are the same number"
)
_WITH: Final = "also print what is slow or long (names below); may be given again for others"
_ASK: Final = "say what the numbers cannot know (names below); may be given again for others"
_ALSO: Final = "find the fewest parts that serve that set-up too; may be given again for others"
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
        parts: the parts list to build from; None for the set-up's own.
        last_season: set-up to hold the present one against, if any.
        also: further set-ups that one kit of parts is to serve.
        sections: what the numbers are to tell beyond the usual.
        asked: what the numbers are told, by name.
        answer: text that answers the whole command (help or version); empty
            when there is something to do.
    """

    file: Path | None = None
    snapshot: Path | None = None
    scale: float = USUAL_SCALE
    numbers: bool = False
    changes: dict[str, float | str] = field(default_factory=dict)
    parts: Path | None = None
    last_season: Path | None = None
    also: tuple[Path, ...] = ()
    sections: frozenset[str] = frozenset()
    asked: dict[str, float | str] = field(default_factory=dict)
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
    given = vars(parser.parse_args(arguments))
    if given.pop("version"):
        return Command(answer=f"kneeline {__version__}\n")
    if given.pop("help"):
        parser.epilog = _names_and_ranges()
        return Command(answer=parser.format_help())
    _require_numbers(given)
    given["changes"] = CHANGES.read(given["changes"])
    given["asked"] = _asking().read(given["asked"]) if given["asked"] else {}
    given["also"] = tuple(given["also"])
    given["sections"] = _sections(given["sections"]) | _implied(given["also"], given["asked"])
    return Command(**given)


class _Parser(ArgumentParser):
    """A parser that raises what it would otherwise print over several lines."""

    def error(self, message: str) -> NoReturn:
        raise CommandError(" ".join(message.split()) + "; see kneeline --help")


def _parser() -> ArgumentParser:
    parser = _Parser(
        prog="kneeline",
        usage=_USAGE,
        description=_ABOUT,
        formatter_class=RawDescriptionHelpFormatter,
        allow_abbrev=False,
        add_help=False,
    )
    add = parser.add_argument_group("what to open").add_argument
    add("file", metavar="FILE", nargs="?", type=Path, help="a set-up saved by this program")
    add("--set", metavar="NAME=VALUE", action="append", default=[], dest="changes", help=_SET)
    add("--parts", metavar="FILE", type=Path, help="build from the parts on this list")
    add = parser.add_argument_group("what to do with it").add_argument
    add("--numbers", action="store_true", help="print all results as JSON and open no window")
    add("--with", metavar="NAME", action="append", default=[], dest="sections", help=_WITH)
    add("--ask", metavar="NAME=VALUE", action="append", default=[], dest="asked", help=_ASK)
    add("--last-season", metavar="FILE", type=Path, help="tell what changed since that set-up")
    add("--also", metavar="FILE", action="append", default=[], type=Path, help=_ALSO)
    add("--snapshot", metavar="OUT.png", type=_picture, help="write a picture and open no window")
    add("--scale", metavar="N", type=_scale, default=USUAL_SCALE, help=_SCALE)
    add("--version", action="store_true", help="print the version")
    add("-h", "--help", action="store_true", help="print this help")
    return parser


def _names_and_ranges() -> str:
    from app.numbers.question import MEANINGS, SECTIONS  # noqa: PLC0415

    asking = _asking()
    return "\n".join(
        [
            "inputs for --set:",
            _line("lead_foot", " or ".join(SIDES)),
            *(_line(each.name, _range(each)) for each in SHARED_FIELDS),
            "",
            "inputs of legs and boots, for both sides; with left_ or right_ in front for one:",
            *(_line(each.name, _range(each)) for each in LEG_FIELDS),
            "",
            "instead of leg dimensions, which are then estimated:",
            *(_line(each.name, _range(each)) for each in KNOWN_FIELDS),
            _line("figures", f"{', '.join(FIGURES)}; whose body figures to estimate from"),
            "",
            "names for --with:",
            *(_line(name, about, 23) for name, about in SECTIONS.items()),
            "",
            "names for --ask:",
            *(_line(name, _range(each), 23) for name, each in asking.numbers.items()),
            *(
                _line(name, f"{', '.join(words)}; {MEANINGS[name]}", 23)
                for name, words in asking.choices.items()
            ),
            *(_line(name, about, 23) for name, about in asking.texts.items()),
        ]
    )


def _line(name: str, about: str, width: int = 20) -> str:
    return f"  {name:<{width}} {about}"


def _range(entry: Field) -> str:
    return f"{entry.low:g} to {entry.high:g} {entry.unit}; {entry.label.lower()}"


def _asking() -> NamedValues:
    """What can be asked; the numbers know, which take a while to import."""
    from app.numbers.question import CHOICES, NUMBERS, TEXTS  # noqa: PLC0415

    return NamedValues("--ask", "question", CHOICES, NUMBERS, TEXTS)


def _require_numbers(given: dict[str, Any]) -> None:
    """Refuse what means nothing without the numbers.

    Raises:
        CommandError: names the first such option.
    """
    options = {
        "sections": "--with",
        "asked": "--ask",
        "last_season": "--last-season",
        "also": "--also",
    }
    for name, option in options.items():
        if given[name] and not given["numbers"]:
            raise CommandError(f"{option} tells the numbers more; give --numbers beside it")


def _sections(texts: Sequence[str]) -> frozenset[str]:
    """The sections named, each alone or several with commas between them.

    Raises:
        CommandError: there is no section of such a name.
    """
    if not texts:
        return frozenset()
    from app.numbers.question import SECTIONS  # noqa: PLC0415

    wanted = [name.strip() for text in texts for name in text.split(",")]
    for name in wanted:
        if name not in SECTIONS:
            advice = likeliest(name, SECTIONS) or f"there are {', '.join(SECTIONS)}"
            raise CommandError(f"there is nothing named {name!r} for --with; {advice}")
    return frozenset(wanted)


def _implied(also: Sequence[Path], asked: dict[str, float | str]) -> frozenset[str]:
    """The sections that nobody has to name, since something is said for them."""
    return frozenset({"kits"} if also or "can_get" in asked else ())


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
