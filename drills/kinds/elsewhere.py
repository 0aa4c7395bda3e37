"""The same note somewhere else on the neck: what the drills on equal pitches and on octaves share."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final, NamedTuple

from drills import answers, note_misreadings
from drills.kinds import helps, pictures
from drills.kinds.notes import show_note, stage_of
from drills.kinds.places import KEYS, Place, place_text, show_place, sounding_facts
from drills.kinds.wording import capital, said_number
from drills.notation.drawing import Role
from drills.notation.tuning import Tuning
from drills.question import Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

NECK: Final = range(13)
"""Where to look for a place."""
NEAR: Final = range(10)
"""Where to look for a fret on one string: one key answers."""
NEAREST: Final = 2
"""How many right places are told of after a wrong one."""

_SUBJECT: Final = re.compile(r"(\d)/(\d+)(-down)?(?:-on-(\d))?")


class Sought(NamedTuple):
    """What an item seeks.

    Attributes:
        place: the one that is shown.
        shift: 0 for the very pitch, 12 for an octave higher, -12 for one lower.
        on: the one string on which to look, or None for all of them.
    """

    place: Place
    shift: int
    on: int | None = None

    @property
    def frets(self) -> range:
        """The range that the prompt names."""
        return NECK if self.on is None else NEAR

    def places(self, tuning: Tuning) -> list[Place]:
        """Every place in the range that sounds it, but for the one that is shown; the nearest first."""
        midi = tuning.sound(*self.place).midi + self.shift
        strings = range(1, tuning.lines + 1) if self.on is None else (self.on,)
        found = [(string, midi - tuning.open(string).midi) for string in strings]
        right = [
            (string, fret) for string, fret in found
            if fret in self.frets and fret in tuning.frets(string) and (string, fret) != self.place
        ]  # fmt: skip
        return sorted(right, key=lambda at: (abs(at[0] - self.place[0]) + abs(at[1] - self.place[1]), at))


def sought(item: Item, octave: int) -> Sought:
    """What an item of this subject seeks; ``octave`` is 0 or 12."""
    match = _SUBJECT.fullmatch(item.subject)
    if match is None:
        raise ValueError(f"'{item.subject}' is no place to start from")
    shift = -octave if match[3] else octave
    return Sought((int(match[1]), int(match[2])), shift, int(match[4]) if match[4] else None)


def elsewhere_items(
    drill: str, tuning: Tuning, octave: int, asked: Sequence[tuple[str, Stage, str, str]]
) -> Iterator[Item]:
    """Items of those subjects that have an answer on this tuning.

    Args:
        drill: its name.
        tuning: on whose strings.
        octave: 0 or 12.
        asked: subject, earliest stage, lesson and title (with the place for ``{}``) of each.
    """
    for subject, stage, lesson, title in asked:
        kind = Kind.FRET if "-on-" in subject else Kind.PLACE
        need = f"fret-to-note/{tuning.name}/{subject.partition('-')[0]}"
        item = Item(
            f"{drill}/{tuning.name}/{subject}", drill, tuning, subject, kind, stage, "", lesson, (need,),
            think=1.9 if kind is Kind.FRET else 2.6,
        )  # fmt: skip
        wanted = sought(item, octave)
        fits = wanted.place[1] in NECK and wanted.place[1] in tuning.frets(wanted.place[0])
        if fits and wanted.places(tuning):
            title = title.format(show_place(place_text(wanted.place)))
            yield item._replace(stage=max(stage, stage_of(tuning, *wanted.place)), title=title[:1].upper() + title[1:])


def elsewhere_facts(item: Item, wanted: Sought) -> Facts:
    """The place that is shown, what it sounds, and every right place."""
    tuning = item.tuning
    return {
        **sounding_facts(tuning, *wanted.place),
        "sought": tuning.sound(*wanted.place).midi + wanted.shift,
        "range": [wanted.frets[0], wanted.frets[-1]],
        "places": sorted(place_text(at) for at in wanted.places(tuning)),
    }


def ask_elsewhere(item: Item, wanted: Sought, rng: random.Random, manner: Manner, what: str) -> Question:
    """Ask for a fret on one string, or for a place among five on the neck; every right one is accepted.

    Args:
        what: ``the same pitch``, ``an octave higher``.
    """
    tuning, place = item.tuning, wanted.place
    right = wanted.places(tuning)
    staff = partial(pictures.row_of_notes, tuning, manner.dialect, [(*place, Role.LIT)])
    offered = [] if wanted.on else _offered(wanted, right, tuning, rng)
    keys = {at: (key, place_text(at)) for key, at in zip(KEYS, offered, strict=False)}
    neck = partial(
        pictures.neck_with, tuning, {place: Role.LIT}, manner.left_handed, keys=keys, highest=NECK[-1]
    )
    top = wanted.frets[-1]
    if wanted.on is None:
        prompt = f"Where{'' if wanted.shift else ' else'}, from fret 0 to {top}, is {what}?"
        options = tuple(Option(key, "", answer) for key, answer in keys.values())
    else:
        prompt = f"{capital(what)} on string {wanted.on}: which fret, from 0 to {top}?"
        options = tuple(Option(str(fret), "", str(fret)) for fret in wanted.frets)
    return Question(
        item,
        prompt,
        Picture(staff(), neck()),
        tuple(_answer(wanted, at) for at in right),
        answers.number(0, top) if wanted.on else answers.place(tuning.lines, 24),
        partial(_wrong, item, wanted, manner, what),
        helps=helps.letters(helps.both(staff, neck), tuning, manner.naming, place[0]),
        options=options,
        traps=note_misreadings.of_elsewhere(place, wanted.shift, right, tuning, wanted.on),
        show=partial(_show, wanted),
    )


def example(item: Item, wanted: Sought, manner: Manner) -> Picture:
    """The place that an item shows and its nearest answer, on the staff and on the neck."""
    letters = pictures.line_letters(item.tuning, manner.naming)
    shown = [(*wanted.place, Role.FRET), (*wanted.places(item.tuning)[0], Role.LIT)]
    dots = {(string, fret): role for string, fret, role in shown}
    return Picture(
        pictures.row_of_notes(item.tuning, manner.dialect, shown, letters),
        pictures.neck_with(item.tuning, dots, manner.left_handed, letters),
    )


def _offered(wanted: Sought, right: list[Place], tuning: Tuning, rng: random.Random) -> list[Place]:
    """One right place and four that a reader might take for it, in random order."""
    place, truth = wanted.place, rng.choice(right)
    number = tuning.sound(*place).pitch_class
    everywhere = [(s, f) for s in range(1, tuning.lines + 1) for f in tuning.frets(s, NECK[-1])]
    rng.shuffle(everywhere)

    def likely(at: Place) -> int:
        """Rank of a wrong place: the same name at another height, then the frets and strings beside the right one."""
        if tuning.sound(*at).pitch_class == number:
            return 0
        beside = abs(at[0] - truth[0]) + abs(at[1] - truth[1])
        return beside if beside < 3 else 3

    wrong = sorted((at for at in everywhere if at not in right and at != place), key=likely)
    same = [at for at in wrong if likely(at) == 0][:2]
    offered = [truth, *same, *[at for at in wrong if likely(at)]][: len(KEYS)]
    rng.shuffle(offered)
    return offered


def _spoken(at: Place) -> str:
    """A place inside a sentence."""
    return f"string {at[0]} at fret {at[1]}" if at[1] else f"open string {at[0]}"


def _answer(wanted: Sought, at: Place) -> str:
    return str(at[1]) if wanted.on else place_text(at)


def _show(wanted: Sought, answer: str) -> str:
    number = said_number(answer, 0, 24)
    if wanted.on and number is not None:
        return f"fret {number}" if number else "fret 0, the open string"
    return show_place(answer)


def _wrong(item: Item, wanted: Sought, manner: Manner, what: str, said: str) -> Feedback:
    tuning, right = item.tuning, wanted.places(item.tuning)

    def sounds(at: Place) -> str:
        names = tuning.sound(*at).names
        return f"{_spoken(at)} sounds {show_note(names, manner.naming, names[0])}"

    told = [_spoken(at) for at in right[:NEAREST]]
    why = f"{capital(sounds(wanted.place))}, and {what} is {' or '.join(told)}"
    roles = {wanted.place: Role.FRET} | dict.fromkeys(right, Role.TRUE)
    staff = [(*wanted.place, Role.FRET), (*right[0], Role.TRUE)]
    read = answers.place(tuning.lines, 24)(f"{wanted.on}/{said}" if wanted.on else said)
    if read is not None:
        string, _, fret = read.partition("/")
        at = int(string), int(fret)
        apart = tuning.sound(*at).midi - tuning.sound(*right[0]).midi
        octave = "" if apart % 12 else f", {'higher' if apart > 0 else 'lower'}"
        why += f"; {sounds(at)}{octave}"
        roles[at] = Role.SAID
        staff.append((*at, Role.SAID))
    letters = pictures.line_letters(tuning, manner.naming)
    return Feedback(
        why + ".",
        Picture(
            pictures.row_of_notes(tuning, manner.dialect, staff, letters),
            pictures.neck_with(tuning, roles, manner.left_handed, letters, highest=NECK[-1]),
        ),
    )
