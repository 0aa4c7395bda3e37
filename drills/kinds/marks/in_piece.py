"""Which items on signs a piece needs: the name of each sign, what the hands do, and the like of its phrases."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from fractions import Fraction
from functools import cache
from typing import Final, NamedTuple

from drills.kinds.marks.phrase_table import PHRASES
from drills.notation.score import LINKING, At, Mark, MarkKind, Note

_BENDS: Final = {
    None: "full-bend", Fraction(1, 2): "half-bend", Fraction(1): "full-bend", Fraction(3, 2): "bend-one-and-half",
    Fraction(2): "bend-two",
}  # fmt: skip
"""Amount of a bend -> its sign. Where no amount is written the letter alone is read, as on a full one."""

Chain = list[tuple[At, Note]]
"""Notes of one string that signs join, or one note alone."""


class Key(NamedTuple):
    """What makes two chains alike: the marks of each note, and whether an open string is among them."""

    marks: tuple[tuple[tuple[MarkKind, Fraction | int | None], ...], ...]
    open: bool


def chains(notes: Iterable[tuple[At, Note]]) -> Iterator[Chain]:
    """Every chain that bears a mark; a muted x bears one.

    Args:
        notes: in time, with those marks alone that count.
    """
    waiting: dict[int, Chain] = {}
    for at, note in notes:
        chain = waiting.pop(note.string, None)
        if chain is None and not note.marks and note.fret is not None:
            continue
        chain = chain or []
        chain.append((at, note))
        if any(mark.kind in LINKING for mark in note.marks):
            waiting[note.string] = chain
        else:
            yield chain
    yield from waiting.values()


def sign_items(notes: Sequence[Note], tuning: str, known: Container[str]) -> tuple[str, ...]:
    """The items that a chain needs.

    Args:
        notes: of the chain.
        tuning: by its name.
        known: the items that there are.
    """
    wanted: dict[str, None] = {}
    for note in notes:
        for sign in _signs(note):
            wanted |= dict.fromkeys(named_items(sign, known))
    for drill, prefix in (("mark-picked", ""), ("mark-sounds", f"{tuning}/")):
        for key in _phrases(drill, notes):
            wanted[f"{drill}/{prefix}{key}"] = None
    return tuple(id for id in wanted if id in known)


def named_items(sign: str, known: Container[str]) -> tuple[str, ...]:
    """The items on what a sign is called, as typed where that is asked, and on what the hands do."""
    names = [f"mark-name/{sign}-text", f"mark-name/{sign}-engraved"]
    return (*[name for name in names if name in known][:1], f"mark-hand/{sign}")


def _signs(note: Note) -> Iterator[str]:
    """The keys of the signs at a note."""
    kinds = {mark.kind for mark in note.marks}
    if note.fret is None and MarkKind.MUTE not in kinds:
        yield MarkKind.MUTE.value
    for mark in note.marks:
        if mark.kind is MarkKind.BEND:
            yield _BENDS.get(mark.amount, "full-bend")
        elif mark.kind is MarkKind.PRE_BEND:
            yield "pre-bend-release" if MarkKind.RELEASE in kinds else "pre-bend"
        elif mark.kind is MarkKind.RELEASE:
            if MarkKind.PRE_BEND not in kinds:
                yield "bend-release"
        elif mark.kind in (MarkKind.SLIDE_UP, MarkKind.SLIDE_DOWN) and not mark.slurred:
            yield f"{mark.kind.value}-picked"
        else:
            yield mark.kind.value


def _key(notes: Iterable[Note]) -> Key:
    found = list(notes)
    marks = tuple(tuple(_detail(mark, note) for mark in _marks(note)) for note in found)
    return Key(marks, any(note.fret == 0 for note in found))


def _marks(note: Note) -> tuple[Mark, ...]:
    return note.marks or ((Mark(MarkKind.MUTE),) if note.fret is None else ())


def _detail(mark: Mark, note: Note) -> tuple[MarkKind, Fraction | int | None]:
    if mark.kind is MarkKind.HARMONIC:
        return mark.kind, note.fret
    if mark.kind is MarkKind.TRILL:
        return mark.kind, None if mark.to is None or note.fret is None else mark.to - note.fret
    return mark.kind, mark.amount


@cache
def _table() -> dict[tuple[str, Key], str]:
    """The first phrase of each drill that has chains of one kind and no others."""
    table: dict[tuple[str, Key], str] = {}
    for phrase in PHRASES:
        placed = [
            (At(0, n, step.line + 1), Note(step.line + 1, step.fret, step.marks)) for n, step in enumerate(phrase.steps)
        ]
        keys = {_key(note for _, note in chain) for chain in chains(placed)}
        if len({key.marks for key in keys}) == 1 and phrase.times == 1:
            for drill, asked in (("mark-picked", phrase.picked), ("mark-sounds", phrase.sounds)):
                if asked:
                    table.setdefault((drill, min(keys, key=lambda key: key.open)), phrase.key)
    return table


def _phrases(drill: str, notes: Sequence[Note]) -> Iterator[str]:
    """The phrase that is like these notes, else those that are like their parts."""
    whole = _like(drill, _key(notes))
    if whole is not None:
        yield whole
        return
    for note, following in zip(notes, [*notes[1:], None], strict=True):
        alone = tuple(mark for mark in _marks(note) if mark.kind not in LINKING)
        parts = [_key([note._replace(marks=alone)])] if alone else []
        if following is not None:
            links = tuple(mark for mark in note.marks if mark.kind in LINKING)
            parts.append(_key([note._replace(marks=links), following._replace(marks=())]))
        for part in parts:
            if (like := _like(drill, part)) is not None:
                yield like


def _like(drill: str, key: Key) -> str | None:
    table = _table()
    return table.get((drill, key), table.get((drill, key._replace(open=not key.open))))
