"""Which string each row of a system is."""

from __future__ import annotations

from drills.notation.reading.systems import System
from drills.notation.reading.tunings import Strung, classes_of, is_upside_down, labels_of, pitch_classes, window


def strings_of(system: System, strung: Strung) -> tuple[tuple[int, ...], bool]:
    """The string of each row, top row first, and whether that is sure."""
    tuning, rows = strung.tuning, len(system.rows)
    labels = labels_of(system)
    numbers = [label.number for label in labels if label is not None and label.number is not None]
    if len(numbers) == rows == len(set(numbers)) and max(numbers) <= tuning.lines:
        return tuple(numbers), True
    down = tuple(range(1, rows + 1))
    if rows == tuning.lines:
        classes = classes_of(labels, strung.german)
        flip = strung.upside_down and (classes is None or is_upside_down(classes, tuning))
        return (down[::-1] if flip else down), True
    classes = classes_of(labels, strung.german)
    if classes is not None and rows < tuning.lines:
        whole = pitch_classes(tuning)
        at = window(classes, whole)
        if rows == 1 and at is not None and labels[0] is not None and not labels[0].high:
            at = tuning.lines - 1 - whole[::-1].index(classes[0])
        if at is not None:
            return tuple(range(at + 1, at + rows + 1)), True
        found: list[int] = []
        for c in classes:
            start = found[-1] if found else 0
            if c not in whole[start:]:
                break
            found.append(whole.index(c, start) + 1)
        if len(found) == rows:
            return tuple(found), True
    return down, False
