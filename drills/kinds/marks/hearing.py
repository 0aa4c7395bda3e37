"""What a phrase sounds like, in words, and what else a beginner may hear in it."""

from __future__ import annotations

import random
from collections.abc import Sequence
from typing import Final, NamedTuple

from drills import misreadings
from drills.kinds.marks import drawn
from drills.kinds.marks.phrase import Phrase
from drills.notation.score import MarkKind
from drills.notation.tuning import Tuning
from drills.question import Misreading

BY_FRET: Final = "Which pitches are heard, in order, each named by its fret?"
BY_INTERVAL: Final = "How far above the open string does it sound?"
MOST_TIMES: Final = 4

ABOVE_OPEN: Final = {
    3: "a minor third", 4: "a third", 5: "a fourth", 7: "a fifth", 9: "a sixth", 12: "an octave",
    19: "an octave and a fifth", 24: "two octaves", 28: "two octaves and a third",
}  # fmt: skip
"""Semitones -> the interval (common practice, no source)."""
_OVERTONES: Final = (12, 19, 24, 28)


class Heard(NamedTuple):
    """A question about sound: how it is put, its right answer, three wrong ones and what they would tell."""

    prompt: str
    right: str
    wrong: list[str]
    traps: misreadings.Traps


def heard_in(phrase: Phrase, tuning: Tuning, rng: random.Random) -> Heard:
    """What is heard in a phrase. Everything but the choice and order of the wrong answers is fixed."""
    notes = phrase.notes(tuning)
    opened = tuning.open(notes[0].string).midi
    frets = [midi - opened for midi in drawn.heard(notes, tuning) or ()]
    kinds = {mark.kind for note in notes for mark in note.marks}
    if MarkKind.HARMONIC in kinds:
        return _harmonic(notes[0].fret or 0, frets[0], rng)
    if MarkKind.TRILL in kinds:
        return _trill(frets[0], frets[1])
    if phrase.times > 1:
        return _repeated(frets, phrase.times)
    right = fret_text(frets)
    wrong = _misheard(frets, [note.fret or 0 for note in notes], rng)
    return Heard(BY_FRET, right, wrong, misreadings.of_heard(frets, fret_text))


def fret_text(frets: Sequence[int]) -> str:
    """``5, then 7``, ``open, then 2``."""
    return ", then ".join("open" if fret == 0 else str(fret) for fret in frets)


def _harmonic(fret: int, semitones: int, rng: random.Random) -> Heard:
    """Its interval above the open string; wrong are the other overtones, and what the fret would sound pressed."""
    pressed = [ABOVE_OPEN[fret]] if fret in ABOVE_OPEN and fret != semitones else []
    others = [ABOVE_OPEN[n] for n in _OVERTONES if n != semitones]
    wrong = [*pressed, *rng.sample(others, 3 - len(pressed))]
    traps = misreadings.traps({Misreading.MARK_CONFUSED: pressed}, [ABOVE_OPEN[semitones]])
    return Heard(BY_INTERVAL, ABOVE_OPEN[semitones], wrong, traps)


def _trill(low: int, high: int) -> Heard:
    right = f"{low} and {high} in turn, over and over"
    wrong = {
        Misreading.TOO_FEW: f"{low}, then {high}, once",
        Misreading.OFF_BY_ONE_FRET: f"{low} and {high + 1} in turn, over and over",
    }
    wavering = f"only {low}, wavering a little"
    traps = {kind: [text] for kind, text in wrong.items()} | {Misreading.MARK_CONFUSED: [wavering]}
    return Heard(BY_FRET, right, [*wrong.values(), wavering], misreadings.traps(traps, [right]))


def _repeated(frets: Sequence[int], times: int) -> Heard:
    def say(often: int) -> str:
        return f"{fret_text(frets)}, {('', 'once', 'twice', 'three times', 'four times')[often]}"

    wrong = [say(often) for often in range(1, MOST_TIMES + 1) if often != times]
    return Heard(BY_FRET, say(times), wrong, misreadings.of_times(times, say, MOST_TIMES))


def _misheard(heard: list[int], written: list[int], rng: random.Random) -> list[str]:
    """Three wrong answers: backwards, only what is written, one fret too little or too much at the turn."""
    right = fret_text(heard)
    turn = max(range(len(heard)), key=lambda i: heard[i])
    tries = [
        heard[::-1],
        written,
        [*written[:1], *heard] if heard[0] != written[0] else [],
        [fret + (i == turn) for i, fret in enumerate(heard)],
        [fret - (i == turn) for i, fret in enumerate(heard)],
        heard[:1],
        heard[:-1],
        [*heard, heard[0]],
    ]
    found = [fret_text(wrong) for wrong in tries if wrong and min(wrong) >= 0]
    first, *rest = dict.fromkeys(text for text in found if text != right)
    return [first, *rng.sample(rest, 2)]
