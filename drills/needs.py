"""What a piece needs of the catalogue, note by note."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator
from typing import Final, NamedTuple

from drills.catalogue import Catalogue, catalogue
from drills.kinds.marks.in_piece import chains, named_items, sign_items
from drills.kinds.rhythm.in_piece import time_items
from drills.notation.own_tuning import tuning_named
from drills.notation.reading.shapes import Certainty, Reading, TuningFrom
from drills.notation.score import LINKING, SPANS, At, MarkKind, Note
from drills.notation.shape import Shape

PLACES: Final = ("tab-to-place", "fret-to-note")
"""Drills of one number: where it is on the neck, and which note."""
CHORDS: Final = ("tab-to-diagram", "chord-name", "chord-interval")
"""Drills of one stack: as a picture, by its name, or of two notes by their distance."""

NAMED: Final = "name-to-diagram"
"""The drill of a chord's name alone, as it stands over a staff."""

_Signs = dict[tuple[int, int], dict[int, list[str]]]
"""What signs need, by bar and onset, and by string."""


class NoteNeeds(NamedTuple):
    """One sure note: the index of its bar, of its onset there, its string, and the items that reading it takes."""

    bar: int
    onset: int
    string: int
    items: tuple[str, ...]


class Needs(NamedTuple):
    """What a piece needs.

    Attributes:
        notes: every note that counts, in time: each needs its place, the signs at it, and the chord it stands in.
        whole: metre, beats, values, repeats and names of chords, where the tab tells them: needed by the piece, and
            by no note of it alone.
        items: all of these, in teaching order.
        left_out: notes that do not count: not sure, or no item is about them.
        signs_left_out: signs that are not sure; their notes count without them.
    """

    notes: tuple[NoteNeeds, ...]
    whole: tuple[str, ...]
    items: tuple[str, ...]
    left_out: int
    signs_left_out: int


def catalogue_for(reading: Reading) -> Catalogue | None:
    """The items of a piece's tuning, without its capo; None where the tuning is unknown or nothing can be asked."""
    if reading.tuning_from is TuningFrom.UNKNOWN:
        return None
    tuning = reading.piece.tuning.with_capo(0)
    try:
        return catalogue(tuning) if tuning_named(tuning.name) == tuning else None
    except ValueError:
        return None


def needs_of(reading: Reading, found: Catalogue | None) -> Needs:
    """What a piece needs of the items of its tuning; without any nothing counts."""
    unsure = sum(mark.certainty is not Certainty.SURE for mark in reading.marks)
    total = sum(len(onset.notes) for bar in reading.piece.bars for onset in bar.onsets)
    if found is None:
        return Needs((), (), (), total, unsure)
    notes = tuple(_notes(reading, found, _signs(reading, found)))
    whole = _whole(reading, found)
    wanted = {id for items in {note.items for note in notes} for id in items} | set(whole)
    ordered = tuple(item.id for item in found.items if item.id in wanted)
    return Needs(notes, whole, ordered, total - len(notes), unsure)


def _notes(reading: Reading, found: Catalogue, signs: _Signs) -> Iterator[NoteNeeds]:
    """What every sure note needs for its place, its chord and its signs; those without any item are left out."""
    name, known = found.tuning.name, found.by_id
    places: dict[tuple[int, int | None], tuple[str, ...]] = {}
    stacks: dict[tuple[Note, ...], tuple[str, ...]] = {}
    joined: dict[tuple[str, ...], tuple[str, ...]] = {}
    for bar, (onsets, sources) in enumerate(zip(reading.piece.bars, reading.sources, strict=True)):
        for index, (onset, found_at) in enumerate(zip(onsets.onsets, sources, strict=True)):
            notes = onset.notes
            stack: tuple[str, ...] = ()
            if len(notes) > 1 and all(source.certainty is Certainty.SURE for source in found_at):
                if notes not in stacks:
                    stacks[notes] = _chord_items(notes, found)
                stack = stacks[notes]
            signed = signs.get((bar, index))
            for note, source in zip(notes, found_at, strict=True):
                if source.certainty is not Certainty.SURE:
                    continue
                place = note[:2]
                items = places.get(place)
                if items is None:
                    ids = [f"{drill}/{name}/{note.string}/{note.fret}" for drill in PLACES]
                    items = places[place] = tuple(id for id in ids if id in known)
                more = signed.get(note.string, ()) if signed else ()
                if more or (stack and note.fret is not None):
                    chord = stack if note.fret is not None else ()
                    items = tuple(dict.fromkeys((*items, *chord, *more)))
                    items = joined.setdefault(items, items)  # one tuple for all notes that need the same
                if items:
                    yield NoteNeeds(bar, index, note.string, items)


def _chord_items(notes: tuple[Note, ...], found: Catalogue) -> tuple[str, ...]:
    frets = {note.string: note.fret for note in notes}
    text = Shape(tuple(frets.get(string) for string in range(found.tuning.lines, 0, -1))).text
    return tuple(id for drill in CHORDS if (id := f"{drill}/{found.tuning.name}/{text}") in found.by_id)


def _signs(reading: Reading, found: Catalogue) -> _Signs:
    """What the sure signs at each note need; every note of a chain needs what the chain needs."""
    counts = _counting(reading)

    def signed() -> Iterator[tuple[At, Note]]:
        """Notes with a mark, and those that one leads to."""
        led: set[int] = set()
        for bar, index, onset in reading.piece.onsets():
            for note in onset.notes:
                if not note.marks and note.fret is not None and note.string not in led:
                    continue
                at = At(bar, index, note.string)
                marks = tuple([mark for mark in note.marks if counts(at, mark.kind)])
                led.discard(note.string)
                if any(mark.kind in LINKING for mark in marks):
                    led.add(note.string)
                yield at, note if marks == note.marks else note._replace(marks=marks)

    needed: _Signs = {}
    alike: dict[tuple[Note, ...], tuple[str, ...]] = {}
    for chain in chains(signed()):
        notes = tuple([note for _, note in chain])
        if notes not in alike:
            alike[notes] = sign_items(notes, found.tuning.name, found.by_id)
        for at, _ in chain:
            needed.setdefault((at.bar, at.onset), {}).setdefault(at.string, []).extend(alike[notes])
    return needed


def _counting(reading: Reading) -> Callable[[At, MarkKind], bool]:
    """Whether a kind of mark at a place is sure; of what is written over a run, by where the run begins."""
    unsure: set[tuple[At, MarkKind]] = set()
    runs: dict[MarkKind, list[tuple[tuple[int, int], bool]]] = {kind: [] for kind in SPANS}
    for mark in reading.marks:
        is_sure = mark.certainty is Certainty.SURE
        if mark.kind in SPANS and mark.onset is not None:
            runs[mark.kind].append(((mark.bar, mark.onset), is_sure))
        elif not is_sure and mark.onset is not None and mark.string is not None:
            unsure.add((At(mark.bar, mark.onset, mark.string), mark.kind))
    for found in runs.values():
        found.sort()

    def counts(at: At, kind: MarkKind) -> bool:
        if kind in SPANS:
            begun = bisect_right(runs[kind], ((at.bar, at.onset), True))
            return begun == 0 or runs[kind][begun - 1][1]
        return (at, kind) not in unsure

    return counts


def _whole(reading: Reading, found: Catalogue) -> tuple[str, ...]:
    """What metre, beats, values, sure repeats and names of chords need."""
    wanted: dict[str, None] = {}
    for bar in reading.piece.bars:
        wanted |= dict.fromkeys(time_items(bar, found.tuning.name, found.by_id))
    for mark in reading.marks:
        if mark.kind is MarkKind.REPEAT and mark.certainty is Certainty.SURE:
            for sign in ("repeat", "repeat-count")[: 1 if mark.times == 2 else 2]:
                wanted |= dict.fromkeys(named_items(sign, found.by_id))
    names = {name for bar in reading.bars for _, name in bar.chords}
    if names and not reading.piece.tuning.capo:  # with one, names may be those of the shapes or what sounds
        for item in found.items:
            if item.drill == NAMED and found.facts(item)["chords"][0] in names:
                wanted[item.id] = None
    return tuple(id for id in wanted if id in found.by_id)
