"""Practice for people, line by line."""

from __future__ import annotations

import random
import re
from itertools import count
from types import SimpleNamespace

import pytest

from drills.catalogue import catalogue
from drills.notation.pitch import Naming
from drills.notation.staff_view import Dialect
from drills.notation.tuning import shipped
from drills.question import Kind, Manner, Question
from tests.trainer.test_reports import record_lines
from tests.trainer.typing_learner import Terminal
from trainer.hints import how_to_answer, read_answer

CATALOGUE = catalogue(shipped()["standard"])


def question(item: str) -> Question:
    """An item of standard tuning, asked."""
    return CATALOGUE.ask(CATALOGUE.by_id[item], random.Random(1), Manner(dialect=Dialect.TEXT))


def test_a_first_sitting(terminal: Terminal) -> None:
    code, out = terminal.run("--plain", lines=["6", "6", "q"])
    assert (code, terminal.errors) == (0, "")
    lesson, first, second, rest = out.split("\nQuestion ", 3)[0], *out.split("\nQuestion ", 3)[1:]
    assert "One line, one string" in lesson
    assert "Which string is this line?" in first
    assert "|-----------| <-- this line" in first
    assert "Right: string 6." in first
    assert "Wrong: it is string 1; you said string 6." in second
    assert "String 1 is the top line; string 6 is the bottom line." in second
    assert "That is the staff read upside down." in second
    assert "<-- your answer" in second
    assert "2 answers, 1 right." in rest
    assert [line["said"] for line in record_lines(terminal.record)] == ["6", "6"]
    assert all(line["timed"] is False for line in record_lines(terminal.record))


def test_an_impossible_answer_gets_a_hint_and_is_asked_again(terminal: Terminal) -> None:
    _, out = terminal.run("--plain", lines=["seven \x1b[31m\u202e", "", "6", "q"])
    hint = "'seven \\x1b[31m\\u202e' is no answer here. Type the number of the string, from 1 to 6."
    assert hint in " ".join(out.split())
    assert "\x1b" not in out
    assert "\u202e" not in out
    assert "Right: string 6." in out
    assert len(record_lines(terminal.record)) == 1


def test_a_question_mark_explains(terminal: Terminal) -> None:
    _, out = terminal.run("--plain", lines=["?", "6"])
    assert out.count("One line, one string") == 2
    assert out.count("<-- this line") == 3
    assert "1 answer, 1 right." in out


@pytest.mark.parametrize("lines", [["q"], ["Q "], ["quit"], []])
def test_stopping(terminal: Terminal, lines: list[str]) -> None:
    code, out = terminal.run("--plain", lines=lines)
    assert code == 0
    assert out.endswith("Nothing was answered.\n")
    assert not record_lines(terminal.record)


def test_so_many_answers(terminal: Terminal) -> None:
    _, out = terminal.run("--plain", "--answers", "3", lines=["6"] * 9)
    assert out.count("\nQuestion ") == 3
    assert "3 answers, " in out


def test_spoken_draws_no_staff(terminal: Terminal) -> None:
    _, out = terminal.run("--plain", "--spoken", "--answers", "40", lines=["6"] * 200)
    assert "--" not in out
    assert "|" not in out
    assert "The bottom line is marked." in out
    assert re.search(r"string [1-6], (fret|open)", out)


def test_a_line_beyond_all_measure_is_no_answer(terminal: Terminal) -> None:
    code, out = terminal.run("--plain", lines=["6" * 70000, "6"])
    assert code == 0
    assert "'' is no answer here." in out
    assert "Right: string 6." in out


@pytest.mark.parametrize(("argv", "base"), [((), 1.5), (("--spoken",), 6.0)])
def test_a_person_at_a_terminal_is_timed_with_room_for_typing(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch, argv: tuple[str, ...], base: float
) -> None:
    times = count(100.0, base + 0.5)
    monkeypatch.setattr("trainer.plain.time", SimpleNamespace(monotonic=lambda: next(times)))
    _, out = terminal.run("--plain", "--answers", "1", *argv, lines=["6"], typed=True)
    line = record_lines(terminal.record)[0]
    assert (line["seconds"], line["base"], line["limit"]) == (base + 0.5, base, base + 1.2)
    assert "timed" not in line
    assert f"Right: string 6, {base + 0.5:.1f} s." in out


def test_what_was_explained_in_between_is_not_timed(terminal: Terminal) -> None:
    terminal.run("--plain", "--answers", "1", lines=["?", "6"], typed=True)
    assert record_lines(terminal.record)[0]["timed"] is False


def test_slow_is_said_with_what_to_aim_for(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    times = count(100.0, 4.0)
    monkeypatch.setattr("trainer.plain.time", SimpleNamespace(monotonic=lambda: next(times)))
    _, out = terminal.run("--plain", "--answers", "1", lines=["6"], typed=True)
    assert "Right, slow: string 6, 4.0 s (aim for 2.7 s)." in out


@pytest.mark.parametrize(
    "item",
    ["fret-to-note/standard/5/3", "line-to-string/standard/6", "line-to-string/standard/6-name",
     "neck-to-line/standard/2", "order/standard/hit-1-2", "order/standard/seq-4-2", "order/standard/set-1.3",
     "tab-to-place/standard/5/3", "mark-name/hammer-on-text", "mark-picked/h", "bar-beat/standard/4-4/2",
     "note-to-fret/standard/6/g", "chord-symbol/standard/x32010", "chord-symbol/standard/2x0232"],
)  # fmt: skip
def test_every_kind_says_how_it_is_answered(item: str) -> None:
    asked = question(item)
    hint = how_to_answer(asked, Naming.LETTERS)
    assert hint.startswith("Type ")
    assert hint.endswith(".")
    assert "\n" not in hint
    assert read_answer(asked, "no such answer") is None
    for answer in asked.answers:
        assert read_answer(asked, answer) == answer


def test_hints_speak_the_learners_note_names() -> None:
    assert "Fis" in how_to_answer(question("fret-to-note/standard/5/3"), Naming.GERMAN)
    assert "fa#" in how_to_answer(question("fret-to-note/standard/5/3"), Naming.SOLFEGE)
    found = catalogue(shipped()["standard"])
    asked = found.ask(found.by_id["chord-symbol/standard/x32010"], random.Random(0), Manner(Naming.GERMAN))
    assert "Fism7" in how_to_answer(asked, Naming.GERMAN)


def test_the_letter_of_a_place_stands_for_the_place() -> None:
    asked = question("tab-to-place/standard/5/3")
    key = next(option.key for option in asked.options if option.answer == "5/3")
    assert read_answer(asked, key.upper()) == "5/3"
    assert read_answer(asked, "5 3") == "5 3"
    assert read_answer(asked, "z") is None


def test_a_letter_that_two_strings_share_proves_neither() -> None:
    asked = question("line-to-string/standard/6-name")
    assert asked.item.kind is Kind.STRING
    assert read_answer(asked, "E") is None
    assert read_answer(asked, "low E") == "low E"
    assert "low E" in how_to_answer(asked, Naming.LETTERS)
