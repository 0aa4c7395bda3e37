"""A written bar is tapped against a pulse."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final, NamedTuple

from drills import answers, time_misreadings
from drills.kinds.rhythm.value_lessons import tap_explanation
from drills.kinds.rhythm.written import METRES, written_bar
from drills.notation.score import Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.notation.values import beat_moments, beat_word, struck
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Picture, Question, Ruling
from drills.stages import Stage
from drills.tapping import Tapping, tapping_of

THINK: Final = 30.0
"""Tapping takes as long as the pulse, about ten seconds, and a learner may wait for the feel of it: speed is not what
is asked for."""


class Written(NamedTuple):
    """One rhythm to tap: its metre, the values of its bars, pulses a minute, and the stage that teaches it."""

    metre: str
    bars: tuple[str, ...]
    tempo: int
    stage: Stage


def _of(metre: str, stage: Stage, tempo: int, *rhythms: str) -> Iterator[tuple[str, Written]]:
    for rhythm in rhythms:
        bars = tuple(rhythm.split(" | "))
        subject = f"{metre}/{rhythm.replace(' | ', '/').replace(' ', '-').replace('~', '-tie')}"
        yield subject, Written(metre, bars, tempo, stage)


TAPS: Final = dict(
    [
        *_of("4-4", Stage.HALF_BEATS, 80, "q q h", "h q q", "q h q", "q qr q q", "q q e e q", "e e q h", "q. e h",
             "q e e qr q"),
        *_of("3-4", Stage.HALF_BEATS, 80, "h q", "q e e q"),
        *_of("2-4", Stage.TWELVE_FRETS, 80, "q e e", "e e q", "q q | e e q"),
        *_of("4-4", Stage.CHORDS, 80, "h~ q q", "q. e q q", "q q h | q e e h", "e q e h", "h. q | q. e q q"),
        *_of("2-4", Stage.FAST_BEATS, 60, "s s s s q", "e s s q", "e. s q", "q s s e"),
        *_of("4-4", Stage.FAST_BEATS, 60, "q e s s h"),
        *_of("6-8", Stage.FAST_BEATS, 120, "q. q.", "q e q e", "e e e q.", "q. q e"),
    ]
)  # fmt: skip
"""Every rhythm that is tapped, by subject; each is one item."""


class ValueTap:
    """Tap what is written."""

    name = "value-tap"
    title = "Tapping a bar"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for subject, written in TAPS.items():
            title = f"Tapping {' | '.join(written.bars)} in {METRES[written.metre]}"
            needs = ("value-name/quarter", *(("value-name/eighth",) if "e" in subject else ()))
            yield Item(f"{self.name}/{subject}", self.name, tuning, subject, Kind.TAP, written.stage, title, "tapping",
                       needs, THINK)  # fmt: skip

    def facts(self, item: Item) -> Facts:
        written = TAPS[item.subject]
        metre = METRES[written.metre]
        moments = beat_moments(_piece(item, random.Random(0)))
        return {
            "metre": str(metre), "beats": metre.beats, "bars": len(written.bars), "tempo": written.tempo,
            "onsets": [float(moment) for moment in moments],
        }  # fmt: skip

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return tap_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        written = TAPS[item.subject]
        metre = METRES[written.metre]
        piece = _piece(item, rng)
        view = StaffView(piece, manner.dialect, stems=True)
        tapping = tapping_of(piece, written.tempo, metre.beats)
        pulse = f"{written.tempo} {'eighths' if metre.unit == 8 else 'beats'} a minute"
        words = _words(piece)
        return Question(
            item,
            f"Tap {'these bars' if len(written.bars) > 1 else 'this bar'} of {metre} in time, at {pulse}.",
            Picture(view),
            (),
            answers.taps,
            partial(_wrong, view, tapping, words),
            show=partial(_show, tapping, words),
            rule=partial(_rule, tapping),
            tapping=tapping,
        )


def times_of(said: str) -> tuple[float, ...]:
    """The times of an answer in normal form, in seconds."""
    return tuple(map(float, said.split()))


def _piece(item: Item, rng: random.Random) -> Piece:
    written = TAPS[item.subject]
    metre = METRES[written.metre]
    return Piece(item.tuning, tuple(written_bar(text, metre, item.tuning, rng) for text in written.bars))


def _words(piece: Piece) -> tuple[str, ...]:
    """Where each tap belongs, as it is counted."""
    beats = [piece.bars[bar].onsets[index].beat for bar, index in struck(piece)]
    return tuple(beat_word(beat) for beat in beats if beat is not None)


def _rule(tapping: Tapping, said: str) -> Ruling:
    taps = times_of(said)
    return Ruling(tapping.fits(taps), time_misreadings.of_taps(taps, tapping))


def _show(tapping: Tapping, words: tuple[str, ...], answer: str) -> str:
    """Taps that are as written by their count words, others by their number."""
    normal = answers.taps(answer)
    if normal is None:
        return answer
    taps = times_of(normal)
    if tapping.fits(taps):
        return f"taps on {_listed(words)}"
    return f"{len(taps)} tap{'s' if len(taps) > 1 else ''}"


def _listed(words: tuple[str, ...]) -> str:
    """Count words as a person says them: ``1, 2 and 4``."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]


def _wrong(view: StaffView, tapping: Tapping, words: tuple[str, ...], said: str) -> Feedback:
    """The count under the staff, and under it where the taps fell."""
    shown = replace(view, count=True)
    normal = answers.taps(said)
    if normal is None:
        return Feedback("An answer is the times of your taps in seconds, such as 0.00 0.52 1.01.", Picture(shown))
    taps = times_of(normal)
    pulses = round(tapping.length / tapping.pulse, 6)
    fell = tuple(beat for beat in tapping.in_beats(taps) if -0.5 <= beat < pulses)
    if len(taps) != len(words):
        why = f"There are {len(words)} notes to tap, on {_listed(words)}, and you tapped {len(taps)}."
    else:
        errors = tapping.fit(taps).errors
        worst = max(range(len(errors)), key=lambda n: abs(errors[n]))
        late = "late" if errors[worst] > 0 else "early"
        why = f"Tap {worst + 1} belongs on {words[worst]} and came {abs(errors[worst]):.2f} s {late}."
    return Feedback(why, Picture(replace(shown, taps=fell)))
