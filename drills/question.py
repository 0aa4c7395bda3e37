"""The shapes that pass between the floors: Item, Question, Answer, Verdict."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from enum import StrEnum
from typing import Any, NamedTuple

from drills.notation.diagram import DiagramView
from drills.notation.neck import EMPTY, NeckView
from drills.notation.pitch import Naming
from drills.notation.staff import Dialect, StaffView
from drills.notation.tuning import Tuning
from drills.tapping import Tapping


class Kind(StrEnum):
    """How an answer is given, and its normal form."""

    NOTE = "note"
    STRING = "string"
    LINE = "line"
    COUNT = "count"
    FRET = "fret"
    PLACE = "place"
    CHOICE = "choice"
    PICKED = "picked"
    ORDER = "order"
    SET = "set"
    BEAT = "beat"
    TAP = "tap"
    CHORD = "chord"


class Misreading(StrEnum):
    """A way of reading wrongly that explains a wrong answer."""

    MIRRORED_LINE = "mirrored-line"
    NEIGHBOUR_LINE = "neighbour-line"
    OFF_BY_ONE_FRET = "off-by-one-fret"
    SWAPPED = "swapped-string-and-fret"
    OCTAVE = "octave"
    WRONG_DIRECTION = "wrong-direction"
    PICKED_FOR_SLURRED = "picked-for-slurred"
    SLURRED_FOR_PICKED = "slurred-for-picked"
    MARK_CONFUSED = "mark-confused"
    TOO_MANY = "too-many"
    TOO_FEW = "too-few"
    WRONG_ORDER = "wrong-order"
    SHARP_FLAT = "sharp-flat"


class Manner(NamedTuple):
    """How one learner is asked: their words and their signs, never what is asked.

    Attributes:
        naming: how note names are said.
        dialect: which signs are drawn, where an item does not ask about a dialect itself.
        left_handed: mirrors the neck (nut at the right), never the staff.
        sentence: the learner's own memory sentence, or empty.
    """

    naming: Naming = Naming.LETTERS
    dialect: Dialect = Dialect.ENGRAVED
    left_handed: bool = False
    sentence: str = ""


class Item(NamedTuple):
    """One thing that can be known; its id never changes its meaning once released.

    Attributes:
        id: ``DRILL/TUNING/SUBJECT`` or ``DRILL/SUBJECT``.
        drill: the drill that asks it.
        tuning: on whose strings it is drawn. What does not depend on it (the name of a mark) has no
            tuning in its id.
        subject: the drill's own key for what is asked (the last part of the id).
        kind: how it is answered.
        stage: 1 for what is taught first.
        title: a short name of what is known, without the answer.
        lesson: key of the explanation that comes before it is first asked; items of one lesson share it.
        needs: ids of the items that are met first.
        think: seconds of thinking that the drill allows (the hand is not counted).
    """

    id: str
    drill: str
    tuning: Tuning
    subject: str
    kind: Kind
    stage: int
    title: str
    lesson: str
    needs: tuple[str, ...] = ()
    think: float = 1.2


class Option(NamedTuple):
    """One key that can be pressed.

    Attributes:
        key: one character, as typed.
        text: what is shown beside it.
        answer: what pressing it answers.
    """

    key: str
    text: str
    answer: str


class Picture(NamedTuple):
    """What a question or an explanation draws: a staff, a neck, chord diagrams, or several of these."""

    staff: StaffView | None = None
    neck: NeckView | None = None
    diagram: DiagramView | None = None


class Help(NamedTuple):
    """One step of what a question may show beside what it asks; it never holds the answer itself.

    Attributes:
        names: what is shown: ``letters`` or ``numbers`` of strings, a ``letter`` or ``number``, the ``neck``.
        draw: the question's picture with it, drawn only when it is asked for.
    """

    names: tuple[str, ...]
    draw: Callable[[], Picture]


class Explanation(NamedTuple):
    """What a drill says before it first asks, and on request.

    Attributes:
        title: what it is about.
        lines: short paragraphs, plain text.
        picture: drawn beside them.
    """

    title: str
    lines: tuple[str, ...]
    picture: Picture = Picture()


class Feedback(NamedTuple):
    """What a wrong answer shows: both drawn in one picture, and why in one sentence."""

    why: str
    picture: Picture


class Ruling(NamedTuple):
    """What became of an answer where no list can hold every right one."""

    right: bool
    misreadings: tuple[Misreading, ...] = ()


class Question(NamedTuple):
    """One asking of an item, with all that a screen needs.

    Attributes:
        item: what is asked.
        prompt: one plain sentence.
        picture: drawn above the prompt; it holds no answer.
        answers: every right answer in normal form; empty where ``rule`` judges.
        parse: what a person types -> normal form, or None when it is no possible answer.
        options: keys that answer at once; empty when the answer is typed and ended with Enter.
        choices: texts of a choice in their order, else empty.
        length: how many keys of the options make up one answer (a picked pattern, an order); 1 for one key.
        joiner: what stands between them in the answer (``""`` or ``" "``).
        ends: whether what has been typed so far is complete without Enter. It depends on what the stage
            asks for, never on the item, so that nothing leaks.
        show: an answer in normal form as people say it (``5`` -> ``string 5, A``).
        traps: the wrong answers in normal form that each misreading would give.
        explain_wrong: normal form or text of a wrong answer -> what to show.
        note_right: a word on a right answer that was put in an unusual way (B# for C), or None.
        helps: what may be shown while something is new or was just missed, from the most to the least: as it is
            answered right, the help goes one step at a time. Empty where there is nothing to help with.
        rule: judges a possible answer in normal form where ``answers`` is empty, else None.
        tapping: what is tapped, in time, where taps are the answer, else None.
    """

    item: Item
    prompt: str
    picture: Picture
    answers: tuple[str, ...]
    parse: Callable[[str], str | None]
    explain_wrong: Callable[[str], Feedback]
    options: tuple[Option, ...] = ()
    choices: tuple[Option, ...] = ()
    length: int = 1
    joiner: str = ""
    ends: Callable[[str], bool] = lambda typed: False
    show: Callable[[str], str] = lambda answer: answer
    traps: Mapping[Misreading, frozenset[str]] = EMPTY
    note_right: Callable[[str], str | None] = lambda said: None
    helps: tuple[Help, ...] = ()
    rule: Callable[[str], Ruling] | None = None
    tapping: Tapping | None = None

    @property
    def model(self) -> str:
        """A right answer in normal form: the first of ``answers``, or taps just where they are written."""
        if self.answers:
            return self.answers[0]
        return "" if self.tapping is None else self.tapping.model


class Answer(NamedTuple):
    """What the learner gave.

    Attributes:
        text: as typed, or the answer of the option that was pressed.
        seconds: from the question on the screen to the key, or None when not known.
        timed: False when the seconds prove nothing (suspended, unfocused, under 0.15 s).
    """

    text: str
    seconds: float | None = None
    timed: bool = True


class Verdict(NamedTuple):
    """What became of an answer.

    Attributes:
        right: whether it is one of the right answers.
        said: the answer in normal form, or its text where it has none.
        answer: the right answer to show (the nearest of several).
        answers: all of them.
        misreadings: every kind that fits a wrong answer; spoken of only when it is the only one.
        why: one sentence on a wrong answer, or a word on an unusual right one, or None.
        picture: what to draw on a wrong answer.
    """

    right: bool
    said: str
    answer: str
    answers: tuple[str, ...]
    misreadings: tuple[Misreading, ...] = ()
    why: str | None = None
    picture: Picture = Picture()


Facts = Mapping[str, Any]
"""What ``items --json`` says of an item, by drill (strings, frets, MIDI numbers, names, hertz ...)."""


def judge(question: Question, answer: Answer) -> Verdict:
    """Right or wrong, which misreadings fit, and what to show."""
    parsed = question.parse(answer.text)
    said = answer.text.strip() if parsed is None else parsed
    misreadings: tuple[Misreading, ...] = ()
    if parsed is not None and question.rule is not None:
        right, misreadings = question.rule(parsed)
    else:
        right = parsed in question.answers
    if right:
        return Verdict(True, said, said, question.answers, why=question.note_right(answer.text))
    misreadings = misreadings or tuple(kind for kind, answers in question.traps.items() if said in answers)
    feedback = question.explain_wrong(said)
    return Verdict(False, said, question.model, question.answers, misreadings, feedback.why, feedback.picture)
