"""profile.toml: the sound part is used, the wrong part is told, comments stay."""

from __future__ import annotations

import re
import tomllib
from dataclasses import fields
from pathlib import Path

import pytest

from drills.notation.pitch import Naming
from drills.notation.staff import Dialect
from tests.trainer.profile.faults import START, FaultyDisk, answer, practise
from trainer.app import SixlineApp
from trainer.clock import Clock
from trainer.commands import COMMANDS
from trainer.learner import Learner
from trainer.opening import Choices
from trainer.profile.change import TEMPLATE, save_settings
from trainer.profile.files import Disk
from trainer.profile.settings import Settings, from_snapshot, read_settings, to_snapshot
from trainer.profile.store import Profile
from trainer.profile.theme_names import THEMES


def test_the_first_file_says_the_defaults_and_explains_each() -> None:
    read = read_settings(TEMPLATE.encode(), "f")
    assert read.settings == Settings()
    assert read.problems == ()
    lines = TEMPLATE.split("\n")
    for name in set(tomllib.loads(TEMPLATE)) - {"format"}:
        at = next(n for n, line in enumerate(lines) if line.startswith((f"{name} =", f"[{name}]")))
        assert lines[at - 1].startswith("#")


def test_every_setting_is_read() -> None:
    text = """
        tuning = "drop-d"
        capo = 2
        naming = "german"
        dialect = "text"
        hand = "left"
        sentence = "Every [b]ad"
        minutes = 15
        theme = "ink"
        help = "always"
        reader = true
        motion = "off"
        short_words = true
        talk_of_speed = false
        key_seconds = 1.2
        own-tuning = { strings = "C2 G2 C3 F3" }
        keys = { "app.quit" = "f9", practice.leave = "f2" }
    """
    read = read_settings(text.encode(), "f")
    assert read.problems == ()
    assert read.settings == Settings(
        tuning="drop-d",
        own_tuning="C2 G2 C3 F3",
        capo=2,
        naming=Naming.GERMAN,
        dialect="text",
        hand="left",
        sentence="Every [b]ad",
        minutes=15,
        theme="ink",
        help="always",
        reader=True,
        motion="off",
        short_words=True,
        talk_of_speed=False,
        key_seconds=1.2,
        keys={"app.quit": "f9", "practice.leave": "f2"},
    )
    assert len(fields(Settings)) == 16  # each of them is above


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('tunning = "standard"', "did you mean tuning?"),
        ('tuning = "drop-e"', "did you mean drop-d?"),
        ('hand = "lefty"', "did you mean left?"),
        ('naming = "solfège"', "did you mean solfege?"),
        ('naming = "xyz"', "it can be letters, german, solfege"),
        ("capo = 13", "0 to 12"),
        ('capo = "2"', "0 to 12"),
        ("minutes = 0", "1 to 180"),
        ("minutes = 181", "1 to 180"),
        ("minutes = 7.5", "whole minutes"),
        ("help = 1", "it can be fading, always, never"),
        ('help = "alway"', "did you mean always?"),
        ('dialect = "txt"', "did you mean text?"),
        ('motion = "of"', "did you mean off?"),
        ('theme = "draculla"', "did you mean dracula?"),
        ('theme = "zzzz"', "it can be lamp, ink, "),
        ("short_words = 1", "true or false"),
        ('talk_of_speed = "no"', "true or false"),
        ("key_seconds = 0.1", "0.15 to 5 seconds, or 0"),
        ("key_seconds = nan", "0.15 to 5 seconds, or 0"),
        ('tuning = "own"', "in [own-tuning]"),
        ('tuning = "D2 A2 D3"', "a tuning of 3 strings: give 4 to 8"),
        ('tuning = "A1 B1 D2 A2 D3 G3 B3 D4 E4"', "a tuning of 9 strings: give 4 to 8"),
        ('tuning = "D2 A2 D3 G3 B3 X4"', "'X4' is no pitch"),
        ('tuning = "D2 A2 D3 G3 B3 D"', "'D' has no octave"),
        ('tuning = "A2 D2 D3 G3 B3 D4"', "give the lowest first"),
        ('tuning = "D-1 A2 D3 G3 B3 D4"', "too low to hear"),
        ('own-tuning = { strings = "D2 A2 D3" }', "give 4 to 8"),
        ('own-tuning = { string = "D2 A2 D3 G3" }', "one line strings ="),
        ('own-tuning = "D2 A2 D3 G3"', "a table [own-tuning]"),
        ('keys = { "app.quti" = "f9" }', "did you mean app.quit?"),
        ('keys = { "app.quit" = "ente" }', "did you mean enter?"),
        ('keys = { "practice.leave" = "a" }', "choose another key"),
        ('keys = { "go.setup" = "p" }', "is the key of go.progress"),
        ('sentence = "a\\u001b[2J"', "text"),
        ("keys = 3", "[keys]"),
        ('keys = { quit = 3, "app.quit" = "f9" }', "[keys]"),
        ('"\\u001b[2J" = 1', "the settings are"),
    ],
)
def test_one_bad_line_is_told_with_its_place_and_the_rest_is_used(line: str, told: str) -> None:
    other = "minutes" if "capo" in line else "capo"
    read = read_settings(f"# mine\n{line}\n{other} = 3\n".encode(), "some/profile.toml")
    (problem,) = read.problems
    assert problem.file == "some/profile.toml"
    assert problem.line in (2, None)
    assert told in str(problem)
    assert str(problem).isprintable()
    assert getattr(read.settings, other) == 3
    assert read.usable


def test_the_line_is_named() -> None:
    read = read_settings(b'capo = 1\n\n[keys]\nquit = 3\n"app.quit" = "f9"\n', "f")
    assert [(problem.line, "keys.quit = 3" in problem.message) for problem in read.problems] == [(4, True)]
    assert read.settings.keys == {"app.quit": "f9"}


def test_the_mend_of_keys_names_a_command_that_there_is() -> None:
    (problem,) = read_settings(b"keys = 3", "f").problems
    named = re.findall(r'"([a-z.-]+)" = ', problem.mend)
    assert named
    assert set(named) <= {command.id for command in COMMANDS}


def test_a_key_that_clashes_is_told_with_its_line() -> None:
    read = read_settings(b'[keys]\n"app.quit" = "f9"\ngo.setup = "p"\n', "f")
    (problem,) = read.problems
    assert (problem.severity, problem.file, problem.line) == ("warning", "f", 3)
    assert "'p' for go.setup is the key of go.progress" in problem.message


def test_the_names_of_themes_are_the_apps(tmp_path: Path) -> None:
    profile = Profile.open(tmp_path, "me")
    app = SixlineApp(Learner(Choices(tmp_path, "me"), Clock(START), profile))
    assert set(THEMES) == set(app.available_themes)


def test_what_is_not_known_is_told_and_nothing_is_overwritten(tmp_path: Path) -> None:
    practise(tmp_path, 1)
    path = tmp_path / "profiles" / "me" / "profile.toml"
    path.write_text('theme = "draculla"\nnaming = "solfge"\ncapo = 3\n')
    for _ in range(2):  # told again as long as it stands there
        profile = Profile.open(tmp_path, "me", write=True)
        assert [problem.mend for problem in profile.problems] == [
            "did you mean dracula?", "did you mean solfege?",
        ]  # fmt: skip
        assert (profile.settings.capo, profile.settings.naming) == (3, Naming.LETTERS)
        profile.keep(answer(), START)
        profile.close(START)
    assert path.read_text() == 'theme = "draculla"\nnaming = "solfge"\ncapo = 3\n'


def test_setup_writes_a_tuning_of_ones_own(tmp_path: Path) -> None:
    path = tmp_path / "profile.toml"
    with pytest.raises(ValueError, match="has no pitches"):
        save_settings(tmp_path, {"tuning": "own"}, Disk())
    with pytest.raises(ValueError, match="give 4 to 8"):
        save_settings(tmp_path, {"own_tuning": "D2 A2"}, Disk())
    assert not path.exists()
    save_settings(tmp_path, {"own_tuning": "C2 G2 C3 F3"}, Disk())
    save_settings(tmp_path, {"tuning": "own"}, Disk())
    text = path.read_text(encoding="utf-8")
    assert text == TEMPLATE.replace('"standard"', '"own"').replace('strings = ""', 'strings = "C2 G2 C3 F3"')
    assert read_settings(text.encode(), "f").problems == ()
    path.write_text("capo = 1\n")
    save_settings(tmp_path, {"own_tuning": "C2 G2 C3 F3", "tuning": "own"}, Disk())
    assert read_settings(path.read_bytes(), "f").settings == Settings(tuning="own", own_tuning="C2 G2 C3 F3", capo=1)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"capo = \n", "not TOML"),
        (b"capo = 1\ncapo = 2\n", "not TOML"),
        (b"\xff", "not UTF-8"),
        (b"a = " + b"[" * 5000, "not TOML"),
        (b"\x1b[2J = 1", "not TOML"),
        (b"format = 2\ncapo = 3\n", "newer"),
        (b'format = "1"\n', "format"),
    ],
)
def test_a_file_that_cannot_be_used_is_kept_untouched(tmp_path: Path, data: bytes, told: str) -> None:
    practise(tmp_path, 1)
    path = tmp_path / "profiles" / "me" / "profile.toml"
    path.write_bytes(data)
    profile = Profile.open(tmp_path, "me", write=True)
    assert profile.settings == Settings()
    (problem,) = profile.problems
    assert told in problem.message
    assert str(problem).isprintable()
    with pytest.raises(ValueError, match="not saved") as caught:
        profile.change_settings({"capo": 1})
    assert str(caught.value).isprintable()
    profile.keep(answer(), START)
    profile.close(START)
    assert path.read_bytes() == data


def test_a_broken_file_falls_back_on_what_it_said_last(tmp_path: Path) -> None:
    practise(tmp_path, 1)
    path = tmp_path / "profiles" / "me" / "profile.toml"
    profile = Profile.open(tmp_path, "me", write=True)
    profile.change_settings({"capo": 5})
    profile.keep(answer(), START)
    profile.close(START)
    path.write_text("capo = = 5")
    assert Profile.open(tmp_path, "me").settings.capo == 5
    again = Profile.open(tmp_path, "me", write=True)
    again.keep(answer(), START)
    again.close(START)
    assert Profile.open(tmp_path, "me").settings.capo == 5
    path.write_text("minutes = 20")
    assert Profile.open(tmp_path, "me").settings == Settings(minutes=20)


def test_setup_keeps_comments_and_order(tmp_path: Path) -> None:
    path = tmp_path / "profile.toml"
    path.write_text("# mine\ncapo = 1 # the blue one\n\n[keys]\n# left hand\napp.quit = \"f9\"\n", encoding="utf-8")
    save_settings(tmp_path, {"capo": 2, "naming": Naming.SOLFEGE, "keys": {"go.setup": "f3"}}, Disk())
    text = path.read_text(encoding="utf-8")
    assert "# mine\ncapo = 2 # the blue one\n" in text
    assert '# left hand\napp.quit = "f9"\n"go.setup" = "f3"' in text
    assert tomllib.loads(text) == {"capo": 2, "naming": "solfege", "keys": {"app": {"quit": "f9"}, "go.setup": "f3"}}
    save_settings(tmp_path, {"keys": {"app.quit": None}}, Disk())
    assert tomllib.loads(path.read_text(encoding="utf-8"))["keys"] == {"go.setup": "f3"}


def test_setup_makes_the_first_file_with_its_comments(tmp_path: Path) -> None:
    save_settings(tmp_path / "new", {"reader": True, "dialect": Dialect.TEXT}, Disk())
    text = (tmp_path / "new" / "profile.toml").read_text(encoding="utf-8")
    assert text == TEMPLATE.replace("reader = false", "reader = true").replace('"engraved"\n', '"text"\n')


@pytest.mark.parametrize(
    "changes",
    [
        {"capo": 13}, {"kapo": 1}, {"keys": {"app.quit": ""}}, {"keys": {"app.quti": "f2"}}, {"theme": "zzz"},
        {"tuning": "none"},
    ],
)  # fmt: skip
def test_setup_refuses_what_could_not_be_read_back(tmp_path: Path, changes: dict[str, object]) -> None:
    with pytest.raises(ValueError, match=r"profile\.toml"):
        save_settings(tmp_path, changes, Disk())
    assert list(tmp_path.iterdir()) == []


def test_a_failed_change_leaves_the_old_file(tmp_path: Path) -> None:
    save_settings(tmp_path, {}, Disk())
    for point in ("create", "write", "fsync", "rename"):
        disk = FaultyDisk()
        disk.fails[point] = 28
        with pytest.raises(OSError, match="space"):
            save_settings(tmp_path, {"capo": 3}, disk)
        assert [path.name for path in tmp_path.iterdir()] == ["profile.toml"]
        assert (tmp_path / "profile.toml").read_text(encoding="utf-8") == TEMPLATE


def test_a_snapshot_comes_back_only_with_the_same_settings() -> None:
    settings = Settings(capo=3, naming=Naming.GERMAN, keys={"app.quit": "f9"})
    assert from_snapshot(to_snapshot(settings)) == settings
    with pytest.raises(ValueError, match="other settings"):
        from_snapshot({"capo": 3})
