"""Signs from what is told of them: what is picked and heard, read again from the typed staff of the question."""

from __future__ import annotations

import re

import pytest

from tests.outside.rows import columns, marked, numbers, strings_of
from tests.outside.strings import EVERY, open_strings
from tests.outside.told import Told, items, of
from tests.outside.typed import PARTS, heard, times

SIGNS = ("mark-name", "mark-hand", "name-to-mark")
MARKS = (*SIGNS, "mark-picked", "mark-sounds", "mark-wrong")
# How each sign is typed: H. Wright, "The Guide to TAB Notation", 1995, for h p b r / \ x ~; the rest common practice,
# no source. The key is what an id says; a sign over the numbers has its column there.
TYPED = {
    "hammer-on": r"(?<=[\d)])h(?=\d)", "pull-off": r"(?<=\d)p(?=\d)", "slide-up": r"(?<=\d)/(?=\d)",
    "slide-down": r"(?<=\d)\\(?=\d)", "vibrato": r"\d~+", "mute": "x", "tap": r"t\d", "trill": r"\dtr\d",
    "harmonic": r"<\d+>", "grace": r"g\d", "ghost": r"\(\d+\)", "tie": r"(\d+)-\(\1\)",
    "slide-in-up": r"(?<=[-|])/\d", "slide-in-down": r"(?<=[-|])\\\d",
    "slide-out-up": r"\d/(?=-)", "slide-out-down": r"\d\\(?=-)",
    "pre-bend": r"\dpb\d+(?![\dr])", "pre-bend-release": r"\dpb\d+r\d", "bend-release": r"\db\d+r\d",
}  # fmt: skip
# How far a bend lifts, in frets: a whole step is two (MusicXML 4.0, ``bend-alter``, in semitones).
BENDS = {"half-bend": 1, "full-bend": 2, "bend-one-and-half": 3, "bend-two": 4}

every_tuning = pytest.mark.parametrize("tuning", EVERY)


def key_of(item: Told) -> str:
    return re.sub(r"-(engraved|text)$", "", item["id"].split("/")[-1])


def typed(tuning: str, *drills: str) -> list[Told]:
    """Items whose picture is typed tab; half of the questions about names are about print."""
    return [item for item in of(tuning, drills) if strings_of(item["staff"])]


def count(key: str, rows: list[str]) -> int:
    """How many signs of a sort stand on typed rows."""
    text = "\n".join(strings_of(rows))
    if key in BENDS:
        found = [int(high) - int(low) for low, high in re.findall(r"(\d+)b(\d+)(?!\d|r)", text)]
        return found.count(BENDS[key])
    return len(re.findall(TYPED[key], text))


@every_tuning
def test_what_is_picked_and_heard_is_on_the_staff(tuning: str) -> None:
    strings = open_strings(tuning)
    asked = typed(tuning, "mark-picked", "mark-sounds")
    assert len(asked) >= 60
    for item in asked:
        facts, found = item["facts"], heard(item["staff"])
        assert facts["picked"] == found.picked, item["id"]
        assert facts["sounds"] == [strings[string] + fret for string, fret in found.sounds], item["id"]
        assert facts["frets"] == found.frets, item["id"]
        if item["kind"] == "picked":
            assert item["answers"] == ["".join("ny"[picked] for picked in found.picked)]
        elif facts["mark"] != "harmonic":
            # Each pitch by its fret, once through; the words say how often.
            once = found.sounds[: len(found.sounds) // facts["times"]]
            assert re.findall(r"\d+|open", item["answers"][0]) == [str(fret or "open") for _, fret in once], item["id"]


@every_tuning
def test_the_signs_that_are_told_are_those_on_the_staff(tuning: str) -> None:
    for item in typed(tuning, "mark-picked", "mark-sounds"):
        facts, drawn = item["facts"], numbers(item["staff"])
        assert facts["string"] == drawn[0].string, item["id"]
        assert facts["times"] == times(item["staff"]), item["id"]
        assert facts["mark"] == next(iter(facts["marks"]), None), item["id"]
        text = "".join(item["staff"])
        bends = {"bend": r"\db\d", "pre-bend": r"\dpb\d", "release": r"\dr\d"}
        for kind, pattern in bends.items():
            assert facts["marks"].count(kind) == len(re.findall(pattern, text)), (item["id"], kind)
        # In parentheses a number is a ghost note where no legend says that it is tied.
        for kind in set(TYPED) - set(bends) - {"ghost", "pre-bend-release", "bend-release"}:
            assert facts["marks"].count(kind) == count(kind, item["staff"]), (item["id"], kind)


@every_tuning
def test_a_single_sign_sounds_what_it_says_where_it_is_drawn(tuning: str) -> None:
    strings = open_strings(tuning)
    for item in typed(tuning, "mark-name", "mark-hand"):
        facts, found = item["facts"], heard(item["staff"])
        assert facts["picked"] == found.picked, item["id"]
        assert facts["times"] == (found.sounds.count(found.sounds[0]) if facts["mark"] == "repeat" else 1)
        if key_of(item) == "pinch-harmonic":
            assert (facts["sounds"], found.sounds) == (None, [])
            continue
        assert facts["sounds"] == [strings[string] + fret for string, fret in found.sounds], item["id"]


@every_tuning
def test_print_and_typed_tab_have_the_same_facts(tuning: str) -> None:
    by_key: dict[str, list[Told]] = {}
    for item in of(tuning, SIGNS):
        # An item draws its sign in a place of its own, so what sounds is its own too.
        by_key.setdefault(key_of(item), []).append({**item["facts"], "sounds": None})
    assert len(by_key) >= 25
    for key, facts in by_key.items():
        assert all(each == facts[0] for each in facts), key


@every_tuning
def test_bends_lift_by_their_amount(tuning: str) -> None:
    for item in of(tuning, SIGNS):
        facts = item["facts"]
        if facts["amount"] is None:
            assert facts["mark"] not in ("bend", "pre-bend")
            continue
        sounds = facts["sounds"] or [0]
        lifted = max(sounds) - min(sounds) if len(sounds) > 1 else None
        assert lifted in (None, 2 * facts["amount"]), item["id"]
    for key, frets in BENDS.items():
        told = {item["facts"]["amount"] for item in of(tuning, SIGNS) if key_of(item) == key}
        assert told == {frets / 2}


@every_tuning
def test_harmonics_sound_the_overtone(tuning: str) -> None:
    # The nth overtone is n times the open string's frequency: 12 log2 n semitones over it (arithmetic).
    names = {2: "an octave", 3: "an octave and a fifth", 4: "two octaves", 5: "two octaves and a third"}
    asked = [item for item in of(tuning, ["mark-sounds"]) if item["facts"]["mark"] == "harmonic"]
    assert len(asked) >= 4
    for item in asked:
        (fret,) = item["facts"]["frets"]
        assert re.findall(r"<(\d+)>", " ".join(item["staff"])) == [str(fret)]
        assert item["answers"] == [names[PARTS[fret]]]


def test_an_overtone_rests_next_to_its_fret() -> None:
    # A fret leaves 2 ** (-n / 12) of the string; the point of rest is at most 3 % of the string away.
    for fret, parts in PARTS.items():
        touched = 1 - 2 ** (-fret / 12)
        assert min(abs(touched - part / parts) for part in range(1, parts)) < 0.03


def test_exactly_one_sign_of_those_drawn_is_the_one_that_is_asked() -> None:
    seen = set()
    for tuning in ("standard", "ukulele"):
        for item in typed(tuning, "name-to-mark"):
            if key_of(item) in (*TYPED, *BENDS):
                seen.add(key_of(item))
                assert count(key_of(item), item["staff"]) == 1, item["id"]
                assert len(marked(item["staff"], r"[1-9]")) == 4, item["id"]
    assert len(seen) >= 18


def test_the_sign_that_is_drawn_has_the_name_of_the_answer() -> None:
    for item in typed("standard", "mark-name"):
        if key_of(item) in (*TYPED, *BENDS):
            others = {key for key in (*TYPED, *BENDS) if count(key, item["staff"])} - {key_of(item)}
            assert count(key_of(item), item["staff"]) == 1, item["id"]
            # The second number of a tie stands in parentheses too; only its legend tells it from a ghost note.
            assert others == ({"ghost"} if key_of(item) == "tie" else set()), item["id"]


def broken(low: int, sign: str, high: int) -> bool:
    """Whether a sign between two frets of a string cannot be (H. Wright 1995; a bend on an open string: a finger has
    to push it, common practice, no source)."""
    return {
        "h": high <= low, "p": high >= low, "/": high <= low, "\\": high >= low,
        "b": low == 0 or high <= low, "r": low <= high,
    }[sign]  # fmt: skip


def test_exactly_one_of_those_drawn_is_written_wrongly() -> None:
    for tuning in ("standard", "banjo", "bass"):
        for item in typed(tuning, "mark-wrong"):
            # A pattern for each of the four: from its column on to the next.
            at = [column for column, _ in marked(item["staff"], r"[1-9]")]
            assert len(at) == 4, item["id"]
            wrong = []
            for start, end in zip(at, [*at[1:], 999], strict=True):
                parts = [row[start - 1 : end - 1] for row in strings_of(item["staff"])]
                pairs = [
                    (int(low), sign, int(high))
                    for part in parts
                    for low, sign, high in re.findall(r"(?=(?<!\d)(\d+)([hpbr/\\])(\d+))", part)
                ]
                dangling = [part for part in parts if re.search(r"\d[hp](?!\d)|(?<!\d)[hp]\d", part)]
                # At no other frets does an overtone of a plain harmonic rest (arithmetic).
                nowhere = [fret for part in parts for fret in re.findall(r"<(\d+)>", part) if int(fret) not in PARTS]
                # A tap and a glide from nowhere need a fret, a trill two (common practice, no source).
                idle = [part for part in parts if re.search(r"t0|(?<!\d)[/\\]0|(?<!\d)(\d+)tr\1(?!\d)", part)]
                if dangling or nowhere or idle or any(broken(*pair) for pair in pairs):
                    wrong.append(start)
            assert len(wrong) == 1, (item["id"], wrong)
            assert item["facts"]["fault"]
            assert (item["facts"]["picked"], item["facts"]["sounds"]) == (None, None)


@every_tuning
def test_every_sign_says_where_it_is_from_and_is_asked_with_its_legend(tuning: str) -> None:
    named = 0
    for item in of(tuning, MARKS):
        facts = item["facts"]
        assert re.search(r"H\. Wright 1995|MusicXML 4\.0|common practice, no source|from memory", facts["source"])
        assert facts["certainty"] in ("sure", "likely", "needs a legend"), item["id"]
        if facts["certainty"] == "needs a legend" and strings_of(item["staff"]) and item["drill"] != "name-to-mark":
            named += 1
            assert any(re.match(r"\S+: \S", row) for row in item["staff"]), item["id"]
    assert named >= 15


def test_there_are_twenty_five_signs() -> None:
    signs = {key_of(item) for item in items() if item["drill"] == "mark-hand"}
    assert len(signs) >= 25
    assert {*TYPED, *BENDS} <= signs
    assert all(len(columns(item["staff"])) >= 1 for item in typed("standard", "mark-hand"))
