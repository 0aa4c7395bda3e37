"""One table of commands: key, id, words, where available. Bindings, footer, palette, help and README follow it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple

from trainer.complaint import nearest

TODAY, PRACTICE, EXPLAIN, PROGRESS, SETUP, SUMMARY = "today", "practice", "explain", "progress", "setup", "summary"
FIRST, KEY_SPEED, CONFIRM, LOOK_UP = "first run", "key speed", "confirm", "look up"
SMALL: Final = "small window"
QUIET: Final = (TODAY, EXPLAIN, PROGRESS, SUMMARY)
"""Screens on which plain letters are free."""

ANSWER_KEYS: Final = frozenset("abcdefghijlmnoprstuy0123456789") | {
    "number_sign", "ampersand", "backspace",
}  # fmt: skip
"""Keys that answer questions in any naming system; no command of the practice may take one of them."""

INSIDE: Final = frozenset("/()+-&")
"""Signs with which no answer begins. In one that is begun (C/E) they are part of it, whatever command has them."""

_NAMED: Final = frozenset({
    "enter", "escape", "space", "tab", "backspace", "delete", "insert", "home", "end", "pageup", "pagedown",
    "up", "down", "left", "right",
})  # fmt: skip
_OTHER_NAMES: Final = {
    "solidus": "slash", "reverse_solidus": "backslash", "commercial_at": "at", "hyphen_minus": "minus",
    "plus_sign": "plus", "low_line": "underscore",
}  # fmt: skip
_SIGNS: Final = "!\"#$%&'()*+-./:;<=>?@[\\]^_`{|}~"


class Command(NamedTuple):
    """One thing that the learner can do with a key.

    Attributes:
        id: by which ``[keys]`` in profile.toml names it.
        keys: its keys, by the framework's names, the first one shown.
        words: a short name, for the footer and the palette.
        help: one sentence.
        places: the screens on which it works.
        action: what it runs.
        footer: whether the footer shows it.
    """

    id: str
    keys: tuple[str, ...]
    words: str
    help: str
    places: tuple[str, ...]
    action: str
    footer: bool = True


class Refusal(NamedTuple):
    """Why a key of the learner's own cannot be used.

    Attributes:
        id: the command, as ``[keys]`` names it.
        what: what is wrong.
        mend: what to do about it.
    """

    id: str
    what: str
    mend: str

    def __str__(self) -> str:
        return f"{self.what} (profile.toml, [keys]): {self.mend}"


COMMANDS: Final = (
    Command("practice.begin", ("enter",), "Begin", "Begin today's practice.", (TODAY,), "begin"),
    Command("practice.go-on", ("enter", "space"), "Go on", "Go on to the next question.", (PRACTICE,), "go_on"),
    Command("practice.explain", ("question_mark",), "Explain", "Explain what is asked.", (PRACTICE,), "explain"),
    Command(
        "practice.look-up", ("slash",), "Look up", "Look anything up; the answer after it is not timed.", (PRACTICE,),
        "look_up",
    ),
    Command("practice.leave", ("escape",), "Leave off", "Leave off; nothing is lost.", (PRACTICE,), "leave"),
    Command("summary.close", ("enter", "escape"), "Done", "Back to today.", (SUMMARY,), "close"),
    Command("summary.more", ("m",), "More", "Five more minutes.", (SUMMARY,), "more"),
    Command("go.today", ("t", "escape"), "Today", "What today brings.", (EXPLAIN, PROGRESS), "go('today')"),
    Command("setup.close", ("escape",), "Today", "Keep the settings and go back.", (SETUP,), "go('today')"),
    Command("look-up.close", ("escape",), "Back", "Back to the question.", (LOOK_UP,), "go('today')"),
    Command("explain.find", ("slash",), "Find", "Find by a word.", (EXPLAIN, LOOK_UP), "find"),
    Command(
        "explain.dialect", ("d",), "Other signs", "The same as it is printed, or as people type it.",
        (EXPLAIN, LOOK_UP), "dialect",
    ),
    Command(
        "explain.read-on", ("space",), "Read on", "Further down the page.", (EXPLAIN, LOOK_UP), "read_on", footer=False,
    ),
    Command("go.explain", ("e",), "Explain", "Look up every idea and sign.", (TODAY, PROGRESS), "go('explain')"),
    Command("go.progress", ("p",), "Progress", "What you read, and how well.", (TODAY, EXPLAIN), "go('progress')"),
    Command("go.setup", ("s",), "Setup", "Tuning, names, signs, minutes.", (TODAY, EXPLAIN, PROGRESS), "go('setup')"),
    Command("help.keys", ("question_mark",), "Keys", "Every key that works here.", QUIET, "keys", footer=False),
    Command("first.skip", ("enter",), "Guitar, from the start", "Take the first answers.", (FIRST,), "skip"),
    Command("speed.leave", ("escape",), "Not now", "Measure the keys another time.", (KEY_SPEED,), "leave"),
    Command("confirm.yes", ("y",), "Yes", "It is so.", (CONFIRM,), "answer(True)"),
    Command("confirm.no", ("n", "escape"), "No", "It is not.", (CONFIRM,), "answer(False)"),
    Command("app.quit", ("q",), "Quit", "Quit; everything is kept.", (*QUIET, FIRST, PRACTICE, SMALL), "quit"),
)
"""In the order in which the footer shows them; at most six a screen."""


def at(*places: str) -> tuple[Command, ...]:
    """The commands of one place, or of several."""
    return tuple(command for command in COMMANDS if set(places) & set(command.places))


def keys_of(command: Command, own: Mapping[str, str]) -> tuple[str, ...]:
    """The keys that run a command, the learner's own first of all."""
    return tuple(own[command.id].split(",")) if command.id in own else command.keys


def checked(own: Mapping[str, str]) -> tuple[dict[str, str], list[str]]:
    """The learner's own keys that can be used, and one line on each that cannot."""
    used, refused = sorted_out(own)
    return used, [str(each) for each in refused]


def sorted_out(own: Mapping[str, str]) -> tuple[dict[str, str], list[Refusal]]:
    """The learner's own keys that can be used, and why each of the others cannot.

    A key is refused when its command is unknown, when it answers questions, or when another command of the same
    screen has it.
    """
    used: dict[str, str] = {}
    refused: list[Refusal] = []
    for name, text in own.items():
        keys = tuple(_named(key.strip()) for key in text.split(",") if key.strip())
        refusal = _refusal(name, text, keys)
        if refusal is None:
            used[name] = ",".join(keys)
        else:
            refused.append(refusal)
    while (found := _first_clash(used)) is not None:
        name, other = found
        refused.append(Refusal(name, f"{own[name]!a} for {name} is the key of {other}", "change one"))
        del used[name]
    return used, refused


def _refusal(name: str, text: str, keys: tuple[str, ...]) -> Refusal | None:
    """Why a command cannot have these keys, whatever the other commands have."""
    command = next((each for each in COMMANDS if each.id == name), None)
    if command is None:
        ids = [each.id for each in COMMANDS]
        near = nearest(name, ids)
        hint = f"did you mean {near}?" if near else f"the commands are {', '.join(ids)}"
        return Refusal(name, f"no command {name!a}", hint)
    if not keys or not all(_plausible(key) for key in keys):
        near = nearest(text, sorted(_NAMED))
        hint = f"did you mean {near}?" if near else 'give one such as "f2"'
        return Refusal(name, f"{text!a} is no key for {name}", hint)
    if PRACTICE in command.places and ANSWER_KEYS & {key.lower() for key in keys}:
        return Refusal(name, f"{text!a} for {name} answers questions", "choose another key")
    return None


def keymap(own: Mapping[str, str]) -> dict[str, str]:
    """The keys of every command by its id, for the framework.

    All of them, not only the learner's own: to remap one binding, the framework drops all others of its old key.
    """
    return {command.id: ",".join(keys_of(command, own)) for command in COMMANDS} if own else {}


def steering(own: Mapping[str, str]) -> frozenset[str]:
    """The keys that run a command in the middle of a practice; they neither answer nor go on."""
    going = [command for command in at(PRACTICE) if command.id != "practice.go-on"]
    return frozenset(key for command in going for key in keys_of(command, own))


def _named(key: str) -> str:
    """A key by the framework's name: ``?`` is ``question_mark``, ``F2`` is ``f2``."""
    if len(key) != 1:
        return key.lower()
    if key not in _SIGNS:
        return key
    import unicodedata  # late: only for a learner's own keys

    name = unicodedata.name(key).lower().replace("-", "_").replace(" ", "_")
    return _OTHER_NAMES.get(name, name)


def _plausible(key: str) -> bool:
    """Whether a terminal can send such a key at all."""
    *held, last = key.split("+")
    if not set(held) <= {"ctrl", "shift", "alt"}:
        return False
    function = last[:1] == "f" and last[1:].isdigit() and last.isascii() and 1 <= int(last[1:]) <= 24
    return function or last in _NAMED or last in map(_named, _SIGNS) or (len(last) == 1 and last.isalnum())


def _first_clash(own: Mapping[str, str]) -> tuple[str, str] | None:
    """A command of the learner's own keys, the last one first, and another one of its screens with the same key."""
    for command in reversed([command for name in own for command in COMMANDS if command.id == name]):
        wanted = set(keys_of(command, own))
        for other in COMMANDS:
            if other is not command and set(other.places) & set(command.places) and wanted & set(keys_of(other, own)):
                return command.id, other.id
    return None


def key_words(command: Command, own: Mapping[str, str] | None = None) -> str:
    """The keys of a command as people read them: ``Enter or Space``."""
    names = {"question_mark": "?", "escape": "Esc", "enter": "Enter", "space": "Space", "slash": "/"}
    return " or ".join(names.get(key, key) for key in keys_of(command, own or {}))


def table() -> str:
    """The table of keys as the README has it."""
    rows = [
        f"| {key_words(command)} | {', '.join(command.places)} | {command.help} | `{command.id}` |"
        for command in COMMANDS
    ]
    return "\n".join(["| Key | Screen | What it does | Id for `[keys]` |", "|---|---|---|---|", *rows])
