"""One table of commands: what it promises, and which keys of a learner's own it takes."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Mapping
from itertools import combinations
from pathlib import Path

import pytest
from textual.binding import Binding

from drills.catalogue import catalogue
from drills.notation.pitch import Naming
from drills.notation.tuning import shipped
from drills.question import Kind, Manner
from trainer import commands
from trainer.commands import ANSWER_KEYS, COMMANDS, PRACTICE, at, checked, key_words, keymap, steering
from trainer.screens.base import bindings
from trainer.screens.keys import key_list

README = Path(__file__).resolve().parents[2] / "README.md"
PLACES = sorted({place for command in COMMANDS for place in command.places})


@pytest.mark.parametrize("place", PLACES)
def test_the_footer_has_at_most_six(place: str) -> None:
    assert 1 <= sum(command.footer for command in at(place)) <= 6


def test_ids_are_unique() -> None:
    assert max(Counter(command.id for command in COMMANDS).values()) == 1


@pytest.mark.parametrize("place", PLACES)
def test_no_two_commands_of_a_place_share_a_key(place: str) -> None:
    for one, other in combinations(at(place), 2):
        assert not set(one.keys) & set(other.keys), (one.id, other.id)


@pytest.mark.parametrize("place", PLACES)
def test_every_binding_has_its_id_and_its_keys_from_the_table(place: str) -> None:
    made = [binding for binding in bindings(place) if isinstance(binding, Binding)]
    assert [(each.id, each.key, each.action) for each in made] == [
        (command.id, ",".join(command.keys), command.action) for command in at(place)
    ]


def test_no_default_key_of_the_practice_answers_a_question() -> None:
    for command in at(PRACTICE):
        assert not ANSWER_KEYS & set(command.keys), command.id


def test_no_command_needs_a_modifier_in_the_core_loop() -> None:
    assert not any("+" in key or (key[0] == "f" and key[1:].isdigit()) for command in COMMANDS for key in command.keys)


@pytest.mark.parametrize("naming", list(Naming))
@pytest.mark.parametrize("tuning", ["standard", "ukulele"])
def test_the_keys_that_answer_are_known(naming: Naming, tuning: str) -> None:
    """Else a learner could give one of them to a command and never answer again."""
    known = catalogue(shipped()[tuning])
    needed = set()
    for item in known.items:
        question = known.ask(item, random.Random(1), Manner(naming=naming))
        needed |= {option.key for option in question.options}
        if not question.options and item.kind is not Kind.TAP:
            # No answer begins with a slash, and one that is begun keeps it from the commands.
            needed |= set(question.show(question.model).lower()) - set(" ♯♭,;or/")
    names = {"#": "number_sign", "&": "ampersand"}
    assert {names.get(key.lower(), key.lower()) for key in needed} <= ANSWER_KEYS


def test_own_keys_are_taken() -> None:
    own = {"practice.explain": "f1", "app.quit": "ctrl+x", "practice.go-on": "space", "help.keys": "?"}
    used, problems = checked(own)
    assert problems == []
    assert used == {**own, "help.keys": "question_mark"}


@pytest.mark.parametrize(
    ("written", "known_as"),
    [("?", "question_mark"), ("\\", "backslash"), ("F2", "f2"), ("PageUp", "pageup"), ("-", "minus"), ("x, X", "x,X"),
     ("`", "grave_accent"), ("left_square_bracket", "left_square_bracket"), ("[", "left_square_bracket")],
)  # fmt: skip
def test_a_key_may_be_written_as_it_looks(written: str, known_as: str) -> None:
    assert checked({"practice.explain": written}) == ({"practice.explain": known_as}, [])


@pytest.mark.parametrize(
    ("own", "told"),
    [
        ({"practice.explian": "f1"}, ("no command 'practice.explian'", "did you mean practice.explain?")),
        ({"zzzzz": "f1"}, ("no command 'zzzzz'", "the commands are practice.begin, ")),
        ({"[red]": "f1"}, ("no command '[red]'",)),
        ({"practice.leave": "a"}, ("'a' for practice.leave answers questions", "choose another key")),
        ({"practice.leave": "E"}, ("'E' for practice.leave answers questions",)),
        ({"practice.leave": "f2,3"}, ("answers questions",)),
        ({"practice.explain": "#"}, ("answers questions",)),
        ({"practice.explain": "backspace"}, ("answers questions",)),
        ({"app.quit": "y"}, ("answers questions",)),
        ({"practice.explain": "escape"}, ("is the key of practice.leave", "change one")),
        ({"go.setup": "p"}, ("'p' for go.setup is the key of go.progress",)),
        ({"go.setup": "x", "go.progress": "x"}, ("'x' for go.progress is the key of go.setup",)),
        ({"practice.explain": ""}, ("'' is no key for practice.explain", 'such as "f2"')),
        ({"practice.explain": " , "}, ("is no key",)),
        ({"practice.explain": "press me"}, ("is no key",)),
        ({"practice.explain": "ctrl+"}, ("is no key",)),
        ({"practice.explain": "hyper+x"}, ("is no key",)),
        ({"practice.explain": "f99"}, ("is no key",)),
        ({"practice.explain": "f²"}, ("is no key",)),
        ({"practice.explain": "\x1b[31m"}, ("is no key",)),
    ],
    ids=lambda value: str(value) if isinstance(value, dict) else "",
)
def test_what_cannot_be_used_is_told_in_one_line(own: dict[str, str], told: tuple[str, ...]) -> None:
    used, problems = checked(own)
    assert len(problems) == 1
    assert len(used) == len(own) - 1
    assert all(part in problems[0] for part in told), problems[0]
    assert "(profile.toml, [keys]): " in problems[0]
    assert problems[0].isprintable()


@pytest.mark.parametrize("own", [{"go.progress": "s", "go.setup": "p"}, {"go.setup": "p", "go.progress": "x"}])
def test_a_key_that_another_gives_up_is_free(own: dict[str, str]) -> None:
    assert checked(own) == (own, [])


def test_a_key_is_not_free_when_the_other_cannot_give_it_up() -> None:
    used, problems = checked({"go.setup": "p", "go.progress": "t"})
    assert used == {}
    assert [line.partition(" is ")[0] for line in problems] == ["'t' for go.progress", "'p' for go.setup"]


def test_without_own_keys_nothing_is_remapped() -> None:
    assert keymap({}) == {}


def test_one_own_key_leaves_every_other_command_its_own() -> None:
    found = keymap({"practice.explain": "f1"})
    assert found.pop("practice.explain") == "f1"
    assert found == {command.id: ",".join(command.keys) for command in COMMANDS if command.id != "practice.explain"}


def test_steering_keys_follow_the_learner() -> None:
    assert steering({}) == {"escape", "question_mark", "slash", "q"}
    assert steering({"practice.explain": "f1"}) == {"escape", "f1", "slash", "q"}


def test_the_list_of_keys_names_each_command_of_the_place() -> None:
    lines = key_list("today", {}).splitlines()
    assert len(lines) == len(at("today"))
    for line, command in zip(lines, at("today"), strict=True):
        assert line.startswith(key_words(command))
        assert command.help in line
        assert line.endswith(f"[{command.id}]")


def test_the_list_of_keys_shows_the_learners_own() -> None:
    own: Mapping[str, str] = {"go.setup": "f2"}
    line = next(line for line in key_list("today", own).splitlines() if "[go.setup]" in line)
    assert line.startswith("f2 ")


def test_keys_are_told_as_people_read_them() -> None:
    assert key_words(by_id("practice.go-on")) == "Enter or Space"
    assert key_words(by_id("practice.explain")) == "?"
    assert key_words(by_id("practice.leave")) == "Esc"


def test_the_readme_has_the_table() -> None:
    text = README.read_text(encoding="utf-8")
    assert text.count("<!-- keys -->") == text.count("<!-- /keys -->") == 1
    block = text.partition("<!-- keys -->")[2].partition("<!-- /keys -->")[0]
    assert block.strip() == commands.table()


def by_id(name: str) -> commands.Command:
    return next(command for command in COMMANDS if command.id == name)
