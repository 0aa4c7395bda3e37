"""What the reading commands say, recomputed here from pitches, rows and the record alone."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.trainer.typing_learner import Terminal
from trainer.reports import today
from trainer.schedule.ahead import Ahead

OPEN = {1: 64, 2: 59, 3: 55, 4: 50, 5: 45, 6: 40}
"""Standard tuning as MIDI numbers: E4 B3 G3 D3 A2 E2 (common practice)."""
NAMES = ["C", "C#/Db", "D", "D#/Eb", "E", "F", "F#/Gb", "G", "G#/Ab", "A", "A#/Bb", "B"]
ITEM_KEYS = {
    "id", "drill", "tuning", "kind", "stage", "title", "prompt", "staff", "diagram", "answers", "needs", "think",
    "facts",
}  # fmt: skip
PROGRESS_KEYS = {
    "items", "new", "shaky", "known", "fluent", "kept", "due", "stage", "days", "misreadings", "by_drill",
    "notes_per_minute", "predicted",
}  # fmt: skip
KINDS = {
    "note", "string", "line", "count", "fret", "place", "choice", "picked", "order", "set", "beat", "tap", "chord",
}  # fmt: skip


def hertz(midi: int) -> float:
    """ISO 16:1975 (A4 = 440 Hz) in twelve equal steps an octave."""
    return round(float(440 * 2 ** ((midi - 69) / 12)), 3)


def numbers_in(rows: list[str]) -> list[tuple[int, int]]:
    """String and fret of every number in rows of typed tab, the top row being string 1."""
    found = []
    for string, row in enumerate(rows[:6], start=1):
        lines = row[row.index("|") :].rpartition("|")[0]
        found += [(string, int(fret)) for fret in re.findall(r"\d+", lines)]
    return found


@pytest.fixture
def items(terminal: Terminal) -> list[dict[str, Any]]:
    """Every item of standard tuning."""
    found: list[dict[str, Any]] = terminal.json("items")
    return found


def test_every_item_has_every_key(items: list[dict[str, Any]]) -> None:
    assert len(items) >= 250
    assert len({item["drill"] for item in items}) >= 10
    for item in items:
        assert set(item) == ITEM_KEYS
        assert item["kind"] in KINDS
        assert item["tuning"] == "standard"
        assert re.fullmatch(r"[a-z0-9\-/#.]{1,80}", item["id"])
        assert item["id"].startswith(item["drill"] + "/")
        assert item["answers"] or item["kind"] == "tap"  # taps are judged by a rule
        assert item["staff"]
        assert item["think"] >= 1


def test_items_come_stage_by_stage_and_need_one_another(items: list[dict[str, Any]]) -> None:
    stages = [item["stage"] for item in items]
    ids = {item["id"] for item in items}
    assert stages == sorted(stages)
    assert len(ids) == len(items)
    for item in items:
        assert set(item["needs"]) <= ids - {item["id"]}


def test_what_a_place_sounds_follows_from_its_open_string(items: list[dict[str, Any]]) -> None:
    places = [item for item in items if item["drill"] in ("fret-to-note", "tab-to-place", "place-to-tab")]
    assert len(places) > 200
    for item in places:
        facts = item["facts"]
        midi = OPEN[facts["string"]] + facts["fret"]
        assert (facts["midi"], facts["hz"]) == (midi, hertz(midi))
        assert facts["names"] == NAMES[midi % 12].split("/")


def test_a_note_is_drawn_where_its_facts_say(items: list[dict[str, Any]]) -> None:
    for item in items:
        if item["drill"] == "fret-to-note":
            facts = item["facts"]
            assert numbers_in(item["staff"]) == [(facts["string"], facts["fret"])]
            assert item["staff"][0].startswith("e|")
            assert item["answers"] == facts["names"]
        elif item["drill"] == "place-to-tab":
            assert item["answers"] == [f"{item['facts']['string']}/{item['facts']['fret']}"]
            assert (item["facts"]["string"], item["facts"]["fret"]) in numbers_in(item["staff"])


def test_the_item_of_the_surface_is_as_it_says(items: list[dict[str, Any]]) -> None:
    item = next(item for item in items if item["id"] == "fret-to-note/standard/5/3")
    assert item["kind"] == "note"
    assert item["title"] == "String 5, fret 3"
    assert item["prompt"] == "Which note is this?"
    assert item["staff"] == ["e|-----|", "B|-----|", "G|-----|", "D|-----|", "A|--3--|", "E|-----|"]
    assert item["answers"] == ["C"]
    assert item["think"] == 1.2
    assert item["facts"] == {"string": 5, "fret": 3, "midi": 48, "names": ["C"], "hz": 130.813}


def test_items_are_the_same_each_time_and_for_people_too(terminal: Terminal, items: list[dict[str, Any]]) -> None:
    assert terminal.json("items") == items
    _, out = terminal.run("items")
    for item in items:
        assert item["id"] in out.split()


def test_items_of_another_tuning(terminal: Terminal) -> None:
    for item in terminal.json("items", "--tuning", "bass"):
        assert item["tuning"] == "bass"
        assert item["facts"].get("string", 1) <= 4


def test_tunings_say_their_pitches(terminal: Terminal) -> None:
    found = {tuning["name"]: tuning for tuning in terminal.json("tunings")}
    assert {"standard", "drop-d", "half-step-down", "whole-step-down", "bass", "ukulele"} <= set(found)
    assert [string["midi"] for string in found["standard"]["strings"]] == list(OPEN.values())
    assert found["standard"]["strings"][5] == {"string": 6, "midi": 40, "name": "E2", "hz": 82.407}
    assert found["half-step-down"]["strings"][0]["name"] == "Eb4"
    for tuning in found.values():
        assert set(tuning) == {"name", "title", "remark", "strings"}
        for n, string in enumerate(tuning["strings"], start=1):
            assert (string["string"], string["hz"]) == (n, hertz(string["midi"]))
    assert found["standard"]["remark"] == ""
    assert "fifth fret" in found["banjo"]["remark"]
    _, out = terminal.run("tunings")
    assert "E4 B3 G3 D3 A2 E2" in out


def test_reading_creates_nothing(terminal: Terminal) -> None:
    for command in (["today"], ["items"], ["tunings"], ["progress"], ["profile", "list"]):
        assert terminal.run(*command)[0] == 0
        assert terminal.run(*command, "--json")[0] == 0
    for what in ("show", "check", "rebuild"):
        assert terminal.run("profile", what)[0] == 2
    assert not terminal.home.exists()


def test_today_for_somebody_new(terminal: Terminal) -> None:
    found = terminal.json("today")
    assert (found["day"], found["due"]) == ("2026-11-25", 0)
    assert found["new"] > 0
    assert 1 <= found["minutes"] <= 10
    assert [day["day"] for day in found["days"]][::13] == ["2026-11-26", "2026-12-09"]
    _, out = terminal.run("today")
    assert f"New: about {found['new']}" in out
    assert "Nothing is due on the next 14 days" in out
    assert "  0" not in out


def test_days_on_which_nothing_is_due_are_not_counted_out() -> None:
    ahead = Ahead(due=0, waiting=0, new=3, minutes=1, days=(0, 0, 5, 2, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0))
    assert today.lines(20782, ahead) == [
        "Wednesday, 2026-11-25",
        "To go over: 0. New: about 3. About 1 minute.",
        "",
        "To go over on the next 14 days:",
        "  nothing until Sat 2026-11-28",
        "  Sat 2026-11-28    5 -----",
        "  Sun 2026-11-29    2 --",
        "  nothing until Thu 2026-12-03",
        "  Thu 2026-12-03    1 -",
        "  nothing after that",
    ]


def test_progress_for_somebody_new(terminal: Terminal) -> None:
    found = terminal.json("progress")
    assert set(found) == PROGRESS_KEYS
    assert found["new"] == found["items"]
    assert found["stage"] == {"number": 1, "title": "The lines", "fluent": 0}
    assert found["notes_per_minute"] is None
    assert found["predicted"] == {"log_loss": None, "bins": [], "fitted": None}
    assert sum(drill["items"] for drill in found["by_drill"].values()) == found["items"]


def record_lines(files: list[Path]) -> list[dict[str, Any]]:
    """The answers in files of the record, read as TOML."""
    found: list[dict[str, Any]] = []
    for file in files:
        found += [line for line in tomllib.loads(file.read_text()).values() if isinstance(line, dict)]
    return found


def test_progress_follows_from_the_record(terminal: Terminal) -> None:
    replies = [{"answer": str(n % 7), "seconds": 1.0 + n / 10} for n in range(40)]
    terminal.practise(replies=replies)
    lines = record_lines(terminal.record)
    found = terminal.json("progress")
    assert set(found) == PROGRESS_KEYS
    assert sum(found[state] for state in ("new", "shaky", "known", "fluent", "kept")) == found["items"]
    assert found["shaky"] == len({line["item"] for line in lines})
    assert len(found["days"]) == 1
    day = found["days"][0]
    assert (day["day"], day["answers"], day["right"]) == (
        "2026-11-25", len(lines), sum(line["right"] for line in lines),
    )  # fmt: skip
    seconds = sorted(line["seconds"] for line in lines)
    assert day["median_seconds"] == pytest.approx((seconds[19] + seconds[20]) / 2)
    alone = [line["misreadings"][0] for line in lines if len(line.get("misreadings", [])) == 1]
    assert {each["kind"]: each["count"] for each in found["misreadings"]} == {
        kind: alone.count(kind) for kind in alone
    }
    _, out = terminal.run("progress")
    assert f"{found['items']} items: {found['new']} new, {found['shaky']} met, {found['known']} known" in out
    assert "shaky" not in out
    assert "USUAL TIME" in out
    (terminal.home / "profiles" / "me" / "profile.toml").write_text("talk_of_speed = false\n")
    _, quiet = terminal.run("progress")
    assert "2026-11-25" in quiet
    assert not re.search(r"USUAL TIME|\d s\b|a minute", quiet)
    assert "2026-11-25" in out


def test_profiles_are_listed_shown_and_rebuilt(terminal: Terminal) -> None:
    terminal.practise("--profile", "Ann B", replies=[{"answer": "6", "seconds": 1.0}] * 3)
    listed = terminal.json("profile", "list")
    assert listed["home"] == str(terminal.home)
    assert [(each["name"], each["answers"], each["days"], each["last_day"]) for each in listed["profiles"]] == [
        ("Ann B", 3, 1, "2026-11-25")
    ]
    _, out = terminal.run("profile", "list")
    assert str(terminal.home) in out
    assert "Ann B" in out
    shown = terminal.json("profile", "show", "--profile", "ann b")
    assert shown == listed["profiles"][0]
    assert terminal.run("profile", "show", "--profile", "ann b")[1].startswith("Profile Ann B in ")
    memory = terminal.home / "profiles" / "Ann B" / "memory.toml"
    before = memory.read_bytes()
    memory.write_text("broken")
    assert terminal.run("profile", "rebuild", "--profile", "Ann B")[:2] == (0, "")
    assert "3 answers counted" in terminal.errors
    assert memory.read_bytes() == before


def test_check_lists_every_problem_with_file_and_line(terminal: Terminal) -> None:
    terminal.practise(replies=[{"answer": "6"}] * 3)
    assert terminal.run("profile", "check") == (0, "Everything is in order.\n")
    assert terminal.json("profile", "check") == []
    file = terminal.record[0]
    lines = file.read_bytes().splitlines(keepends=True)
    file.write_bytes(b"".join([*lines[:3], b"what \x1b[31m is this\n", *lines[3:]]))
    (terminal.home / "profiles" / "me" / "profile.toml").write_text('format = 1\ntunning = "standard"\n')
    code, out = terminal.run("profile", "check")
    assert code == 1
    assert f"{file}:4: error: " in out
    assert "profile.toml:2: warning: " in out
    assert "did you mean tuning?" in out
    assert "\x1b" not in out
    file.write_bytes(b"".join(lines)[:-9])
    code, out = terminal.run("profile", "check", "--json")
    assert code == 0
    assert '"severity": "note"' in out


def test_a_broken_settings_file_is_told_and_the_rest_is_used(terminal: Terminal) -> None:
    folder = terminal.home / "profiles" / "me"
    folder.mkdir(parents=True)
    (folder / "profile.toml").write_text('format = 1\ntuning = "bass"\nminutes = 1000\n')
    code, out = terminal.run("items", "--json")
    assert code == 0
    assert '"tuning": "bass"' in out
    assert terminal.errors.startswith("sixline: warning: minutes = 1000 is not possible")
    assert terminal.errors.count("\n") == 1
