"""Marks in words, for ears: by name, or as they are written where the name is what is asked."""

from __future__ import annotations

from fractions import Fraction
from typing import Final, NamedTuple

from drills.notation.score import Bar, Mark, MarkKind, Note
from drills.notation.staff_view import Dialect
from drills.notation.tokens import amount_text, bends, typed_core


class Words(NamedTuple):
    """A mark by its name, as it is printed, and as it is typed."""

    name: str
    engraved: str
    typed: str

    def of(self, dialect: Dialect, spell: bool) -> str:
        """The name, or how the dialect writes it."""
        return self.name if not spell else self.typed if dialect == Dialect.TEXT else self.engraved


_LINKS: Final = {
    MarkKind.HAMMER_ON: Words("hammer-on to", "an arc with the letter H to", "the letter h to"),
    MarkKind.PULL_OFF: Words("pull-off to", "an arc with the letter P to", "the letter p to"),
    MarkKind.SLIDE_UP: Words("slide up to", "a rising line under an arc to", "a slash to"),
    MarkKind.SLIDE_DOWN: Words("slide down to", "a falling line under an arc to", "a backslash to"),
    MarkKind.TIE: Words("tied over to", "an arc without a letter to", "a single dash to"),
}
_PICKED_AGAIN: Final = {
    MarkKind.SLIDE_UP: Words("slide up, picked again at", "a rising line without an arc to", "a slash to"),
    MarkKind.SLIDE_DOWN: Words("slide down, picked again at", "a falling line without an arc to", "a backslash to"),
}
_NOTES: Final = {
    MarkKind.GRACE: Words("a grace note", "a small number", "the letter g before it"),
    MarkKind.SLIDE_IN_UP: Words("slid into from below", "a short rising line before it", "a slash before it"),
    MarkKind.SLIDE_IN_DOWN: Words("slid into from above", "a short falling line before it", "a backslash before it"),
    MarkKind.TAP: Words("tapped", "the letter T over it", "the letter t before it"),
    MarkKind.GHOST: Words("a ghost note", "in parentheses", "in parentheses"),
    MarkKind.HARMONIC: Words("a natural harmonic", "in angle brackets, N.H. over it", "in angle brackets"),
    MarkKind.PINCH_HARMONIC: Words(
        "a pinch harmonic", "in angle brackets, P.H. over it", "in angle brackets, P.H. over it"
    ),
}
"""Said before the bends of a note."""
_AFTER: Final = {
    MarkKind.VIBRATO: Words("with vibrato", "a wavy line over it", "a wavy line behind it"),
    MarkKind.ACCENT: Words("accented", "a wedge, >, over it", "a wedge, >, over it"),
    MarkKind.STACCATO: Words("staccato", "a dot over it", "a dot over it"),
    MarkKind.PALM_MUTE: Words("palm-muted", "P.M. over it", "PM over it"),
    MarkKind.LET_RING: Words("left to ring", "the words let ring over it", "the words let ring over it"),
    MarkKind.SLIDE_OUT_UP: Words("slid away upwards", "a short rising line behind it", "a slash behind it"),
    MarkKind.SLIDE_OUT_DOWN: Words("slid away downwards", "a short falling line behind it", "a backslash behind it"),
}
_OPENS: Final = Words(
    "repeat from here", "a heavy bar line with dots at its right", "a bar line with colons at its right"
)
_CLOSES: Final = Words(
    "end of the repeat", "a heavy bar line with dots at its left", "a bar line with colons at its left"
)
_STEPS: Final = {
    Fraction(1, 4): "a quarter step",
    Fraction(1, 2): "a half step",
    Fraction(1): "a whole step",
    Fraction(3, 2): "one and a half steps",
    Fraction(2): "two whole steps",
}
_NUMBERS: Final = {Fraction(1, 2): "one half", Fraction(3, 2): "one and a half"}


def link_words(mark: Mark, dialect: Dialect, spell: bool) -> str:
    """What leads to the next number: ``hammer-on to``, or ``an arc with the letter H to``."""
    table = _PICKED_AGAIN if not mark.slurred and mark.kind in _PICKED_AGAIN else _LINKS
    return table[mark.kind].of(dialect, spell)


def hanging_words(mark: Mark, dialect: Dialect, spell: bool) -> str:
    """What leads on to no number of its string: ``hammer-on from it``, ``the letter h from it``."""
    return link_words(mark, dialect, spell).removesuffix(" to").removesuffix(" at") + " from it"


def note_words(note: Note, dialect: Dialect, spell: bool, tied: bool = False) -> str:
    """The marks of a note alone, each after a comma; empty where it has none. A tied one is written in parentheses."""
    if not (note.marks or (tied and spell)):
        return ""
    kinds = {mark.kind for mark in note.marks}
    said = [words.of(dialect, spell) for kind, words in _NOTES.items() if kind in kinds]
    if tied and spell and MarkKind.GHOST not in kinds:
        said.append(_NOTES[MarkKind.GHOST].of(dialect, spell))
    text = "".join(f", {each}" for each in said) + _moving(note, dialect, spell)
    return text + "".join(f", {words.of(dialect, spell)}" for kind, words in _AFTER.items() if kind in kinds)


def _moving(note: Note, dialect: Dialect, spell: bool) -> str:
    """Bends, releases and trills."""
    trills = [mark for mark in note.marks if mark.kind is MarkKind.TRILL]
    found = bends(note)
    if spell and dialect == Dialect.TEXT and (found or trills):
        return f", written {typed_core(note)}"
    return "".join(_bend(mark, spell) for mark in found) + "".join(_trill(mark, spell) for mark in trills)


def _trill(mark: Mark, spell: bool) -> str:
    other = "" if mark.to is None else f", {mark.to} in parentheses behind it" if spell else f" with fret {mark.to}"
    return (", the letters tr and a wavy line over it" if spell else ", trilled") + other


def _bend(mark: Mark, spell: bool) -> str:
    if mark.kind is MarkKind.RELEASE:
        return ", then an arrow down again" if spell else " and released"
    if spell:
        straight = "a straight arrow" if mark.kind is MarkKind.PRE_BEND else "an arrow"
        return f", {straight} up to {_NUMBERS.get(mark.amount or Fraction(0), amount_text(mark.amount))}".rstrip()
    step = "" if mark.amount is None else f" {_STEPS.get(mark.amount, amount_text(mark.amount) + ' steps')}"
    return f", bent up{step}" + (" before it is picked" if mark.kind is MarkKind.PRE_BEND else "")


def opening_words(bar: Bar, dialect: Dialect, spell: bool) -> str:
    """What a repeat sign at the start of a bar says; empty where there is none."""
    return f"{_OPENS.of(dialect, spell)}: " if bar.opens_repeat else ""


def closing_words(bar: Bar, dialect: Dialect, spell: bool) -> str:
    """What the bar line at the end of a bar says, as far as it is more than one."""
    if bar.times < 2:
        return ""
    told = f", x{bar.times} over it" if spell else f", {bar.times} times in all"
    return _CLOSES.of(dialect, spell) + ("" if spell and bar.times == 2 else told)
