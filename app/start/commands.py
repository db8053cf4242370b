"""What the command line asks for."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, RawDescriptionHelpFormatter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final, NoReturn

from app import __version__
from app.features.webpage.telling import OF_THE_USER
from app.files.file_kinds import SUFFIX, SUFFIXES
from app.files.resources import OUR_LESSONS
from app.rider.inputs import ENDS, FIELD, GROUPS, SIDES
from app.rider.setup import FIGURES, KNOWN_FIELDS
from app.start.mistakes import CommandError
from app.start.named_values import NamedValues, likeliest, number
from app.words.language import NAMES as LANGUAGES
from app.words.language import SOURCE

ENDS_OPTIONS: Final = "--"
"""What follows it is a file, whatever it begins with."""
SMALLEST_SCALE: Final = 0.5
LARGEST_SCALE: Final = 6.0
USUAL_SCALE: Final = 2.0

WEDGE_ENDINGS: Final = (".stl", ".dxf")
CLIP_ENDINGS: Final = (".gif", ".webp", ".png")
SHORTEST_CLIP, USUAL_CLIP, LONGEST_CLIP = 1.0, 4.0, 60.0
"""Seconds that a clip may take."""

CHANGES: Final = NamedValues(
    "--set",
    "input",
    {"lead_foot": SIDES, "figures": FIGURES},
    {each.name: each for each in (*FIELD.values(), *KNOWN_FIELDS)},
)
"""What can be changed: the inputs, and what is known of the body."""

OVER: Final = NamedValues(
    "--over", "input", {}, {name: each for name, each in FIELD.items() if each.group in GROUPS}
)
"""What a clip can move: the terms of the answer move no leg."""

_ABOUT: Final = """\
See whether a snowboarder's knees bend in their hinge planes, and set the
bindings so that they do. Without options a window opens on the set-up in FILE,
or on the demo rider."""

_USAGE: Final = f"""\
kneeline [FILE] [--set NAME=VALUE]... [--parts FILE]
                [--save OUT{SUFFIX}] [--sheet OUT.pdf] [--wedge front|rear OUT.stl|OUT.dxf]...
                [--snapshot OUT.png [--scale N] [--without-rider]] [--handout OUT.pdf]
                [--clip OUT.gif|OUT.webp|OUT.png --over NAME=FROM:TO [--seconds N]]
                [--lesson NAME|FILE [--for-children] [--clip OUT.gif] [--handout OUT.pdf]]
                [--web OUT.html [--telling NAME,...]] [--language CODE] [--force]
                [--numbers [--only GROUP,...] [--with NAME]... [--ask NAME=VALUE]...
                           [--last-season FILE] [--also FILE]...]
       kneeline FILE... --numbers [--lines] [--only GROUP,...] ..."""

_FILE: Final = (
    "a set-up saved by this program, or a picture that carries one; - is standard input; "
    "several, or a folder, with --numbers: a line of JSON for each"
)
_SET: Final = (
    "change one input (names and ranges below); may be given again for others; "
    "7.5 and 7,5 are the same number"
)
_LINES: Final = "print each FILE's results on a line of its own, also where there is but one"
_ONLY: Final = "print these groups only (names below), which is quicker; with commas between them"
_WITH: Final = "also print what is slow or long (names below); may be given again for others"
_ASK: Final = "say what the numbers cannot know (names below); may be given again for others"
_ALSO: Final = "find the fewest parts that serve that set-up too; may be given again for others"
_SHEET: Final = "write the fit sheet, on the paper that is usual where you are"
_WEDGE: Final = "write the wedge of one foot to print or cut; may be given again for the other"
_SCALE: Final = (
    f"size of the picture, {SMALLEST_SCALE:g} to {LARGEST_SCALE:g}; {USUAL_SCALE:g} when not given"
)
_WITHOUT_RIDER: Final = (
    "leave the rider's name, notes, trials and measures of the body out of the picture"
)
_WEB: Final = "write a page that anyone can open and move, on a phone too, without a network"
_LANGUAGE: Final = (
    f"language of the page, or of the lesson: {', '.join(LANGUAGES)}; en when not given"
)
_TELLING: Final = (
    f"what of your own the page tells too, with commas between: {', '.join(OF_THE_USER)}; "
    "without it none of them"
)
_HANDOUT: Final = "write what to begin with, why and how, as pages to take home"
_CLIP: Final = "write a picture that moves"
_LESSON: Final = (
    f"clip and handout show a lesson instead: one of ours ({', '.join(OUR_LESSONS)}), or a file"
)
_FOR_CHILDREN: Final = "the lesson the way it is told to children"
_OVER: Final = "the input that moves in it, and between which values; names as for --set"
_SECONDS: Final = (
    f"how long it takes, {SHORTEST_CLIP:g} to {LONGEST_CLIP:g}; {USUAL_CLIP:g} when not given"
)
_FORCE: Final = "overwrite what is there already; without it nothing is"


@dataclass(frozen=True, slots=True)
class Command:
    """One command line, understood.

    Attributes:
        files: set-ups to start from, "-" for standard input; none for the demo rider.
        save: where to write the set-up, if wanted.
        sheet: where to write the fit sheet, if wanted.
        wedges: feet, and where to write their wedges.
        snapshot: where to write a picture, if wanted.
        scale: pixels of the picture per pixel of the window.
        web: where to write the page, if wanted.
        language: of the page or the lesson, one of :data:`app.words.language.NAMES`.
        telling: what of the user's own the page tells too.
        handout: where to write the handout, if wanted.
        lesson: what clip and handout show instead of the set-up; "" for that.
        for_children: whether the lesson is told the way it is told to children.
        clip: where to write a clip, if wanted.
        over: the input that moves in it, where it begins and where it ends.
        seconds: how long it takes.
        without_rider: whether the picture tells and carries nothing of its rider.
        force: whether files that are there may be overwritten.
        numbers: whether the numbers are wanted.
        lines: whether they are wanted on a line for each file, however many these are.
        changes: inputs to change, and what is known of the body, by name.
        parts: the parts list to build from; None for the set-up's own.
        last_season: set-up to hold the present one against, if any.
        also: further set-ups that one kit of parts is to serve.
        only: groups of the numbers that are wanted instead of the usual ones.
        sections: what the numbers are to tell beyond the usual.
        asked: what the numbers are told, by name.
        answer: text that answers the whole command (help or version); empty
            when there is something to do.
    """

    files: tuple[Path, ...] = ()
    save: Path | None = None
    sheet: Path | None = None
    wedges: tuple[tuple[str, Path], ...] = ()
    snapshot: Path | None = None
    scale: float = USUAL_SCALE
    web: Path | None = None
    language: str = SOURCE
    telling: frozenset[str] = frozenset()
    handout: Path | None = None
    lesson: str = ""
    for_children: bool = False
    clip: Path | None = None
    over: tuple[str, float, float] | None = None
    seconds: float = USUAL_CLIP
    without_rider: bool = False
    force: bool = False
    numbers: bool = False
    lines: bool = False
    changes: dict[str, float | str] = field(default_factory=dict)
    parts: Path | None = None
    last_season: Path | None = None
    also: tuple[Path, ...] = ()
    only: frozenset[str] = frozenset()
    sections: frozenset[str] = frozenset()
    asked: dict[str, float | str] = field(default_factory=dict)
    answer: str = ""

    @property
    def outputs(self) -> dict[str, list[Path]]:
        """The files to write, by the options that ask for them."""
        single = {
            "--save": self.save,
            "--sheet": self.sheet,
            "--snapshot": self.snapshot,
            "--web": self.web,
            "--handout": self.handout,
            "--clip": self.clip,
        }
        wanted = {option: [path] for option, path in single.items() if path is not None}
        return wanted | ({"--wedge": [path for _, path in self.wedges]} if self.wedges else {})

    @property
    def wants_window(self) -> bool:
        """Whether neither files nor numbers are asked for."""
        return not self.outputs and not self.numbers


def understood(arguments: Sequence[str]) -> Command:
    """The command that the arguments after the program's name stand for.

    Raises:
        CommandError: an option is unknown or lacks its value, or means nothing here.
        InputError: a changed input has no such name or no such value.
    """
    parser = _parser()
    # The parser would take the first dash after "--" for an option all the same.
    end = arguments.index(ENDS_OPTIONS) if ENDS_OPTIONS in arguments else len(arguments)
    given = vars(parser.parse_intermixed_args(arguments[:end]))
    given["files"] += [_file(each) for each in arguments[end + 1 :]]
    if given.pop("version"):
        return Command(answer=f"kneeline {__version__}\n")
    if given.pop("help"):
        from app.start.help_text import names_and_examples  # noqa: PLC0415

        parser.epilog = names_and_examples(CHANGES, _asking())
        return Command(answer=parser.format_help())
    _require_company(given)
    given["scale"] = given["scale"] or USUAL_SCALE
    given["language"] = given["language"] or SOURCE
    given["telling"] = _among("--telling", given["telling"], OF_THE_USER)
    given["seconds"] = given["seconds"] or USUAL_CLIP
    given["over"] = OVER.read_span(given["over"]) if given["over"] is not None else None
    given["files"] = tuple(given["files"])
    given["wedges"] = tuple(_wedge(*each) for each in given["wedges"])
    given["changes"] = CHANGES.read(given["changes"])
    given["asked"] = _asking().read(given["asked"]) if given["asked"] else {}
    given["also"] = tuple(given["also"])
    given["only"] = _named("--only", given["only"])
    given["sections"] = _named("--with", given["sections"]) | _implied(
        given["also"], given["asked"]
    )
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
    many: dict[str, Any] = {"action": "append", "default": []}
    out = f"OUT{SUFFIX}"
    add = parser.add_argument_group("what to open").add_argument
    add("files", metavar="FILE", nargs="*", type=_file, default=[], help=_FILE)
    add("--set", metavar="NAME=VALUE", dest="changes", help=_SET, **many)
    add("--parts", metavar="FILE", type=Path, help="build from the parts on this list")
    add = parser.add_argument_group("what to write, without a window").add_argument
    add("--save", metavar=out, type=_ending(*SUFFIXES), help="write the set-up as changed")
    add("--sheet", metavar="OUT.pdf", type=_ending(".pdf"), help=_SHEET)
    foot_and_file = ("front|rear", "OUT.stl|OUT.dxf")
    add("--wedge", metavar=foot_and_file, nargs=2, dest="wedges", help=_WEDGE, **many)
    add("--snapshot", metavar="OUT.png", type=_ending(".png"), help="write a picture")
    add("--scale", metavar="N", type=_between(SMALLEST_SCALE, LARGEST_SCALE), help=_SCALE)
    add("--without-rider", action="store_true", help=_WITHOUT_RIDER)
    add("--handout", metavar="OUT.pdf", type=_ending(".pdf"), help=_HANDOUT)
    add("--clip", metavar="OUT.gif|OUT.webp|OUT.png", type=_ending(*CLIP_ENDINGS), help=_CLIP)
    add("--over", metavar="NAME=FROM:TO", help=_OVER)
    add("--seconds", metavar="N", type=_between(SHORTEST_CLIP, LONGEST_CLIP), help=_SECONDS)
    add("--lesson", metavar="NAME|FILE", default="", help=_LESSON)
    add("--for-children", action="store_true", help=_FOR_CHILDREN)
    add("--web", metavar="OUT.html", type=_ending(".html"), help=_WEB)
    add("--language", metavar="CODE", choices=tuple(LANGUAGES), help=_LANGUAGE)
    add("--telling", metavar="NAME,...", help=_TELLING, **many)
    add("--force", action="store_true", help=_FORCE)
    add = parser.add_argument_group("what to print, without a window").add_argument
    add("--numbers", action="store_true", help="print all results as JSON")
    add("--lines", action="store_true", help=_LINES)
    add("--only", metavar="GROUP,...", help=_ONLY, **many)
    add("--with", metavar="NAME", dest="sections", help=_WITH, **many)
    add("--ask", metavar="NAME=VALUE", dest="asked", help=_ASK, **many)
    add("--last-season", metavar="FILE", type=Path, help="tell what changed since that set-up")
    add("--also", metavar="FILE", type=Path, help=_ALSO, **many)
    add("--version", action="store_true", help="print the version")
    add("-h", "--help", action="store_true", help="print this help")
    return parser


def _asking() -> NamedValues:
    """What can be asked; only the numbers know."""
    from app.numbers.question import CHOICES, NUMBERS, TEXTS  # noqa: PLC0415

    return NamedValues("--ask", "question", CHOICES, NUMBERS, TEXTS)


FOR_NUMBERS: Final = ("lines", "only", "sections", "asked", "last_season", "also")
"""What means nothing without the numbers."""
OPTIONS: Final = {"sections": "with", "asked": "ask", "last_season": "last-season"}
"""Options whose name here is another."""
WRITTEN: Final = ("save", "sheet", "wedges", "snapshot", "handout", "clip", "web")
"""What a command can write."""


def _require_company(given: Mapping[str, Any]) -> None:
    """Refuse what means nothing without another option, or beside it.

    Raises:
        CommandError: names the first such option.
    """
    for name in FOR_NUMBERS:
        if given[name] and not given["numbers"]:
            option = f"--{OPTIONS.get(name, name)}"
            raise CommandError(f"{option} is about the numbers; give --numbers beside it")
    if given["scale"] and not given["snapshot"]:
        raise CommandError("--scale is the size of the picture; give --snapshot OUT.png beside it")
    if given["without_rider"] and not given["snapshot"]:
        raise CommandError(
            "--without-rider is about the picture; give --snapshot OUT.png beside it"
        )
    if given["telling"] and not given["web"]:
        raise CommandError("--telling is about the page; give --web OUT.html beside it")
    if given["language"] and not (given["web"] or given["lesson"]):
        raise CommandError(
            "--language is about the page or a lesson; give --web OUT.html or --lesson NAME "
            "beside it"
        )
    _require_company_of_lesson(given)
    for name in ("over", "seconds"):
        if given[name] and not given["clip"]:
            raise CommandError(f"--{name} is about a clip; give --clip OUT.gif beside it")
    if given["clip"] and given["over"] is None and not given["lesson"]:
        raise CommandError(
            "--clip shows an input that moves; give --over NAME=FROM:TO beside it, such as "
            "--over knee_bend_deg=30:60"
        )
    if given["force"] and not any(given[name] for name in WRITTEN):
        raise CommandError(
            "--force overwrites what is written; give --save, --sheet, --wedge, --snapshot, "
            "--handout, --clip or --web beside it"
        )


def _require_company_of_lesson(given: Mapping[str, Any]) -> None:
    """The same of what is about a lesson.

    Raises:
        CommandError: names the first such option.
    """
    if not given["lesson"]:
        if given["for_children"]:
            raise CommandError("--for-children is about a lesson; give --lesson NAME beside it")
        return
    if not (given["clip"] or given["handout"]):
        raise CommandError(
            "--lesson is taken home; give --clip OUT.gif or --handout OUT.pdf beside it"
        )
    for name in ("over", "seconds"):
        if given[name]:
            raise CommandError(f"--{name} is about an input that moves, and a lesson moves its own")
    for name in ("files", "changes", "parts"):
        others = ("save", "sheet", "wedges", "snapshot", "web", "numbers")
        if given[name] and not any(given[each] for each in others):
            raise CommandError("a lesson has a rider of its own; leave FILE, --set and --parts out")


def require_for_one(command: Command) -> None:
    """Refuse what cannot be done with several set-ups, or with a folder of them.

    Raises:
        CommandError: says which option, or that it is numbers that can be had of several.
    """
    for option in command.outputs:
        raise CommandError(f"{option} writes of one FILE, and here are several; give them in turn")
    if not command.numbers:
        raise CommandError(
            "a window opens on one FILE, and here are several; --numbers tells of them all"
        )
    if command.last_season is not None:
        raise CommandError("--last-season is of one rider; give one FILE beside it")
    if command.also:
        raise CommandError("--also is about the parts of one FILE; give one beside it")


def _named(option: str, texts: Sequence[str]) -> frozenset[str]:
    """What is named, each alone or several with commas between them.

    Raises:
        CommandError: there is nothing of such a name.
    """
    if not texts:
        return frozenset()
    from app.numbers.question import GROUPS, SECTIONS  # noqa: PLC0415

    return _among(option, texts, GROUPS if option == "--only" else tuple(SECTIONS))


def _among(option: str, texts: Sequence[str], names: Sequence[str]) -> frozenset[str]:
    """What is named, each alone or several with commas between them.

    Raises:
        CommandError: it is not among the names.
    """
    wanted = [name.strip() for text in texts for name in text.split(",")]
    for name in wanted:
        if name not in names:
            advice = likeliest(name, names) or f"there are {', '.join(names)}"
            raise CommandError(f"there is nothing named {name!r} for {option}; {advice}")
    return frozenset(wanted)


def _implied(also: Sequence[Path], asked: dict[str, float | str]) -> frozenset[str]:
    """The sections that nobody has to name, since something is said for them."""
    return frozenset({"kits"} if also or "can_get" in asked else ())


def _file(text: str) -> Path:
    """A file, or standard input; a file called "-" is given as "./-"."""
    path = Path(text)
    return path.absolute() if str(path) == "-" != text else path


def _wedge(foot: str, text: str) -> tuple[str, Path]:
    if foot not in ENDS:
        raise CommandError(f"--wedge is for the front or the rear foot, not {foot!r}")
    try:
        return foot, _ending(*WEDGE_ENDINGS)(text)
    except ArgumentTypeError as error:
        raise CommandError(f"argument --wedge: {error}; see kneeline --help") from error


def _ending(*endings: str) -> Callable[[str], Path]:
    """Takes the name of a file that ends in one of these."""

    def path(text: str) -> Path:
        if not text.lower().endswith(endings) or text.lower() in endings:
            raise ArgumentTypeError(f"{text!r} must end in {' or '.join(endings)}")
        return Path(text)

    return path


def _between(low: float, high: float) -> Callable[[str], float]:
    """Takes a number of a range."""

    def read(text: str) -> float:
        try:
            value = number(text)
        except ValueError as error:
            raise ArgumentTypeError(str(error)) from error
        if not low <= value <= high:
            raise ArgumentTypeError(f"{text} must lie between {low:g} and {high:g}")
        return value

    return read
