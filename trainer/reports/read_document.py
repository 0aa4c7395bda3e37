"""A piece as it was read, for programs."""

from __future__ import annotations

from collections import Counter
from typing import Any

from drills.notation.reading.shapes import BarAt, Reading, ReadMark, Source, TuningFrom
from drills.notation.score import Bar, MarkKind, Note, Onset
from trainer.reports.reach import Reach


def document(reading: Reading, reach: Reach) -> dict[str, Any]:
    """Every key is always there, null or empty where there is nothing to say."""
    marks = [_mark(mark, reading) for mark in reading.marks]
    onsets = sum(len(bar.onsets) for bar in reading.piece.bars)
    bars = _Bars(reading)
    return {
        "title": reading.piece.title,
        "capo": reading.piece.tuning.capo,
        "tuning": _tuning(reading),
        "counts": {
            "systems": reading.systems,
            "bars": len(reading.bars),
            "onsets": onsets,
            "notes": sum(len(onset.notes) for bar in reading.piece.bars for onset in bar.onsets),
            "marks": dict(Counter(mark["kind"] for mark in marks)),
        },
        "bars": [
            bars.bar(*each) for each in zip(reading.piece.bars, reading.bars, reading.sources, strict=True)
        ],
        "marks": marks,
        "problems": [
            {
                "line": doubt.line,
                "column": doubt.column,
                "severity": doubt.severity.value,
                "message": doubt.message,
                "mend": doubt.mend,
            }
            for doubt in reading.doubts
        ],
        "reading": {
            "fluent": _rounded(reach.fluent),
            "known": _rounded(reach.known),
            "to_learn": list(reach.to_learn),
            "left_out": reach.needs.left_out,
        },
    }


def _rounded(share: float | None) -> float | None:
    return None if share is None else round(share, 4)


def _tuning(reading: Reading) -> dict[str, Any]:
    """The open strings without the capo; nothing of what they sound where that is unknown."""
    tuning = reading.piece.tuning
    known = reading.tuning_from is not TuningFrom.UNKNOWN
    strings = [
        {
            "string": string,
            "midi": pitch.midi if known else None,
            "name": pitch.spn(tuning.flats) if known else None,
        }
        for string, pitch in enumerate(tuning.strings, start=1)
    ]
    return {"name": tuning.name if known else None, "from": reading.tuning_from.value, "strings": strings}


def _kind(kind: MarkKind) -> str:
    """A harmonic is one, however it is made."""
    return (MarkKind.HARMONIC if kind is MarkKind.PINCH_HARMONIC else kind).value


def _mark(mark: ReadMark, reading: Reading) -> dict[str, Any]:
    return {
        "kind": _kind(mark.kind),
        "bar": reading.bars[mark.bar].number,
        "string": mark.string,
        "from": mark.start,
        "to": mark.to,
        "amount": None if mark.amount is None else float(mark.amount),
        "certainty": mark.certainty.value,
    }


class _Bars:
    """Bars of a piece; what a place without signs sounds is worked out once."""

    def __init__(self, reading: Reading) -> None:
        self._reading = reading
        self._sounds: dict[Note, tuple[int | None, str | None, list[str]]] = {}

    def bar(self, bar: Bar, at: BarAt, places: tuple[tuple[Source, ...], ...]) -> dict[str, Any]:
        """One bar that is drawn."""
        onsets = [self._onset(*each, at) for each in zip(bar.onsets, places, strict=True)]
        return {"number": at.number, "system": at.system, "onsets": onsets}

    def _onset(self, onset: Onset, sources: tuple[Source, ...], at: BarAt) -> dict[str, Any]:
        """At the line and column of its topmost note; a rest is where its bar begins."""
        line, column = min(sources)[:2] if sources else (at.line, at.column)
        notes = [self._note(note, source) for note, source in zip(onset.notes, sources, strict=True)]
        return {"line": line, "column": column, "notes": notes}

    def _note(self, note: Note, source: Source) -> dict[str, Any]:
        if note not in self._sounds:
            self._sounds[note] = self._sound(note)
        midi, name, marks = self._sounds[note]
        return {
            "string": note.string,
            "fret": note.fret,
            "midi": midi,
            "name": name,
            "certainty": source.certainty.value,
            "marks": marks,
        }

    def _sound(self, note: Note) -> tuple[int | None, str | None, list[str]]:
        kinds = [_kind(mark.kind) for mark in note.marks]
        if note.fret is None and MarkKind.MUTE.value not in kinds:
            kinds.append(MarkKind.MUTE.value)
        pitch = self._reading.pitch(note)
        if pitch is None:
            return None, None, kinds
        return pitch.midi, pitch.spn(self._reading.piece.tuning.flats), kinds
