"""Which tuning a file is in, and which string each row is: stated text, then labels, then the number of rows."""

from __future__ import annotations

from collections import Counter
from typing import Final, NamedTuple

from drills.notation.own_tuning import own_tuning
from drills.notation.pitch import Pitch, class_of
from drills.notation.reading.labels import Label, parse_label
from drills.notation.reading.shapes import Doubts, TuningFrom
from drills.notation.reading.stated import Stated
from drills.notation.reading.systems import System
from drills.notation.tuning import Tuning, flats_fit, shipped

_BY_ROWS: Final = {6: "standard", 7: "7-string", 8: "8-string"}
_BY_WORD: Final = {
    ("bass", 4): "bass", ("bass", 5): "bass-5", ("ukulele", 4): "ukulele", ("banjo", 5): "banjo",
    ("mandolin", 4): "mandolin", ("guitar", 6): "standard", ("guitar", 7): "7-string", ("guitar", 8): "8-string",
}  # fmt: skip
_BY_COUNT: Final = {
    4: ("bass", "ukulele", "mandolin"), 5: ("bass-5", "banjo"), 6: ("standard",), 7: ("7-string",), 8: ("8-string",),
}  # fmt: skip
_GUITAR: Final = (4, 11, 7, 2, 9, 4)
_TELLING: Final = {
    (9, 4, 0, 7): "ukulele", (7, 2, 9, 4, 11): "bass-5", (2, 11, 7, 2, 7): "banjo",
}  # fmt: skip
"""Labels of four or five rows that only one instrument has."""


class Strung(NamedTuple):
    """What the strings are.

    Attributes:
        tuning: with its capo; where ``origin`` is unknown its pitches mean nothing.
        origin: what it was taken from.
        german: whether B is B flat and H is B in this file.
        upside_down: whether systems have their lowest string on top.
    """

    tuning: Tuning
    origin: TuningFrom
    german: bool
    upside_down: bool


def labels_of(system: System) -> tuple[Label | None, ...]:
    """The labels of a system, top row first."""
    return tuple(row.label for row in system.rows)


def classes_of(labels: tuple[Label | None, ...], german: bool) -> tuple[int, ...] | None:
    """The pitch class of each label, or None where a row has none."""
    found = [None if label is None else label.pitch_class(german) for label in labels]
    return tuple(c for c in found if c is not None) if all(c is not None for c in found) else None


def string_up(
    systems: list[System], stated: Stated, given: Tuning | None, capo: int | None, doubts: Doubts
) -> Strung:
    """Decide the tuning of a file."""
    letters = {label.letter for system in systems for label in labels_of(system) if label is not None}
    german = any(letter.startswith("H") for letter in letters)
    sets: Counter[tuple[int, ...]] = Counter()
    for labels, times in Counter(labels_of(system) for system in systems).items():
        if (found := classes_of(labels, german)) is not None:
            sets[found] += times
    labelled = max(sets, key=lambda classes: (len(classes), sets[classes])) if sets else ()
    rows = len(labelled) or Counter(len(system.rows) for system in systems).most_common(1)[0][0]
    rows = max(rows, max((n for n, times in _sizes(systems).items() if times * 2 >= len(systems)), default=0))
    upside_down = is_upside_down(labelled, given or shipped().get(_BY_WORD.get((stated.instrument, rows), "")))
    if upside_down:
        labelled = labelled[::-1]
        row = systems[0].rows[0]
        doubts.warn(
            row.line.number, row.line.column(0), "by its labels the lowest string is on top: read upside down",
            "write the highest string on top",
        )
    tuning, origin = _decide(systems, stated, given, labelled, rows, doubts)
    fret = capo if capo is not None else stated.capo
    if fret:
        if capo is None and stated.capo_line is not None:
            doubts.note(stated.capo_line.number, 1, f"capo at fret {fret}: frets are counted from it",
                        "give --capo where that is wrong")
        tuning = tuning.with_capo(fret)
    return Strung(tuning, origin, german, upside_down)


def _sizes(systems: list[System]) -> Counter[int]:
    return Counter(len(system.rows) for system in systems)


def _decide(
    systems: list[System], stated: Stated, given: Tuning | None, labelled: tuple[int, ...], rows: int, doubts: Doubts
) -> tuple[Tuning, TuningFrom]:
    if given is not None:
        return given, TuningFrom.GIVEN
    if (tuning := _from_text(stated, labelled, rows)) is not None:
        line = stated.tuning_line
        doubts.note(line.number if line else 1, 1, f"tuning as the text says: {_said(tuning)}",
                    "give --tuning where that is wrong")
        if labelled and len(labelled) == tuning.lines and pitch_classes(tuning) != labelled:
            say = doubts.note if labelled == _GUITAR else doubts.warn
            say(systems[0].rows[0].line.number, 1, "the labels tell another tuning than the text",
                        "correct one of them, or give --tuning")
        return tuning, TuningFrom.TEXT
    place = systems[0].rows[0].line.number
    if labelled and (found := _from_labels(systems, labelled, rows, stated)) is not None:
        doubts.note(place, 1, f"tuning by the labels: {_said(found)}", "give --tuning where that is wrong")
        return found, TuningFrom.LABELS
    if not labelled and rows in _BY_ROWS:
        tuning = shipped()[_BY_ROWS[rows]]
        doubts.note(place, 1, f"no tuning is told: {rows} rows are taken for {_said(tuning)}",
                    "give --tuning where that is wrong")
        return tuning, TuningFrom.ROWS
    doubts.warn(place, 1, _unknown(labelled, rows), "say which with --tuning NAME, such as --tuning bass or --tuning "
                "standard (`sixline tunings` lists them): until then there are no pitches")
    return _placeholder(rows, labelled), TuningFrom.UNKNOWN


def _said(tuning: Tuning) -> str:
    return f"{tuning.title}, {' '.join(pitch.spn(tuning.flats) for pitch in reversed(tuning.strings))}"


def _unknown(labelled: tuple[int, ...], rows: int) -> str:
    if labelled:
        return "these labels fit a bass as well as some strings of a guitar, an octave apart, or another instrument"
    return f"{rows} rows without labels may be a bass, or some strings of a guitar"


def pitch_classes(tuning: Tuning) -> tuple[int, ...]:
    return tuple(pitch.pitch_class for pitch in tuning.strings)


def _from_text(stated: Stated, labelled: tuple[int, ...], rows: int) -> Tuning | None:
    """The tuning that the text states, or None."""
    base = shipped().get(_BY_WORD.get((stated.instrument, rows), _BY_ROWS.get(rows, "")))
    if stated.letters:
        return _spelled(stated.letters, base)
    if stated.tuning:
        named = shipped().get(stated.tuning)
        if named is not None and rows == 4 and stated.instrument == "bass" and stated.tuning == "drop-d":
            return _tuned((43, 38, 33, 26))
        return named if named is not None and (rows == 6 or labelled or stated.instrument == "guitar") else None
    if stated.steps_down and base is not None:
        down = tuple(pitch.midi - stated.steps_down for pitch in base.strings)
        return _tuned(down)
    if stated.standard and base is not None:
        return base
    if stated.instrument and stated.instrument != "guitar" and base is not None and rows < 6:
        if not labelled or pitch_classes(base) == labelled:
            return base
        return _nearest(labelled, base)
    return None


def _spelled(letters: tuple[str, ...], base: Tuning | None) -> Tuning | None:
    """A tuning from its letters, lowest string first; the other way round where only that is near to the usual one."""
    found = [parse_label(letter) for letter in letters]
    if all(label.octave is not None for label in found):
        pitches = [12 * ((label.octave or 0) + 1) + class_of(_english(label)) for label in found]
        ways = [tuple(pitches[::-1]), tuple(pitches)]
        if pitches[0] > pitches[-1]:
            ways.reverse()
        known = {tuple(pitch.midi for pitch in tuning.strings): tuning for tuning in shipped().values()}
        return next((known[way] for way in ways if way in known), None) or _tuned(ways[0])
    classes = tuple(class_of(_english(label)) for label in found)
    bases = _BY_COUNT[len(classes)]
    if base is not None and base.lines == len(classes):
        bases = (base.name,)
    near = [(_distance(way, shipped()[name]), name, way) for name in bases for way in (classes[::-1], classes)]
    _, name, way = min(near, key=lambda entry: entry[0])
    return _nearest(way, shipped()[name])


def _english(label: Label) -> str:
    return label.letter.replace("H", "B") or "C"


def _distance(classes: tuple[int, ...], tuning: Tuning) -> int:
    """Semitones between labels and the open strings of a tuning, each taken the shortest way."""
    return sum(
        min((c - pitch.pitch_class) % 12, (pitch.pitch_class - c) % 12)
        for c, pitch in zip(classes, tuning.strings, strict=True)
    )


def _nearest(classes: tuple[int, ...], base: Tuning) -> Tuning:
    """Labels tell pitch classes; the octave is the one nearest to the usual string of that row, below the row over it
    where strings go by thickness."""
    pitches: list[int] = []
    for c, pitch in zip(classes, base.strings, strict=True):
        up = (c - pitch.midi) % 12
        midi = pitch.midi + (up if up < 6 else up - 12)
        if base.gauge_ordered and pitches and midi >= pitches[-1]:
            midi -= 12
        pitches.append(midi)
    return _tuned(tuple(pitches))


def _tuned(pitches: tuple[int, ...]) -> Tuning:
    """The shipped tuning with these pitches, string 1 first, or one of its own."""
    strings = tuple(Pitch(midi) for midi in pitches)
    for tuning in shipped().values():
        if tuning.strings == strings:
            return tuning
    words = " ".join(pitch.spn() for pitch in reversed(strings))
    try:
        return own_tuning(words)
    except ValueError:
        flats = flats_fit(strings)
        name = "own-" + "-".join(str(midi) for midi in reversed(pitches))
        return Tuning(name, f"Own: {words}", strings, flats)


def _from_labels(systems: list[System], labelled: tuple[int, ...], rows: int, stated: Stated) -> Tuning | None:
    """The tuning that labels tell, or None where they cannot."""
    octaves = _octaves(systems, labelled)
    if octaves is not None and rows < 6:
        return _tuned(octaves)
    count = len(labelled)
    if count in _BY_ROWS:
        return _nearest(labelled, shipped()[_BY_ROWS[count]])
    if labelled in _TELLING:
        return shipped()[_TELLING[labelled]]
    place = window(labelled, _GUITAR)
    if (place == 0 and count > 1) or (place is not None and place < 2) or stated.instrument == "guitar":
        return shipped()["standard"]
    return None


def _octaves(systems: list[System], labelled: tuple[int, ...]) -> tuple[int, ...] | None:
    """The pitches of labels that tell their octaves too."""
    for system in systems:
        found = [label for label in labels_of(system) if label is not None and label.letter]
        found = [label for label in found if label.octave is not None]
        if len(found) == len(labelled) == len(system.rows):
            return tuple(12 * ((label.octave or 0) + 1) + class_of(_english(label)) for label in found)
    return None


def window(part: tuple[int, ...], whole: tuple[int, ...]) -> int | None:
    """Where a part lies in a whole, or None."""
    for at in range(len(whole) - len(part) + 1):
        if whole[at : at + len(part)] == part:
            return at
    return None


def is_upside_down(labelled: tuple[int, ...], known: Tuning | None = None) -> bool:
    """Whether labels read like a guitar's from the bottom up, or like those of the instrument that is known."""
    if known is not None and labelled != pitch_classes(known) and labelled[::-1] == pitch_classes(known):
        return True
    if len(labelled) not in _BY_ROWS:
        return False
    standard = shipped()[_BY_ROWS[len(labelled)]]
    turned = _distance(labelled[::-1], standard)
    return turned <= 8 and _distance(labelled, standard) > turned + 6


def _placeholder(rows: int, labelled: tuple[int, ...]) -> Tuning:
    """Strings without known pitches, so that the tab can be drawn."""
    base = _nearest(labelled, shipped()["bass"]) if len(labelled) == 4 else None
    strings = base.strings if base is not None else tuple(Pitch(64 - 5 * n) for n in range(rows))
    return Tuning("unknown", "Tuning unknown", strings)
