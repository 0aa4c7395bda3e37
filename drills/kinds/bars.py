"""Bars: how many, how many beats each, which beat a number falls on, where a bar line is missing."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import pictures
from drills.kinds.wording import ORDINALS
from drills.notation.drawing import Role
from drills.notation.score import At, Bar, Metre, Note, Onset, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

HALF: Final = Fraction(1, 2)
METRES: Final = {"4-4": Metre(4), "3-4": Metre(3)}
"""Most music has four beats a bar, then three (common practice, no source)."""

RHYTHMS: Final = {
    4: ("1 2 3 4", "1 2 3", "1 3 4", "1 1& 2 3", "1 2 2& 3 4", "1 3", "1 2& 3 4", "1 2 3 3& 4", "1 3& 4", "1 3 4 4&",
        "1 2 4&"),
    3: ("1 2 3", "1 2 2& 3", "1 3", "1 1& 2 3", "1 2", "1 2 3 3&", "1 3&"),
}
"""Beats of the notes of one bar; ``2&`` is half a beat after the second."""

MISSING: Final = {"4-4": ("1 2 3 4", "1 1& 2 3", "1 3 4"), "3-4": ("1 2 3", "1 2 2& 3", "1 3")}
"""The bar before the missing line, by metre; each pattern is one item."""


def beat_of(word: str) -> Fraction:
    """``2&`` -> 5/2."""
    return Fraction(int(word.rstrip("&"))) + (HALF if word.endswith("&") else 0)


def bar_of(rhythm: str, metre: Metre, tuning: Tuning, rng: random.Random) -> Bar:
    """A bar of single notes in the first position at those beats."""
    low = max(1, min(4, tuning.lines))
    beats = [beat_of(word) for word in rhythm.split()]
    return Bar(tuple(Onset((Note(rng.randint(1, low), rng.randrange(4)),), beat) for beat in beats), metre)


class BarCount:
    """How many bars, or how many beats in each."""

    name = "bar-count"
    title = "Counting bars and beats"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for metre in METRES:
            yield self._item(tuning, f"{metre}/beats", 4, f"Beats of a bar, {metre.replace('-', '/')}", 1.7)
        for bars in (1, 2, 3, 4):
            yield self._item(tuning, f"4-4/bars-{bars}", 4, f"{bars} bar{'s' if bars > 1 else ''} of four", 1.7)
        for bars in (2, 3, 4):
            yield self._item(tuning, f"3-4/bars-{bars}", 6, f"{bars} bars of three", 1.7)
        for metre, rhythms in (("4-4", RHYTHMS[4][:4]), ("3-4", RHYTHMS[3][:3])):
            for n, rhythm in enumerate(rhythms, start=1):
                notes = len(rhythm.split())
                yield self._item(tuning, f"{metre}/notes-{n}", 6, f"Notes of a bar: {rhythm}", 1.2 + 0.5 * notes)

    def _item(self, tuning: Tuning, subject: str, stage: int, title: str, think: float) -> Item:
        return Item(
            f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.COUNT, stage, title, "bars",
            think=round(think, 2),
        )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        metre, what, n = _count_subject(item)
        return {
            "metre": str(metre),
            "beats": metre.beats,
            "bars": n if what == "bars" else 2,
            "notes": len(RHYTHMS[metre.beats][n - 1].split()) if what == "notes" else None,
        }

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return bar_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning = item.tuning
        metre, what, n = _count_subject(item)
        rhythms = RHYTHMS[metre.beats]
        bars = [bar_of(rng.choice(rhythms), metre, tuning, rng) for _ in range(n if what == "bars" else 2)]
        colours: dict[At, Role] = {}
        if what == "notes":
            marked = n % 2
            bars[marked] = bar_of(rhythms[n - 1], metre, tuning, rng)
            colours = {At(marked, i, onset.notes[0].string): Role.LIT for i, onset in enumerate(bars[marked].onsets)}
            prompt, count = f"How many notes are struck in the {ORDINALS[marked + 1]} bar?", len(bars[marked].onsets)
        elif what == "bars":
            prompt, count = "How many bars are drawn here?", n
        else:
            prompt, count = "How many beats does each bar have?", metre.beats
        view = StaffView(Piece(tuning, tuple(bars)), manner.dialect, count=True)
        if what == "notes":
            view = replace(view, count=False)
        return Question(
            item,
            prompt,
            Picture(view),
            (str(count),),
            answers.number(1, 99),
            partial(_wrong_count, view, colours, what, count),
            options=tuple(Option(str(k), "", str(k)) for k in range(1, 10)),
            traps=misreadings.of_count(count, 99),
        )


class BarBeat:
    """On which beat does a number fall?"""

    name = "bar-beat"
    title = "The beat of a number"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for half in ("", "&"):
            for name, metre in METRES.items():
                for beat in range(1, metre.beats + 1):
                    subject = f"{name}/{beat}{'-and' if half else ''}"
                    needs = (f"bar-count/{tuning.name}/{name}/beats",)
                    yield Item(
                        f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.BEAT,
                        Stage.HALF_BEATS if half else Stage.BARS, f"Beat {beat}{half} of {metre}", "beats", needs,
                        think=2.05 if half else 1.7,
                    )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        metre, word = self._wanted(item)
        return {"metre": str(metre), "beats": metre.beats, "beat": float(beat_of(word)), "bars": 1}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return bar_explanation(item, manner)

    def _wanted(self, item: Item) -> tuple[Metre, str]:
        name, _, beat = item.subject.partition("/")
        return METRES[name], beat.replace("-and", "&")

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning = item.tuning
        metre, word = self._wanted(item)
        halves = item.stage == Stage.HALF_BEATS
        rhythms = [rhythm for rhythm in RHYTHMS[metre.beats] if word in rhythm.split()]
        rhythm = rng.choice(rhythms)
        bar = bar_of(rhythm, metre, tuning, rng)
        index = rhythm.split().index(word)
        lit = At(0, index, bar.onsets[index].notes[0].string)
        view = StaffView(Piece(tuning, (bar,)), manner.dialect, colours={lit: Role.LIT}, count=True)
        words = [f"{beat}{half}" for beat in range(1, metre.beats + 1) for half in (("", "&") if halves else ("",))]
        return Question(
            item,
            "On which beat does the marked number fall?",
            Picture(view),
            (word,),
            answers.beat(metre.beats),
            partial(_wrong_beat, view, lit, word, metre.beats),
            options=tuple(
                Option(key if halves else beat, beat if halves else "", beat)
                for key, beat in zip("abcdefgh", words, strict=False)
            ),
            show=partial(_show_beat, metre.beats),
        )


class BarMissing:
    """One bar line is left out: before which number does it belong?"""

    name = "bar-missing"
    title = "The missing bar line"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for metre, rhythms in MISSING.items():
            for n, rhythm in enumerate(rhythms, start=1):
                yield Item(
                    f"{self.name}/{tuning.name}/{metre}/{n}", self.name, tuning, f"{metre}/{n}", Kind.CHOICE, 7,
                    f"After a bar of {rhythm} in {metre.replace('-', '/')}", "missing",
                    (f"bar-beat/{tuning.name}/{metre}/1",), think=3.2,
                )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        metre, rhythm = self._wanted(item)
        return {"metre": str(metre), "beats": metre.beats, "bars": 2, "before": len(rhythm.split()) + 1}

    def _wanted(self, item: Item) -> tuple[Metre, str]:
        name, _, n = item.subject.partition("/")
        return METRES[name], MISSING[name][int(n) - 1]

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return bar_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning = item.tuning
        metre, rhythm = self._wanted(item)
        bars = (bar_of(rhythm, metre, tuning, rng), bar_of(rng.choice(RHYTHMS[metre.beats]), metre, tuning, rng))
        first = len(bars[0].onsets)
        places = [(0, i) for i in range(1, first)] + [(1, i) for i in range(len(bars[1].onsets))]
        options = tuple(
            Option(key, "", str(number)) for number, key in enumerate("abcdefgh"[: len(places)], start=2)
        )
        right = options[first - 1].answer
        view = StaffView(Piece(tuning, bars), manner.dialect, count=True, hidden_bar_lines=frozenset({0}))
        keyed = replace(
            view, keys={at: (option.key, option.answer) for at, option in zip(places, options, strict=True)}
        )
        return Question(
            item,
            f"One bar line is missing; each bar has {metre.beats} beats. Which number comes right after it?",
            Picture(keyed),
            (right,),
            answers.choice(options),
            partial(_wrong_missing, view, metre),
            options=options,
            choices=options,
            show=lambda answer: f"number {answer} from the left",
        )


def bar_explanation(item: Item, manner: Manner) -> Explanation:
    """Bars, beats and the count line."""
    tuning = item.tuning
    metre = Metre(4)
    rng = random.Random(3)
    bars = (bar_of("1 2 3 4", metre, tuning, rng), bar_of("1 2& 3", metre, tuning, rng))
    view = StaffView(Piece(tuning, bars), manner.dialect, count=True)
    lines = {
        "bars": (
            "Upright lines through the staff are bar lines; what stands between two of them is a bar. The line at "
            "the very left opens the first bar, the one at the very right closes the last.",
            "Every bar of a piece has the same number of beats: mostly four, often three. Under these bars stands "
            "the count: say it aloud, evenly, and tap your foot.",
            "A bar can hold fewer numbers on its lines than it has beats, or more: a note may last, or two may share "
            "a beat. Press the number that is asked for.",
        ),
        "beats": (
            "Look straight down from a number to the count under the staff: that is its beat. The & (say “and”) is "
            "half a beat later; 2& is the half after beat 2.",
            "Here the second bar has numbers on 1, on 2& and on 3. Press the key of the beat.",
        ),
        "missing": (
            "A bar line stands before beat 1: where the count starts again, a new bar begins.",
            "Count to the last beat of the bar; the next number on the lines opens the next bar. Press the letter "
            "under it.",
        ),
    }[item.lesson]
    title = {"bars": "Bars and beats", "beats": "Which beat?", "missing": "Where the bar ends"}[item.lesson]
    return Explanation(title, lines, pictures.with_neck(view, manner))


def _count_subject(item: Item) -> tuple[Metre, str, int]:
    """Metre, what is counted (bars, beats or notes), and which."""
    name, _, rest = item.subject.partition("/")
    what, _, n = rest.partition("-")
    return METRES[name], what, int(n or 0)


def _wrong_count(view: StaffView, colours: dict[At, Role], what: str, count: int, said: str) -> Feedback:
    are = "is 1" if count == 1 else f"are {count}"
    why = {
        "bars": f"Count the spaces between the bar lines, not the lines: there {are}.",
        "beats": f"The count under the staff runs from 1 to {count} and begins again after the bar line.",
        "notes": f"Each number on the lines is one note, and between its two bar lines there {are}.",
    }[what]
    shown = dict.fromkeys(colours, Role.TRUE)
    return Feedback(why, Picture(replace(view, count=True, colours=shown)))


def _show_beat(beats: int, answer: str) -> str:
    return answer if answers.beat(beats)(answer) != answer else f"beat {answer}"


def _wrong_beat(view: StaffView, lit: At, word: str, beats: int, said: str) -> Feedback:
    colours = {lit: Role.TRUE}
    why = f"Straight below the marked number the count says {word}"
    heard = answers.beat(beats)(said)
    for index, onset in enumerate(view.piece.bars[0].onsets):
        if heard is not None and onset.beat == beat_of(heard):
            colours[At(0, index, onset.notes[0].string)] = Role.SAID
            why += f"; another number falls on {heard}"
    return Feedback(why + ".", Picture(replace(view, colours=colours)))


def _wrong_missing(view: StaffView, metre: Metre, said: str) -> Feedback:
    why = f"Each bar has {metre.beats} beats: the bar line stands where the count begins again at 1."
    first = view.piece.bars[1].onsets[0].notes[0].string
    shown = replace(view, hidden_bar_lines=frozenset(), colours={At(1, 0, first): Role.TRUE})
    places = [(0, i) for i in range(1, len(view.piece.bars[0].onsets))]
    places += [(1, i) for i in range(len(view.piece.bars[1].onsets))]
    for index, (bar, onset) in enumerate(places):
        if said == str(index + 2):
            string = view.piece.bars[bar].onsets[onset].notes[0].string
            shown = replace(shown, colours={**shown.colours, At(bar, onset, string): Role.SAID})
            break
    return Feedback(why, Picture(replace(shown, labels=pictures.line_numbers(view.piece.tuning))))
