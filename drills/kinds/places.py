"""Tab's core act, before any note names: a number on a line is a place on the neck, and the other way."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from functools import partial
from itertools import product
from typing import Final

from drills import answers, misreadings
from drills.kinds import helps, pictures
from drills.kinds.wording import capital, from_top, on_neck, said_number
from drills.notation.drawing import Role
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

FIRST_POSITION: Final = range(5)
FIRST_FRETS: Final = (3, 0, 1)
LANDMARKS: Final = (5, 7, 9, 12)
"""Frets with an inlay, where the eye finds its place further up (common practice, no source)."""
KEYS: Final = "abcde"

Place = tuple[int, int]


def place_items(drill: str, tuning: Tuning) -> Iterator[Item]:
    """The outer strings at low frets first, then the first position, then the landmarks further up.

    The very first ones need nothing: a number on the top or the bottom line is where reading tab begins.
    """
    outer = (tuning.lines, 1)
    first = [(string, fret) for fret in FIRST_FRETS for string in outer if fret in tuning.frets(string)]
    low, high = (
        [(string, fret) for fret, string in product(frets, range(tuning.lines, 0, -1)) if fret in tuning.frets(string)]
        for frets in (FIRST_POSITION, LANDMARKS)
    )
    staged = [(Stage.LINES if drill == "tab-to-place" else Stage.PLACES, at) for at in first]
    staged += [(Stage.PLACES, at) for at in low if at not in first] + [(Stage.TWELVE_FRETS, at) for at in high]
    for stage, (string, fret) in staged:
        needs: tuple[str, ...] = (f"line-to-string/{tuning.name}/{string}", f"neck-to-line/{tuning.name}/{string}")
        if drill == "place-to-tab":
            needs = (f"tab-to-place/{tuning.name}/{string}/{fret}",)
        yield Item(
            f"{drill}/{tuning.name}/{string}/{fret}", drill, tuning, f"{string}/{fret}", Kind.PLACE,
            stage, _title(drill, string, fret, tuning.lines), drill, () if stage == Stage.LINES else needs, think=1.7,
        )  # fmt: skip


def _title(drill: str, string: int, fret: int, lines: int) -> str:
    """The place as it is shown, not as it is answered."""
    if drill == "tab-to-place":
        return f"A {fret} on {from_top(string, lines)}"
    return f"{f'Fret {fret} of' if fret else 'Open,'} {on_neck(string, lines)}"


def place_of(item: Item) -> Place:
    """String and fret of an item whose subject is ``string/fret``."""
    string, _, fret = item.subject.partition("/")
    return int(string), int(fret)


def candidates(place: Place, tuning: Tuning, frets: Sequence[int], rng: random.Random) -> list[Place]:
    """The place and four others that a reader might take it for, in random order."""
    top = max(frets)
    found = [place]
    for at, number in _likely(place, tuning.lines, frets, rng):
        if 1 <= at <= tuning.lines and 0 <= number <= top and number in tuning.frets(at) and (at, number) not in found:
            found.append((at, number))
            if len(found) == len(KEYS):
                break
    rng.shuffle(found)
    return found


def _likely(place: Place, lines: int, frets: Sequence[int], rng: random.Random) -> Iterator[Place]:
    """What a place might be taken for, the likeliest first; some of it is no place on these strings."""
    string, fret = place
    yield lines + 1 - string, fret
    yield string + rng.choice((-1, 1)), fret
    yield string, fret + rng.choice((-1, 1))
    yield fret, string
    yield lines + 1 - string, fret + rng.choice((-1, 1))
    yield string + rng.choice((-2, 2)), fret
    yield string + rng.choice((-1, 1)), max(0, fret + rng.choice((-1, 1)))
    for other in rng.sample(range(1, lines + 1), lines):
        yield other, fret
    for other in rng.sample(frets, len(frets)):
        yield string, other


class _OfPlaces:
    """What the drills on places have in common: the same places, and what is true of them."""

    name: str

    def items(self, tuning: Tuning) -> Iterator[Item]:
        """Places in the order of teaching."""
        return place_items(self.name, tuning)

    def facts(self, item: Item) -> Facts:
        """String, fret and what sounds there."""
        return place_facts(item)


class TabToPlace(_OfPlaces):
    """A number on a line: where is that on the neck?"""

    name = "tab-to-place"
    title = "Tab to the neck"

    def explain(self, item: Item, manner: Manner) -> Explanation:
        tuning = item.tuning
        string = tuning.lines - 1
        return Explanation(
            "A number is a place",
            (
                "The line says which string, the number says which fret; 0 is the open string, with no finger on "
                "it. The finger goes into the space before the fret wire, close to the wire.",
                f"Here: a 3 on line {string}, so string {string} at the third fret. On the neck below you look "
                f"down from above, so line {string} is near the top.",
                "Press the letter of the place on the neck.",
            ),
            Picture(
                pictures.row_of_notes(
                    tuning, manner.dialect, [(string, 3, Role.LIT)], pictures.line_numbers(tuning)
                ),
                pictures.neck_with(
                    tuning, {(string, 3): Role.LIT}, manner.left_handed, pictures.line_numbers(tuning)
                ),
            ),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, place = item.tuning, place_of(item)
        offered = candidates(place, tuning, _frets(item), rng)
        options = _options(offered)
        keys = {at: (option.key, option.answer) for at, option in zip(offered, options, strict=True)}
        staff = partial(
            pictures.row_of_notes, tuning, manner.dialect, [(*place, Role.LIT)]
        )
        neck = partial(pictures.neck_with, tuning, {}, manner.left_handed, keys=keys, highest=_highest(item))
        return _question(item, manner, options, "Where on the neck is this?", helps.both(staff, neck))


class PlaceToTab(_OfPlaces):
    """A place on the neck: which number on which line is it?"""

    name = "place-to-tab"
    title = "The neck to tab"

    def explain(self, item: Item, manner: Manner) -> Explanation:
        tuning = item.tuning
        return Explanation(
            "From the finger to the page",
            (
                "Now the other way. The dot is a finger on the neck, seen from above as you play.",
                "Its string gives the line: the top of this neck is the bottom line of the page. Its fret, counted "
                "from the nut (the end of the neck where the tuning pegs are), gives the number. A dot before the "
                "nut is an open string: 0.",
                "Several numbers are offered, each with a letter under it: press the letter of the right one.",
            ),
            Picture(
                pictures.row_of_notes(
                    tuning, manner.dialect, [(2, 1, Role.LIT)], pictures.line_numbers(tuning)
                ),
                pictures.neck_with(
                    tuning, {(2, 1): Role.LIT}, manner.left_handed, pictures.line_numbers(tuning)
                ),
            ),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, place = item.tuning, place_of(item)
        offered = candidates(place, tuning, _frets(item), rng)
        options = _options(offered)
        staff = partial(
            pictures.row_of_notes, tuning, manner.dialect, [(*at, Role.FRET) for at in offered],
            keys=[(option.key, option.answer) for option in options],
        )  # fmt: skip
        neck = partial(
            pictures.neck_with, tuning, {place: Role.LIT}, manner.left_handed, highest=_highest(item)
        )
        return _question(item, manner, options, "Which of these numbers is this place?", helps.both(staff, neck))


def place_facts(item: Item) -> Facts:
    """String, fret and what sounds there."""
    return sounding_facts(item.tuning, *place_of(item))


def sounding_facts(tuning: Tuning, string: int, fret: int) -> Facts:
    """The same of any place, on strings with or without a capo."""
    pitch = tuning.sound(string, fret)
    return {
        "string": string,
        "fret": fret,
        "midi": pitch.midi,
        "names": list(pitch.names),
        "hz": round(pitch.hz, 3),
    }


def _question(
    item: Item, manner: Manner, options: tuple[Option, ...], prompt: str, draw: helps.Labelled[Picture]
) -> Question:
    tuning, (string, fret) = item.tuning, place_of(item)
    return Question(
        item,
        prompt,
        draw(()),
        (item.subject,),
        answers.place(tuning.lines, 24),
        partial(_wrong_place, item, manner),
        helps=helps.numbers(draw, tuning, tuning.lines if string == 1 else 1),
        options=options,
        traps=misreadings.of_place(string, fret, tuning.lines),
        show=show_place,
    )


def _options(offered: Sequence[Place]) -> tuple[Option, ...]:
    """A letter for each place, which is drawn and not named."""
    return tuple([Option(key, "", place_text(at)) for key, at in zip(KEYS, offered, strict=False)])


def place_text(place: Place) -> str:
    """The normal form of a place: ``5/3``."""
    return f"{place[0]}/{place[1]}"


def show_place(answer: str) -> str:
    """A place in normal form as people say it: ``string 5, fret 3``; any other text as it is."""
    string, _, fret = answer.partition("/")
    if said_number(string, 1, 8) is None or said_number(fret, 0, 24) is None:
        return answer
    return f"string {string}, open" if fret == "0" else f"string {string}, fret {fret}"


def _frets(item: Item) -> Sequence[int]:
    return FIRST_POSITION if place_of(item)[1] in FIRST_POSITION else range(13)


def _highest(item: Item) -> int:
    """The frets drawn depend on the stage, never on the item."""
    return 5 if place_of(item)[1] in FIRST_POSITION else 13


def _wrong_place(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, place = item.tuning, place_of(item)
    read = answers.place(tuning.lines, 24)(said)
    roles = {place: Role.TRUE}
    line = from_top(place[0], tuning.lines)
    if item.drill == PlaceToTab.name:
        why = f"{capital(on_neck(place[0], tuning.lines))} is {line}, and "
        why += f"fret {place[1]} is a {place[1]} on it" if place[1] else "open it is a 0"
    else:
        why = f"{capital(line)} is string {place[0]}, and "
        why += f"the number is the fret, {place[1]}" if place[1] else "0 is the open string"
    staff = [(*place, Role.TRUE)]
    if read:
        string, _, fret = read.partition("/")
        wrong = (int(string), int(fret))
        roles[wrong] = Role.SAID
        staff.append((*wrong, Role.SAID))
        why += f"; you took {show_place(read)}"
    numbers = pictures.line_numbers(tuning)
    return Feedback(
        why + ".",
        Picture(
            pictures.row_of_notes(tuning, manner.dialect, staff, numbers),
            pictures.neck_with(tuning, roles, manner.left_handed, numbers, highest=_highest(item)),
        ),
    )
