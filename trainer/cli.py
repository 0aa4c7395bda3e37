"""The commands. Everything but argparse is imported when a command needs it; Textual only to open the screen."""

from __future__ import annotations

import os
import sys
from argparse import SUPPRESS, ArgumentParser, ArgumentTypeError, Namespace

from trainer import __version__
from trainer.complaint import DONE, REFUSED, Complaint, nearest, shown

TYPE_CHECKING = False  # as in typing, whose import --help can do without
if TYPE_CHECKING:
    from argparse import _SubParsersAction
    from typing import NoReturn

    from trainer.clock import Clock
    from trainer.opening import Choices

COMMANDS = {
    "today": "what is to go over, what is new, how long it takes, the next 14 days",
    "items": "every item for a tuning, in teaching order",
    "tunings": "the tunings with their pitches",
    "read": "reads plain-text tab: the piece, what is doubtful in it, how much of it you read",
    "learn": "puts what a piece of tab needs first in practice, and keeps the piece",
    "progress": "what is new, met, known, fluent, kept; misreadings; days",
    "profile": "care of the record: list, show, check, rebuild, fit",
}
PROFILE_COMMANDS = {
    "list": "the profiles, and where their files are",
    "show": "one profile in numbers",
    "check": "every problem in its files, with file and line",
    "rebuild": "make memory and history again from the record",
    "fit": "fit the memory to what the record says of this learner, if that foretells it better",
}

HIGHEST_CAPO = 12
"""No capo goes further up: the strings would be half as long."""


class _Parser(ArgumentParser):
    """Tells an error in one line, without its usage."""

    def error(self, message: str) -> NoReturn:
        what = message.removeprefix("argument ")
        known = COMMANDS if "COMMAND: invalid choice" in what else PROFILE_COMMANDS if "WHAT: inv" in what else {}
        if known:
            name = what.partition("invalid choice: ")[2].partition(" (")[0].strip("'\"")
            near = nearest(name, list(known))
            mend = f"did you mean {near}?" if near else f"choose {', '.join(known)}"
            raise Complaint(f"there is no command '{name}'", "command line", mend)
        raise Complaint(what, "command line", f"`{self.prog} --help` says what there is")


def main(argv: list[str] | None = None) -> int:
    """Run a command; the exit code."""
    try:
        _prepare_streams()
        return _run(sys.argv[1:] if argv is None else argv)
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else REFUSED
    except Complaint as complaint:
        return _tell(str(complaint))
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        _close_quietly()
        return DONE
    except OSError as error:
        return _unexpected(error.strerror or type(error).__name__, error.filename, "look at the disk and its rights")
    except Exception as error:
        what = f"something went wrong inside: {type(error).__name__} {error}"
        return _unexpected(what, None, "run it again with SIXLINE_DEBUG=1 and report what it shows")


def _run(argv: list[str]) -> int:
    options = _parser().parse_args(argv)
    if options.command is None:
        return _practise(options)
    if options.plain or options.spoken or options.answers is not None:
        raise Complaint(f"`sixline {options.command}` asks nothing", "command line", "leave --plain and its like out")
    clock, choices = _clock(), _choices(options)
    if options.command == "items":
        from trainer.reports import items

        return items.report(choices, clock, options.tuning, as_json=options.json)
    if options.command == "tunings":
        from trainer.reports import tunings

        return tunings.report(choices, clock, as_json=options.json)
    if options.command == "today":
        from trainer.reports import today

        return today.report(choices, clock, as_json=options.json)
    if options.command == "read":
        from trainer.reports import read

        given = read.Given(options.file, options.tuning, options.capo)
        return read.report(choices, clock, given, as_json=options.json)
    if options.command == "learn":
        from trainer.reports import learn, read

        given = read.Given(options.file, options.tuning, options.capo)
        return learn.report(choices, clock, given, as_json=options.json)
    if options.command == "progress":
        from trainer.reports import progress

        return progress.report(choices, clock, as_json=options.json)
    if options.what == "fit":
        from trainer.reports import fit

        return fit.report(choices, clock, undo=options.undo, as_json=options.json)
    from trainer.reports import profiles

    return profiles.report(choices, clock, options.what, as_json=options.json)


def _practise(options: Namespace) -> int:
    if not options.plain:
        given = [
            *(["--spoken"] if options.spoken else []),
            *([f"--answers {options.answers}"] if options.answers is not None else []),
            *(["--json"] if options.json else []),
        ]
        if given:
            mend = f"run `sixline --plain {' '.join(given)}`"
            raise Complaint(f"{given[0].split()[0]} belongs to --plain", "command line", mend)
        if os.environ.get("TERM") == "dumb":
            raise Complaint("this terminal cannot draw", "TERM=dumb", "run `sixline --plain`")
        if not all(_is_terminal(number) for number in range(3)):
            raise Complaint(
                "there is no terminal to draw on", "standard input, output and error", "run `sixline --plain`"
            )
        import gc

        # Nothing of a start becomes garbage, and looking for it takes a third of the time to the first question;
        # the app turns it on again once it is drawn.
        gc.disable()
        clock, choices = _clock(), _choices(options)
        from trainer.launch import run

        return run(choices, clock)
    if options.spoken and options.json:
        raise Complaint("--spoken is for ears, --json for programs", "command line", "leave one of them out")
    clock, choices = _clock(), _choices(options)
    from trainer import sitting

    if options.json:
        return sitting.for_programs(choices, clock, limit=options.answers)
    return sitting.for_people(choices, clock, limit=options.answers, spoken=options.spoken)


def _parser() -> ArgumentParser:
    parser = _Parser(
        prog="sixline",
        description="Learn to read guitar tablature at playing speed, ten minutes a day. "
        "Without a command it opens the screen on today's practice.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"sixline {__version__}")
    parser.add_argument("--plain", action="store_true", help="practise line by line: screen readers, pipes")
    parser.add_argument("--spoken", action="store_true", help="with --plain: tab in words")
    parser.add_argument("--answers", type=_positive, metavar="N", help="with --plain: stop after N questions")
    _add_common(parser, home=None, profile=None, seed=0, json=False)
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", parser_class=_Parser)
    for name, does in COMMANDS.items():
        command = _add_command(commands, name, does)
        if name == "items":
            means = "its name as `sixline tunings` lists it, own, or its pitches: 'D2 A2 D3 G3 B3 D4'"
            command.add_argument("--tuning", metavar="NAME", help=means)
        if name in ("read", "learn"):
            command.add_argument("file", metavar="FILE", help="plain-text tab; - is standard input")
            means = "where the text cannot tell: a name as `sixline tunings` lists it, own, or pitches"
            command.add_argument("--tuning", metavar="NAME", help=means)
            command.add_argument("--capo", type=_fret, metavar="N", help="its fret, where the text cannot tell")
        if name == "profile":
            inner = command.add_subparsers(dest="what", metavar="WHAT", required=True, parser_class=_Parser)
            for what, meaning in PROFILE_COMMANDS.items():
                care = _add_command(inner, what, meaning)
                if what == "fit":
                    means = "go back to the published parameters, and fit no more by itself"
                    care.add_argument("--undo", action="store_true", help=means)
    return parser


def _add_command(commands: _SubParsersAction[_Parser], name: str, does: str) -> _Parser:
    command = commands.add_parser(
        name, help=does, description=does[0].upper() + does[1:] + ".", allow_abbrev=False
    )
    _add_common(command, home=SUPPRESS, profile=SUPPRESS, seed=SUPPRESS, json=SUPPRESS)
    return command


def _add_common(parser: ArgumentParser, home: object, profile: object, seed: object, json: object) -> None:
    """What every command takes, before and after its name."""
    parser.add_argument("--home", metavar="DIR", default=home, help="folder of all profiles (or $SIXLINE_HOME)")
    parser.add_argument("--profile", metavar="NAME", default=profile, help="which learner (me)")
    parser.add_argument("--seed", type=_whole, metavar="N", default=seed, help="fixes random choices")
    parser.add_argument("--json", action="store_true", default=json, help="for programs")


def _positive(text: str) -> int:
    if _is_number(text) and int(text) > 0:
        return int(text)
    raise ArgumentTypeError(f"'{text[:40]}' is no number from 1 up")


def _fret(text: str) -> int:
    if _is_number(text) and int(text) <= HIGHEST_CAPO:
        return int(text)
    raise ArgumentTypeError(f"'{text[:40]}' is no fret from 0 to {HIGHEST_CAPO}")


def _whole(text: str) -> int:
    if _is_number(text.removeprefix("-")):
        return int(text)
    raise ArgumentTypeError(f"'{text[:40]}' is no whole number")


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= 12


def _clock() -> Clock:
    from trainer.clock import Clock

    try:
        return Clock.from_environment(os.environ)
    except ValueError as error:
        raise Complaint(str(error)) from None


def _choices(options: Namespace) -> Choices:
    from trainer.opening import Choices
    from trainer.profile.paths import DEFAULT_NAME, home_folder

    if options.home == "":
        raise Complaint("--home is empty", "command line", "give a folder")
    name = DEFAULT_NAME if options.profile is None else options.profile
    return Choices(home_folder(options.home, os.environ), name, options.seed)


def _prepare_streams() -> None:
    """Whatever the locale: nothing that is printed can fail to be encoded, and every line goes out at once."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace", line_buffering=True)


def _is_terminal(number: int) -> bool:
    try:
        return os.isatty(number)
    except OSError:
        return False


def _tell(line: str) -> int:
    print(f"sixline: {shown(line)}", file=sys.stderr)
    return REFUSED


def _unexpected(what: str, where: object, mend: str) -> int:
    if os.environ.get("SIXLINE_DEBUG"):
        import traceback

        traceback.print_exc()
    return _tell(f"{what} ({where or 'sixline itself'}): {mend}")


def _close_quietly() -> None:
    """Nobody reads any more: give Python's last flush somewhere to go."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        return


if __name__ == "__main__":
    sys.exit(main())
