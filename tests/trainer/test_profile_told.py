"""What the commands make of a learner's own settings, and what they say of files that are in the way."""

from __future__ import annotations

from tests.trainer.typing_learner import Terminal


def test_a_tuning_of_ones_own(terminal: Terminal) -> None:
    pitches = "C2 G2 C3 F3 A3 D4"
    name = "own-36-43-48-53-57-62"  # MIDI numbers by the table of MIDI 1.0: C4 is 60
    spelled = terminal.json("items", "--tuning", pitches)
    assert {item["tuning"] for item in spelled} == {name}
    assert terminal.json("items", "--tuning", name) == spelled
    assert name not in {each["name"] for each in terminal.json("tunings")}
    folder = terminal.home / "profiles" / "me"
    folder.mkdir(parents=True)
    for text in (f'tuning = "own"\n[own-tuning]\nstrings = "{pitches}"\n', f'tuning = "{pitches}"\n'):
        (folder / "profile.toml").write_text(text)
        assert terminal.json("items") == spelled
        own = terminal.json("tunings")[-1]
        assert (own["name"], [string["midi"] for string in own["strings"]]) == (name, [62, 57, 53, 48, 43, 36])
        assert terminal.json("profile", "show")["tuning"] == name
        asked = [line["ask"] for line in terminal.practise(replies=[{"answer": "6"}]) if "ask" in line]
        assert {ask["tuning"] for ask in asked} == {name}
    (folder / "profile.toml").write_text(f'[own-tuning]\nstrings = "{pitches}"\n')
    assert terminal.json("items", "--tuning", "own") == spelled
    assert {item["tuning"] for item in terminal.json("items")} == {"standard"}


def test_one_is_said_as_one(terminal: Terminal) -> None:
    terminal.practise(replies=[{"answer": "6"}])
    _, out = terminal.run("profile", "show")
    assert "\n1 answer on 1 day, the last on 2026-11-25\n" in out


def test_what_stands_in_the_way_of_a_file_is_told(terminal: Terminal) -> None:
    terminal.practise(replies=[{"answer": "6"}])
    folder = terminal.home / "profiles" / "me"
    for name in ("profile.toml", "memory.toml"):
        (folder / name).unlink()
        (folder / name).mkdir()
    code, out = terminal.run("profile", "check")
    assert code == 1
    assert out.splitlines() == [
        f"{folder / name}: error: a folder stands in its place; move that away; nothing of it is read"
        for name in ("profile.toml", "memory.toml")
    ]
    (folder / "answers").rename(folder / "elsewhere")
    (folder / "answers").write_text("")
    code, out = terminal.run("profile", "check")
    assert code == 1
    assert out.startswith(f"{folder / 'answers'}: error: a file stands in its place; move that away")


def test_keys_that_clash_are_told_once(terminal: Terminal) -> None:
    terminal.practise(replies=[{"answer": "6"}])
    path = terminal.home / "profiles" / "me" / "profile.toml"
    path.write_text('[keys]\n"go.setup" = "p"\n')
    code, out = terminal.run("profile", "check")
    told = "[keys]: 'p' for go.setup is the key of go.progress"
    assert (code, out) == (0, f"{path}:2: warning: {told}; change one\n")
    for command in (["today"], ["items"], ["progress"], ["profile", "show"], ["tunings"]):
        assert terminal.run(*command)[0] == 0
        assert terminal.errors == f"sixline: warning: {told} ({path}, line 2): change one\n"
