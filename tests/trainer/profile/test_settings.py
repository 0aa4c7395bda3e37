"""profile.toml: the sound part is used, the wrong part is told, comments stay."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from drills.notation.pitch import Naming
from drills.notation.staff import Dialect
from tests.trainer.profile.faults import START, FaultyDisk, answer, practise
from trainer.profile.change import TEMPLATE, save_settings
from trainer.profile.files import Disk
from trainer.profile.settings import Settings, from_snapshot, read_settings, to_snapshot
from trainer.profile.store import Profile


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
        theme = "night"
        help = false
        reader = true
        keys = { quit = "x" }
    """
    read = read_settings(text.encode(), "f")
    assert read.problems == ()
    assert read.settings == Settings(
        "drop-d", 2, Naming.GERMAN, "text", "left", "Every [b]ad", 15, "night", False, True, {"quit": "x"}
    )


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
        ("help = 1", "true or false"),
        ('sentence = "a\\u001b[2J"', "text"),
        ("keys = 3", "[keys]"),
        ('keys = { quit = 3, next = "n" }', "[keys]"),
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
    read = read_settings(b'capo = 1\n\n[keys]\nquit = 3\n"next" = "n"\n', "f")
    assert [(problem.line, "keys.quit = 3" in problem.message) for problem in read.problems] == [(4, True)]
    assert read.settings.keys == {"next": "n"}


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
    path.write_text("# mine\ncapo = 1 # the blue one\n\n[keys]\n# left hand\nquit = \"x\"\n", encoding="utf-8")
    save_settings(tmp_path, {"capo": 2, "naming": Naming.SOLFEGE, "keys": {"next": "n"}}, Disk())
    text = path.read_text(encoding="utf-8")
    assert "# mine\ncapo = 2 # the blue one\n" in text
    assert '# left hand\nquit = "x"\nnext = "n"' in text
    assert tomllib.loads(text) == {"capo": 2, "naming": "solfege", "keys": {"quit": "x", "next": "n"}}
    save_settings(tmp_path, {"keys": {"quit": None}}, Disk())
    assert tomllib.loads(path.read_text(encoding="utf-8"))["keys"] == {"next": "n"}


def test_setup_makes_the_first_file_with_its_comments(tmp_path: Path) -> None:
    save_settings(tmp_path / "new", {"reader": True, "dialect": Dialect.TEXT}, Disk())
    text = (tmp_path / "new" / "profile.toml").read_text(encoding="utf-8")
    assert text == TEMPLATE.replace("reader = false", "reader = true").replace('"engraved"\n', '"text"\n')


@pytest.mark.parametrize("changes", [{"capo": 13}, {"kapo": 1}, {"keys": {"quit": ""}}, {"tuning": "none"}])
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
    settings = Settings(capo=3, naming=Naming.GERMAN, keys={"quit": "x"})
    assert from_snapshot(to_snapshot(settings)) == settings
    with pytest.raises(ValueError, match="other settings"):
        from_snapshot({"capo": 3})
