"""What the prose of a file states: its tuning, its instrument, its capo, its metre and its title."""

from __future__ import annotations

import re
import unicodedata
from typing import Final, NamedTuple

from drills.notation.reading.counts import count_line, length_line
from drills.notation.reading.lines import Line
from drills.notation.reading.over import chords_of
from drills.notation.score import Metre


class Stated(NamedTuple):
    """What was found; the line of each is where it was found first.

    Attributes:
        tuning: name of a shipped tuning, or empty.
        letters: of the open strings as stated, in the order of the text; empty where none are.
        steps_down: semitones that everything is tuned down by, of an instrument that the rows must tell.
        standard: whether the text says standard tuning.
        instrument: ``bass``, ``ukulele``, ``banjo``, ``mandolin``, ``guitar`` or empty.
        capo: fret of the capo, or None.
        metre: or None.
        title: or empty.
    """

    tuning: str = ""
    letters: tuple[str, ...] = ()
    steps_down: int = 0
    standard: bool = False
    tuning_line: Line | None = None
    instrument: str = ""
    capo: int | None = None
    capo_line: Line | None = None
    metre: Metre | None = None
    title: str = ""


_WORTH: Final = re.compile(r"tun|drop|step|dadgad|capo|bass|ukulele|uke\b|banjo|mandolin|guitar|[0-9]/[0-9]|time", re.I)
_NAMED: Final = (
    (re.compile(r"\bdouble[ -]?drop(?:ped)?[ -]?d\b", re.I), "double-drop-d"),
    (re.compile(r"\bdrop(?:ped)?[ -]?d\b(?!b)", re.I), "drop-d"),
    (re.compile(r"\bdrop(?:ped)?[ -]?c\b(?!#)", re.I), "drop-c"),
    (re.compile(r"\bdadgad\b", re.I), "dadgad"),
    (re.compile(r"\bopen[ -]?([acdeg])\b(?![#b]|m)", re.I), "open-"),
)
_HALF: Final = re.compile(
    r"(?:\bhalf|\b1/2|½)[ -]?(?:a[ -])?(?:step|tone)s? (?:lower|down|flat)|"
    r"(?:down|lower|flat)[^.\n]{0,20}(?:\bhalf|\b1/2|½)[ -]?(?:a[ -])?(?:step|tone)|"
    r"\be ?(?:b|-?flat) (?:standard|tuning)|tun\w*:? *e(?:b|-? ?flat)\b(?![ -]*[a-g])|\bsemi-?tone (?:lower|down)",
    re.I,
)
_WHOLE: Final = re.compile(
    r"\b(?:whole|full|one|1|a)[ -](?:whole |full )?(?:step|tone) (?:lower|down)"
    r"|(?:down|lower)[^.\n]{0,12}\b(?:whole|full|one|1)[ -](?:whole |full )?(?:step|tone)\b|\bd standard\b",
    re.I,
)
_STANDARD: Final = re.compile(r"\bstandard\b(?! notation)|\bnormal tuning\b", re.I)
_NOTE: Final = r"[A-Ha-h](?:#|b(?![A-Ha-h]?[a-h]\b)|is|es)?[0-9]?'{0,2}"
_LETTERS: Final = re.compile(rf"(?<![A-Za-z])({_NOTE}(?:[ ,/\-]{{0,3}}{_NOTE}){{3,7}})(?![A-Za-z])")
_ONE: Final = re.compile(_NOTE)
_CAPO: Final = re.compile(
    r"\bcapo(?:d|ed|taste|tasto)?\b[^0-9A-Za-z]{0,4}(?:(?:is|on|at|in|the|fret|position|=|:|-)[ :]{1,2}){0,4}"
    r"(?P<fret>[0-9]{1,2}|[ivx]{1,4}\b|one|two|three|four|five|six|seven|first|second|third|fourth|fifth|none|no\b)"
    r"|(?P<before>[0-9]{1,2})(?:st|nd|rd|th)? fret capo|\bno capo\b",
    re.I,
)
_NUMBERS: Final = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "first": 1, "second": 2, "third": 3,
    "fourth": 4, "fifth": 5, "none": 0, "no": 0, "i": 1, "ii": 2, "iii": 3, "iv": 4, "v": 5, "vi": 6, "vii": 7,
    "viii": 8, "ix": 9, "x": 10, "xi": 11, "xii": 12,
}  # fmt: skip
_INSTRUMENT: Final = re.compile(r"\b(bass|ukulele|uke|banjo|mandolin|guitar)\b", re.I)
_METRE: Final = re.compile(r"(?:\btime\b|\bmetre\b|\bmeter\b|^ *)[^0-9\n]{0,14}([2-9]|12)/(2|4|8)(?![0-9])", re.I)
_TITLE: Final = re.compile(r"^\W*(?:title|song|piece|name)\s*[:=]\s*(.+)$", re.I)
_NO_TITLE: Final = re.compile(
    r"^\W*(?:artist|band|album|by|author|tabb?ed|transcribed|tuning|capo|key|tempo|time|bpm|date|from|subject|e-?mail|"
    r"p\.?m\.?\b|let ring|n\.?h\.?\b|intro|verse|chorus|riff|bridge|solo|difficulty)\b|https?:|@|^```",
    re.I,
)
_SPELL_WORDS: Final = frozenset({"dead", "bead", "added", "faded", "decade", "facade", "cafe", "face", "head", "badge"})
"""Words that could be spelled on strings."""
_LONGEST: Final = 400
"""Lines beyond this are no statement about a tuning."""


def stated_in(prose: list[Line], first_row: int) -> Stated:
    """Read the prose; ``first_row`` is the line on which the first system begins: a title stands before it."""
    found = Stated()
    seen: dict[str, int] = {}
    for line in prose:
        if len(line.text) > _LONGEST or _WORTH.search(line.text) is None:
            continue
        found = _of_line(found, line)
        for word in _INSTRUMENT.findall(line.text):
            name = {"uke": "ukulele"}.get(word.lower(), word.lower())
            seen[name] = seen.get(name, 0) + 1
    return found._replace(title=_title(prose, first_row), instrument=_instrument(seen))


def _instrument(seen: dict[str, int]) -> str:
    """The one instrument that is spoken of; none where there are two."""
    return next(iter(seen)) if len(seen) == 1 else ""


def _of_line(found: Stated, line: Line) -> Stated:
    text = line.text
    if found.tuning_line is None:
        found = _tuning(found, line)
    if found.capo is None and (match := _CAPO.search(text)):
        word = (match["fret"] or match["before"] or "no").lower()
        fret = int(word) if word.isdigit() else _NUMBERS.get(word)
        if fret is not None and fret <= 12:
            found = found._replace(capo=fret, capo_line=line)
    if found.metre is None and (match := _METRE.search(text)):
        found = found._replace(metre=Metre(int(match[1]), int(match[2])))
    return found


def _tuning(found: Stated, line: Line) -> Stated:
    text = line.text
    about = re.search(r"tun(?:ing|ed|e)\b", text, re.I)
    if about and (match := _LETTERS.search(text, about.end())) and (letters := _spelled(match[1])):
        return found._replace(letters=letters, tuning_line=line)
    for pattern, name in _NAMED:
        if (match := pattern.search(text)) and (name != "open-" or about):
            return found._replace(tuning=name + (match[1].lower() if name == "open-" else ""), tuning_line=line)
    if _HALF.search(text):
        return found._replace(steps_down=1, tuning_line=line)
    if _WHOLE.search(text) and (about or "drop" not in text.lower()):
        return found._replace(steps_down=2, tuning_line=line)
    if about and _STANDARD.search(text):
        return found._replace(standard=True, tuning_line=line)
    return found


def _spelled(text: str) -> tuple[str, ...]:
    """The notes of a stated tuning; a word of a sentence is none."""
    if not any(character in " ,-/" for character in text):
        mixed = text[1:] != text[1:].lower() or "#" in text
        letters = re.findall(r"[A-Ha-h][#b]?", text) if mixed else list(text)
        return tuple(letters) if 4 <= len(letters) <= 8 and text.lower() not in _SPELL_WORDS else ()
    notes = _ONE.findall(text)
    return tuple(notes) if 4 <= len(notes) <= 8 else ()


def _title(prose: list[Line], first_row: int) -> str:
    plain = ""
    for line in prose[:40]:
        if line.number >= first_row:
            break
        if match := _TITLE.match(line.text):
            return clean(match[1])
        told = chords_of(line.text) or count_line(line.text) or length_line(line.text)
        if not plain and not told and not _NO_TITLE.search(line.text) and sum(c.isalpha() for c in line.text) > 1:
            plain = line.text
    return clean(plain)


def clean(text: str) -> str:
    """One short line without what a terminal must not be told, and without the signs around a heading."""
    kept = "".join(" " if unicodedata.category(c)[0] in "CZ" else c for c in text[:200])
    return " ".join(kept.split()).strip("#*=-_~[]|\"'` ")[:80]
