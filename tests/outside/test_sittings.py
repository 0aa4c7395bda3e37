"""Sittings for programs: every right answer, known from ``items --json`` alone, is judged right; every line's shape."""

from __future__ import annotations

from typing import Any

import pytest

from tests.outside.strings import NAMES, OWN, class_of
from tests.outside.told import Told, items
from tests.trainer.typing_learner import Terminal

TEXT, LINES = (str,), (list,)
ASK: dict[str, tuple[type, ...]] = {
    "n": (int,), "id": TEXT, "drill": TEXT, "tuning": TEXT, "why": TEXT, "kind": TEXT, "prompt": TEXT, "staff": LINES,
    "lit": LINES, "choices": (list, type(None)), "help": LINES, "limit": (float,),
}  # fmt: skip
VERDICT: dict[str, tuple[type, ...]] = {
    "n": (int,), "id": TEXT, "right": (bool,), "slow": (bool,), "timed": (bool,), "seconds": (float, type(None)),
    "limit": (float,), "said": TEXT, "answer": TEXT, "answers": LINES, "why": (str, type(None)), "misreadings": LINES,
    "repeat": (bool,),
}  # fmt: skip
DONE: dict[str, tuple[type, ...]] = {
    "answers": (int,), "right": (int,), "slow": (int,), "reason": TEXT, "rid_of": LINES,
}  # fmt: skip
WHYS = {"repeat", "due", "new", "contrast", "second"}
TUNINGS = ["standard", "ukulele", next(iter(OWN))]


def taps(item: Told) -> str:
    """Taps just where the facts say, in seconds; a tempo counts what the metre does."""
    pulse = 60 / item["facts"]["tempo"]
    return " ".join(f"{onset * pulse:.2f}" for onset in item["facts"]["onsets"])


def replies(item: Told, choices: list[dict[str, str]] | None) -> list[str]:
    """Every reply that the contract calls right: all answers, other spellings of them, the key of a choice."""
    if item["kind"] == "tap":
        return [taps(item)]
    right = list(item["answers"])
    if item["kind"] == "note":
        right += [name.lower() for name in right] + [name.replace("#", "♯").replace("b", "♭") for name in right]
        right += [other for other in ("B#", "Cb", "E#", "Fb") if NAMES[class_of(other)] == item["answers"]]
    elif item["kind"] == "picked":
        right += [right[0].replace("y", "1").replace("n", "0"), right[0].upper()]
    elif item["kind"] in ("order", "set"):
        right.append(right[0].replace(" ", ", "))
    if item["kind"] == "chord":
        right += [name.lower() for name in right] + [name.replace("#", "♯").replace("maj", "M") for name in right]
    if item["kind"] == "set":
        right += [" ".join(reversed(right[0].split())), f"{right[0]} {right[0].split()[0]}"]
    if item["kind"] == "beat":
        right += [right[0].replace("&", "and")] + [right[0].replace("&", ".5")] * ("&" in right[0])
    for choice in choices or []:
        if choice["text"] in item["answers"]:
            right.append(choice["key"])
    return right


def shaped(document: dict[str, Any], shape: dict[str, tuple[type, ...]], more: set[str]) -> None:
    """Whether every key is there with its type; others may come, but on every line."""
    assert set(shape) <= set(document) == set(shape) | more
    for key, kinds in shape.items():
        value = document[key]
        allowed = (*kinds, int) if float in kinds else kinds
        assert isinstance(value, allowed), (key, value)
        assert not isinstance(value, bool) or bool in kinds, (key, value)


@pytest.mark.parametrize(("tuning", "reader"), [*((tuning, True) for tuning in TUNINGS), ("standard", False)])
def test_what_the_items_say_is_judged_right(terminal: Terminal, tuning: str, reader: bool) -> None:
    folder = terminal.home / "profiles" / "me"
    folder.mkdir(parents=True)
    (folder / "profile.toml").write_text(f'tuning = "{tuning}"\nreader = {str(reader).lower()}\n')
    told = {item["id"]: item for item in items(tuning)}
    turn: dict[str, int] = {}

    def reply(ask: dict[str, Any]) -> dict[str, Any]:
        right = replies(told[ask["id"]], ask["choices"])
        turn[ask["id"]] = turn.get(ask["id"], -1) + 1
        return {"answer": right[turn[ask["id"]] % len(right)], "seconds": 1.1 if len(turn) % 3 else None}

    lines: list[dict[str, Any]] = []
    for day in range(1, 9):
        terminal.now(f"2026-12-{day:02}T10:00:00Z")
        lines += terminal.learn(reply, "--answers", "60")
    asks = [line["ask"] for line in lines if "ask" in line]
    verdicts = [line["verdict"] for line in lines if "verdict" in line]
    assert len(asks) == len(verdicts) >= 300
    assert len({ask["kind"] for ask in asks}) >= (9 if reader else 5)
    more_asked, more_judged = set(asks[0]) - set(ASK), set(verdicts[0]) - set(VERDICT)
    for ask, verdict in zip(asks, verdicts, strict=True):
        item = told[ask["id"]]
        shaped(ask, ASK, more_asked)
        shaped(verdict, VERDICT, more_judged)
        assert verdict["right"], (ask["id"], verdict["said"])
        assert verdict["misreadings"] == []
        # Right as it is, there is nothing to explain but a name that is seldom used.
        assert verdict["why"] is None or verdict["why"][:2] in ("B#", "Cb", "E#", "Fb"), (ask["id"], verdict["why"])
        assert (ask["id"], ask["n"], ask["limit"]) == (verdict["id"], verdict["n"], verdict["limit"])
        for key in ("drill", "tuning", "kind", "prompt"):
            assert ask[key] == item[key], (ask["id"], key)
        assert ask["why"] in WHYS
        assert item["kind"] == "tap" or verdict["answers"] == item["answers"]
        assert (ask["choices"] is None) == (ask["kind"] != "choice")
        fitting = [choice for choice in ask["choices"] or [] if choice["text"] in item["answers"]]
        assert len(fitting) == (ask["kind"] == "choice"), ask["id"]
        assert all(set(choice) == {"key", "text"} for choice in ask["choices"] or [])
        assert all(set(lit) == {"string", "column"} for lit in ask["lit"])
        assert verdict["timed"] == (verdict["seconds"] is not None)
    tells = [line["tell"] for line in lines if "tell" in line]
    for tell in tells:
        shaped(tell, {"id": TEXT, "text": TEXT}, set())
    assert bool(tells) != reader  # who reads already is placed by questions of every lesson, and told nothing
    for done in (line["done"] for line in lines if "done" in line):
        shaped(done, DONE, set())
        assert done["answers"] == done["right"]
    assert {tuple(line) for line in lines} - {("tell",)} == {("ask",), ("verdict",), ("done",)}


@pytest.mark.parametrize("tuning", TUNINGS)
def test_what_is_wrong_is_judged_wrong_and_says_why(terminal: Terminal, tuning: str) -> None:
    folder = terminal.home / "profiles" / "me"
    folder.mkdir(parents=True)
    (folder / "profile.toml").write_text(f'tuning = "{tuning}"\n')
    wrong = {"note": ("C", "F#"), "count": ("1", "2"), "fret": ("0", "1"), "string": ("1", "2"), "line": ("1", "2"),
             "place": ("1/0", "1/1"), "picked": ("y", "nnnnnnn"), "order": ("1", "2"), "set": ("C", "D"),
             "chord": ("C", "Am"), "beat": ("1", "2"), "tap": ("0.00 9.00 9.01", "1")}  # fmt: skip
    told = {item["id"]: item for item in items(tuning)}

    def reply(ask: dict[str, Any]) -> dict[str, Any]:
        if ask["choices"] is not None:
            return {"answer": next(c["key"] for c in ask["choices"] if c["text"] not in told[ask["id"]]["answers"])}
        return {"answer": next(said for said in wrong[ask["kind"]] if said not in told[ask["id"]]["answers"])}

    lines = terminal.learn(reply, "--answers", "90")
    verdicts = [line["verdict"] for line in lines if "verdict" in line]
    assert len(verdicts) == 90
    for verdict in verdicts:
        shaped(verdict, VERDICT, set(verdicts[0]) - set(VERDICT))
        assert not verdict["right"], (verdict["id"], verdict["said"])
        assert verdict["why"]
        assert verdict["answer"] in verdict["answers"]
