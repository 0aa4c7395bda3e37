"""The name of a chord is typed: on the screen, line by line, and by programs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drills.catalogue import catalogue
from drills.notation.pitch import Naming
from drills.notation.tuning import shipped
from drills.question import Manner
from tests.trainer.fakes import TODAY
from tests.trainer.screen import NOW, settings, squeezed, standing
from tests.trainer.screen import keys as keys_of
from trainer import plain, programs
from trainer.clock import Clock
from trainer.practice import Practice
from trainer.schedule.ledger import Ledger
from trainer.screens.stage import Stage

C_MAJOR, WITH_BASS, MINOR = (f"chord-symbol/standard/{shape}" for shape in ("x32010", "2x0232", "x02210"))


def sitting(*items: str) -> Practice:
    """A sitting on these items alone."""
    whole = catalogue(shipped()["standard"])
    chosen = tuple(whole.by_id[name]._replace(needs=()) for name in items)
    return Practice(
        whole._replace(items=chosen, by_id={item.id: item for item in chosen}), Ledger(), keep=lambda event, at: None,
        day=TODAY, seed=0, sitting=0, minutes=10, manner=Manner(), started=NOW,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("item", "typed"), [(C_MAJOR, "C"), (C_MAJOR, "c"), (WITH_BASS, "D/F#"), (WITH_BASS, "d/gb"), (MINOR, "A minor")]
)
async def test_a_name_is_typed_and_ends_with_enter(tmp_path: Path, item: str, typed: str) -> None:
    async with standing(tmp_path, begun=True) as stand:
        question = (await stand.only(item)).question
        assert question.options == ()
        await stand.press(*keys_of(question, typed)[:-1])
        assert f"{typed}▏" in stand.seen()
        await stand.press("enter")
        assert [(line["right"], line["said"]) for line in stand.record] == [(True, question.model)]


async def test_a_slash_looks_things_up_until_something_is_typed(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        question = (await stand.only(WITH_BASS)).question
        await stand.press("slash")
        assert stand.on == "LookUp"
        await stand.press("escape")
        await stand.press("D", "slash")
        assert stand.on == "PracticeScreen"
        assert "D/▏" in stand.seen()
        await stand.press("backspace", "backspace", "slash")
        assert stand.on == "LookUp"
        await stand.press("escape", *keys_of(question, "D/F#"))
        assert stand.record[0]["right"] is True


async def test_own_keys_leave_the_slash_to_an_answer(tmp_path: Path) -> None:
    settings(tmp_path, '[keys]\n"practice.look-up" = "-"\n"practice.explain" = "/"')
    async with standing(tmp_path) as stand:
        question = (await stand.only(WITH_BASS)).question
        await stand.press(*keys_of(question, "D-/F#"))
        assert [line["said"] for line in stand.record] == ["Dm/F#"]
        await stand.press("enter")
        await stand.press("minus")
        assert stand.on == "LookUp"


async def test_every_sign_of_a_name_reaches_the_answer(tmp_path: Path) -> None:
    typed = "F#m7(add11)/Bb"
    async with standing(tmp_path, begun=True) as stand:
        question = (await stand.only(C_MAJOR)).question
        await stand.press(*keys_of(question, typed)[:-1])
        assert f"{typed}▏" in stand.seen()
        await stand.press("enter")
        assert stand.at(Stage.WRONG)
        assert "The notes are C, E, G: that is C" in squeezed(stand.seen())


async def test_a_bass_that_is_left_out_is_told(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        question = (await stand.only(WITH_BASS)).question
        await stand.press(*keys_of(question, "D"))
        assert stand.at(Stage.RIGHT)
        assert "The lowest note is F#, so the whole name is D/F#." in squeezed(stand.seen())


def test_line_by_line_a_name_that_is_none_gets_a_hint_and_is_asked_again() -> None:
    lines = iter(["x32010", "?", "c major", "q"])
    said: list[str] = []
    plain.Plain(
        sitting(C_MAJOR), Clock(NOW), plain.Way(Naming.LETTERS), read=lambda: next(lines, None), say=said.append,
        kept=lambda: None,
    ).run()  # fmt: skip
    text = " ".join(" ".join(said).split())
    hint = "Type a chord name such as Am or F#m7, with a bass that is not its root as in G/B."
    assert text.count(hint) == 2
    assert "What is this chord called?" in text
    assert "Right" in text


def test_programs_type_names_too() -> None:
    told: list[dict[str, dict[str, object]]] = []
    typed = {C_MAJOR: ["nonsense", "Cmaj"], WITH_BASS: ["F/D#", "D/F♯"]}

    def reply() -> bytes | None:
        ask = told[-1]["ask"]
        assert (ask["kind"], ask["choices"]) == ("chord", None)
        left = typed[str(ask["id"])]
        return json.dumps({"answer": left.pop(0), "seconds": 2.0}).encode() if left else None

    programs.run(
        sitting(C_MAJOR, WITH_BASS), Clock(NOW), read=reply, say=lambda line: told.append(json.loads(line)),
        kept=lambda: None,
    )  # fmt: skip
    verdicts = [line["verdict"] for line in told if "verdict" in line]
    assert {(each["right"], each["said"]) for each in verdicts} == {
        (False, "nonsense"), (True, "C"), (False, "F/Eb"), (True, "D/F#"),
    }  # fmt: skip
    assert {str(each["answers"]) for each in verdicts} == {"['C']", "['D/F#']"}
