"""Tab in words, for ears instead of eyes: what is drawn, said from left to right."""

from __future__ import annotations

from typing import Final

from drills.notation.diagram import Box, DiagramView
from drills.notation.drawing import Role
from drills.notation.neck import CAPO, WRONG_CAPO, NeckView
from drills.notation.say_music import Speaker, say_fret
from drills.notation.say_music import say_place as say_place
from drills.notation.staff_view import StaffView

ORDINALS: Final = ("", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
            "tenth", "eleventh", "twelfth")  # fmt: skip

_ROLES: Final = {Role.LIT: "is marked", Role.TRUE: "is the right one", Role.SAID: "is what you answered"}


def from_edge(place: int, count: int, noun: str) -> str:
    """The ``place``-th of ``count`` from the top: ``the top line``, ``the second line from the bottom``."""
    if place == 1:
        return f"the top {noun}"
    if place == count:
        return f"the bottom {noun}"
    if place <= (count + 1) // 2:
        return f"the {ORDINALS[place]} {noun} from the top"
    return f"the {ORDINALS[count + 1 - place]} {noun} from the bottom"


def say_staff(view: StaffView, *, spell: bool = False) -> list[str]:
    """A staff in sentences without their full stops: labels, whole lines that are marked, then all that is played.

    Args:
        view: the staff.
        spell: say how a sign is written instead of its name, where its name is what is asked.
    """
    lines = view.piece.tuning.lines
    said = _labels(view.labels, "line", "the lines from the top")
    said += [
        f"{from_edge(line, lines, 'line')} {_ROLES[role]}" for line, role in view.lines.items() if role in _ROLES
    ]
    if any(bar.onsets for bar in view.piece.bars):
        said.append(Speaker(view, spell).all())
        fingers = [f"{finger} under note {n + 1}" for (_, n), finger in sorted(view.fingering.items())]
        said += ["fingers under the staff: " + ", ".join(fingers)] if fingers else []
    elif not said:
        said.append(f"an empty staff of {lines} lines")
    return said + [f"legend: {sentence.removesuffix('.')}" for sentence in view.legend]


def say_neck(view: NeckView) -> list[str]:
    """A neck in sentences without their full stops, as the player looks down at it: strings from the top of the
    picture, frets from the nut."""
    said = _labels(view.labels[::-1], "string", "the strings from the top of the neck", "on the neck, ")
    for string, role in view.lit_strings.items():
        if role in _ROLES:
            said.append(f"on the neck, {_neck_string(view, string)} {_ROLES[role]}")
    capos = {fret: role for (_, fret), (text, role) in view.dots.items() if text in (CAPO, WRONG_CAPO)}
    for fret, role in capos.items():
        said.append(f"a capo across the neck at fret {fret} {_ROLES.get(role, '')}".rstrip())
    for (string, fret), (text, role) in view.dots.items():
        if text in (CAPO, WRONG_CAPO):
            continue
        told = "" if role in (Role.LIT, Role.FRET) else f" {_ROLES[role]}" if role in _ROLES else ""
        place = f"{_neck_string(view, string)}, {say_fret(fret)}"
        said.append(f"on the neck, the dot at {place},{told}" if told else f"on the neck, a dot at {place}")
    if view.keys:
        keyed = (f"{key}: {_neck_string(view, string)}, {say_fret(fret)}" for (string, fret), (key, _) in _by_key(view))
        said.append(f"on the neck, {'; '.join(keyed)}")
    return said


def say_diagram(view: DiagramView) -> list[str]:
    """Chord diagrams in sentences without their full stops, each from its last string to string 1."""
    # Their numbers are said with the strings anyway.
    letters = [f"string {n} is {label}" for n, label in enumerate(view.labels, start=1) if label and label != str(n)]
    return [_box(box) for box in view.boxes] + ([", ".join(letters[::-1])] if letters else [])


def _box(box: Box) -> str:
    lines = box.shape.lines
    held = (
        f"string {lines - n} not played" if fret is None else say_place(lines - n, fret)
        for n, fret in enumerate(box.shape.frets)
    )
    return f"{box.key or box.caption or 'a chord diagram'}: {'; '.join(held)}"


def _by_key(view: NeckView) -> list[tuple[tuple[int, int], tuple[str, str]]]:
    return sorted(view.keys.items(), key=lambda entry: entry[1])


def _neck_string(view: NeckView, string: int) -> str:
    return from_edge(view.strings + 1 - string, view.strings, "string")


def _labels(labels: tuple[str, ...], noun: str, every: str, where: str = "") -> list[str]:
    """What stands beside lines or strings, from the top of the picture."""
    if labels and all(labels):
        return [f"{every} are labelled {', '.join(labels)}"]
    count = len(labels)
    return [f"{where}{from_edge(n, count, noun)} is labelled {label}" for n, label in enumerate(labels, 1) if label]
