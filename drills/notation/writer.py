"""Piece -> plain-text tab that people and the reader can read."""

from __future__ import annotations

from drills.notation.score import Bar, Piece
from drills.notation.signs import links
from drills.notation.staff import Dialect, StaffView, draw_staff
from drills.notation.values import USUAL

WIDTH = 78
"""Characters in a line of most mails and forums."""


def write_tab(piece: Piece, width: int = WIDTH) -> str:
    """A piece in the text dialect: title, tuning, capo and metre in words, then systems no wider than ``width``.

    Bars that a sign joins stay in one system, and so does a bar that is wider than that by itself. Where every beat
    of a system is known a count line stands under it.
    """
    tuning = piece.tuning
    plain = tuning.with_capo(0)
    labels = tuple(plain.label(string) for string in range(1, tuning.lines + 1))
    pitches = " ".join(pitch.spn(tuning.flats) for pitch in reversed(tuning.strings))
    head = [piece.title] if piece.title else []
    head.append(f"Tuning: {pitches}")
    if tuning.capo:
        head.append(f"Capo: {tuning.capo}")
    metres = {bar.metre for bar in piece.bars}
    if len(metres) == 1 and (metre := metres.pop()) is not None and metre != USUAL:
        head.append(f"Time: {metre}")
    out = ["\n".join(head)]
    for bars in _systems(piece, labels, width):
        out.append("\n".join(_draw(piece, bars, labels)))
    return "\n\n".join(out) + "\n"


def _draw(piece: Piece, bars: tuple[Bar, ...], labels: tuple[str, ...]) -> list[str]:
    beats = [onset.beat for bar in bars for onset in bar.onsets]
    count = bool(beats) and all(beat is not None and beat.denominator in (1, 2, 4) for beat in beats)
    view = StaffView(Piece(piece.tuning, bars), Dialect.TEXT, labels=labels, count=count)
    try:
        return draw_staff(view).text()
    except ValueError:  # beats that do not rise: then their order is all there is to write
        return draw_staff(StaffView(view.piece, Dialect.TEXT, labels=labels)).text()


def _systems(piece: Piece, labels: tuple[str, ...], width: int) -> list[tuple[Bar, ...]]:
    """Bars that fit on one line, cut where no sign leads over the bar line."""
    joined = {
        bar
        for link in links(piece)
        if link.target is not None
        for bar in range(link.source.bar, link.target.bar)
    }
    systems: list[tuple[Bar, ...]] = []
    line: list[Bar] = []
    chunk: list[Bar] = []
    for index, bar in enumerate(piece.bars):
        chunk.append(bar)
        if index in joined:
            continue
        wide = max(len(row) for row in _draw(piece, (*line, *chunk), labels))
        if line and wide > width:
            systems.append(tuple(line))
            line = []
        line += chunk
        chunk = []
    return [*systems, tuple(line)] if line else systems
