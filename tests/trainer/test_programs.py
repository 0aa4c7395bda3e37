"""Practice for programs, line by line."""

from __future__ import annotations

import json
import random
import tomllib
from typing import Any

import pytest

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from drills.question import Manner
from tests.trainer.test_reports import record_lines
from tests.trainer.typing_learner import Terminal
from trainer.practice import Asked
from trainer.programs import ask_document, parse_reply
from trainer.schedule.why import Why

ASK_KEYS = {
    "n", "id", "drill", "tuning", "why", "kind", "prompt", "staff", "lit", "neck", "diagram", "choices", "help",
    "landmark", "limit", "tapping",
}  # fmt: skip
VERDICT_KEYS = {
    "n", "id", "right", "slow", "timed", "seconds", "limit", "said", "answer", "answers", "why", "misreadings",
    "repeat",
}  # fmt: skip
SIX = {"answer": "6", "seconds": 1.2}


def of(lines: list[dict[str, Any]], kind: str) -> list[dict[str, Any]]:
    """What the lines of one kind hold."""
    return [line[kind] for line in lines if kind in line]


def test_every_line_has_every_key(terminal: Terminal) -> None:
    lines = terminal.practise("--answers", "60", replies=[{"answer": str(n % 7), "seconds": 1.1} for n in range(60)])
    assert [len(line) for line in lines] == [1] * len(lines)
    asked, verdicts = of(lines, "ask"), of(lines, "verdict")
    assert len(asked) == len(verdicts) == 60
    for n, (ask, verdict) in enumerate(zip(asked, verdicts, strict=True), start=1):
        assert set(ask) == ASK_KEYS
        assert set(verdict) == VERDICT_KEYS
        assert (ask["n"], verdict["n"], verdict["id"], verdict["limit"]) == (n, n, ask["id"], ask["limit"])
        assert ask["why"] in ("repeat", "due", "new", "contrast", "second")
        assert ask["limit"] >= 1.5
        assert (ask["choices"] is not None) == (ask["kind"] == "choice")
        assert (ask["tapping"] is not None) == (ask["kind"] == "tap")
        assert verdict["right"] == (verdict["said"] in verdict["answers"])
        assert verdict["answer"] in verdict["answers"]
        assert verdict["right"] or verdict["why"]
    for tell in of(lines, "tell"):
        assert set(tell) == {"id", "text"}
    assert lines[-1] == {
        "done": {
            "answers": 60,
            "right": sum(verdict["right"] for verdict in verdicts),
            "slow": sum(verdict["slow"] for verdict in verdicts),
            "reason": "limit",
            "rid_of": [],
        }
    }


def test_what_is_to_be_tapped_is_told_in_seconds() -> None:
    found = catalogue(shipped()["standard"])
    item = found.by_id["value-tap/4-4/q-q-e-e-q"]
    asked = Asked(1, item, found.ask(item, random.Random(0), Manner()), Why.NEW, 600.0)
    # 80 beats a minute are 0.75 s each; a quarter of an eighth, 0.375 s, is 0.09375 s
    assert ask_document(asked)["tapping"] == {
        "tempo": 80, "lead_in": 4, "moments": [0.0, 0.75, 1.5, 1.875, 2.25], "length": 3.0, "window": 0.094,
    }  # fmt: skip
    other = found.by_id["bar-count/standard/4-4/beats"]
    assert ask_document(asked._replace(item=other, question=found.ask(other, random.Random(0), Manner())))[
        "tapping"
    ] is None


def test_a_lesson_is_told_before_its_first_question_and_once(terminal: Terminal) -> None:
    lines = terminal.practise("--answers", "30", replies=[SIX] * 30)
    assert list(lines[0]) == ["tell"]
    assert lines[0]["tell"]["id"] == lines[1]["ask"]["id"]
    texts = [tell["text"] for tell in of(lines, "tell")]
    assert len(set(texts)) == len(texts)


def test_what_is_lit_is_where_it_says(terminal: Terminal) -> None:
    right = {item["id"]: next(iter(item["answers"]), "0") for item in terminal.json("items")}
    seen: set[str] = set()
    for day in range(25, 30):
        terminal.now(f"2026-11-{day}T10:00:00Z")
        lines = terminal.learn(lambda ask: {"answer": right[ask["id"]], "seconds": 1.1}, "--answers", "90")
        for ask in of(lines, "ask"):
            for lit in ask["lit"]:
                seen.add(ask["drill"])
                assert set(lit) == {"string", "column"}
                row = ask["staff"][lit["string"] - 1]
                assert "-" in row
                if lit["column"] is not None:
                    assert row[lit["column"] - 1].isdigit()
                    assert not row[lit["column"] - 2].isdigit()
                elif ask["kind"] == "string":
                    assert right[ask["id"]] == str(lit["string"])
    assert {"line-to-string", "tab-to-place"} <= seen


@pytest.mark.parametrize(
    "bad",
    ["", "foo", "[]", "6", "null", '{"answer": 6}', '{"seconds": 1}', '{"answer": "6", "seconds": "1"}',
     '{"answer": "6", "seconds": true}', '{"answer": "6", "seconds": NaN}', '{"answer": null}', "[" * 20000,
     '{"answer": "6"', "\x00", '{"answer": "' + "6" * 70000 + '"}'],
    ids=lambda text: text[:24],
)  # fmt: skip
def test_a_line_that_is_no_reply_gets_an_error_and_the_same_question(terminal: Terminal, bad: str) -> None:
    lines = terminal.practise(replies=[bad, SIX])
    kinds = [next(iter(line)) for line in lines]
    assert kinds[:5] == ["tell", "ask", "error", "ask", "verdict"]
    assert lines[1] == lines[3]
    assert '{"answer": "C", "seconds": 1.4}' in lines[2]["error"]
    assert lines[4]["verdict"]["right"] is True
    assert len(record_lines(terminal.record)) == 1


def test_bytes_that_are_no_utf8_are_no_reply() -> None:
    with pytest.raises(ValueError, match="not JSON"):
        parse_reply(b'{"answer": "\xff"}')


@pytest.mark.parametrize(
    "seconds", [None, -1, 0.0, 1e9, 10**400, -0.5], ids=["null", "negative", "zero", "absurd", "huge", "less"]
)
def test_seconds_that_can_be_no_time_leave_it_untimed(terminal: Terminal, seconds: float | None) -> None:
    lines = terminal.practise(replies=[{"answer": "6", "seconds": seconds}])
    verdict = of(lines, "verdict")[0]
    assert (verdict["right"], verdict["timed"], verdict["slow"]) == (True, False, False)
    line = record_lines(terminal.record)[0]
    assert line["timed"] is False


def test_seconds_may_be_left_out(terminal: Terminal) -> None:
    verdict = of(terminal.practise(replies=[{"answer": "6"}]), "verdict")[0]
    assert (verdict["timed"], verdict["seconds"], verdict["slow"]) == (False, None, False)


def test_slow_is_right_and_over_the_limit(terminal: Terminal) -> None:
    lines = terminal.practise(replies=[{"answer": "6", "seconds": 1.7}, {"answer": "1", "seconds": 1.71}])
    first, second = of(lines, "verdict")
    assert (first["limit"], first["slow"]) == (1.7, False)
    assert (second["right"], second["slow"]) == (True, True)
    assert lines[-1]["done"] == {"answers": 2, "right": 2, "slow": 1, "reason": "end-of-input", "rid_of": []}


def test_text_that_is_no_possible_answer_is_wrong_and_recorded(terminal: Terminal) -> None:
    text = "\u202e[/b] \x1b[31m ü " + "x" * 500
    verdict = of(terminal.practise(replies=[{"answer": text, "seconds": 1}]), "verdict")[0]
    assert verdict["right"] is False
    assert verdict["misreadings"] == []
    line = record_lines(terminal.record)[0]
    assert line["said"].startswith("\u202e[/b] \x1b[31m ü ")
    assert len(line["said"]) == 200
    written = terminal.record[0].read_text()
    assert "\x1b" not in written
    assert "\u202e" not in written


def test_the_clock_moves_on_by_each_answer(terminal: Terminal) -> None:
    terminal.practise(replies=[{"answer": "6", "seconds": 2.5}, {"answer": "1"}, {"answer": "5", "seconds": 1}])
    keys = [key[:24] for key in tomllib.loads(terminal.record[0].read_text()) if "T" in key]
    assert keys == ["2026-11-25T08:00:02.500Z", "2026-11-25T08:00:02.501Z", "2026-11-25T08:00:03.501Z"]


def test_a_misreading_is_named(terminal: Terminal) -> None:
    verdict = of(terminal.practise(replies=[{"answer": "1", "seconds": 1}]), "verdict")[0]
    assert (verdict["said"], verdict["answer"], verdict["misreadings"]) == ("1", "6", ["mirrored-line"])
    assert record_lines(terminal.record)[0]["misreadings"] == ["mirrored-line"]


def test_the_same_seed_and_record_ask_the_same(terminal: Terminal) -> None:
    def ask(profile: str) -> list[dict[str, Any]]:
        return terminal.practise("--seed", "9", "--profile", profile, "--answers", "25", replies=[SIX] * 25)

    assert ask("one") == ask("two")


def test_output_is_ascii(terminal: Terminal) -> None:
    _, out = terminal.run("--plain", "--json", lines=[json.dumps({"answer": "♭ü"})])
    assert out.isascii()


def test_help_is_shown_and_stored(terminal: Terminal) -> None:
    lines = terminal.practise(replies=[SIX])
    assert of(lines, "ask")[0]["help"] == record_lines(terminal.record)[0]["help"] == ["numbers"]
