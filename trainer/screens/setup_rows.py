"""The settings as Setup shows them: what each is called, what it can be, and one sentence about it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final, NamedTuple

from drills.notation.pitch import Naming
from drills.notation.staff import Dialect
from drills.notation.tuning import shipped
from trainer.profile.settings import Settings
from trainer.profile.tunings import OWN

MINUTES: Final = (5, 10, 15, 20, 30)
CAPOS: Final = 12


class Setting(NamedTuple):
    """One setting.

    Attributes:
        name: as ``Settings`` and profile.toml call it.
        label: as the learner reads it.
        about: one sentence.
        options: words and values.
    """

    name: str
    label: str
    about: str
    options: tuple[tuple[str, Any], ...] = ()


TUNING: Final = "Each tuning has its own items; what you know on another is kept."
ABOUT: Final = {
    "own_tuning": "Your own open strings, the lowest first, then Enter: D2 A2 D3 G3 B3 D4.",
    "sentence": "Your own sentence for the strings, one word a string, then Enter.",
    "measure": "How fast your hand is, so that slow keys never pass for slow reading.",
}
"""The rows that are typed into, or do something."""


def settings_of(settings: Settings, themes: Iterable[str]) -> dict[str, Setting]:
    """Every setting with values to choose from, in the order of the screen.

    Args:
        settings: as they are now.
        themes: the names of all themes.
    """
    rows = (
        Setting("tuning", "Tuning", TUNING, tuning_options(settings)),
        Setting(
            "capo", "Capo", "Numbers count from the capo; it changes what sounds, not what you know.",
            (("none", 0), *((f"on fret {n}", n) for n in range(1, CAPOS + 1))),
        ),
        Setting(
            "hand", "Hands", "Left mirrors the neck; the staff is the same for everybody.",
            (("the right hand picks", "right"), ("the left hand picks", "left")),
        ),
        Setting(
            "naming", "Note names", "What the notes are called, here and in the answers.",
            (
                ("C D E F G A B", str(Naming.LETTERS)),
                ("C D E F G A H", str(Naming.GERMAN)),
                ("do re mi fa sol la si", str(Naming.SOLFEGE)),
            ),
        ),
        Setting(
            "dialect", "The staff", "Tab as books print it, or as people type it.",
            (("printed signs", str(Dialect.ENGRAVED)), ("as people type it", str(Dialect.TEXT))),
        ),
        Setting(
            "help", "Help", "Letters and neck are shown while something is new, always, or never.",
            (("while something is new", "fading"), ("always", "always"), ("never", "never")),
        ),
        Setting("theme", "Colours", "Lamp is our dark one, ink our light one.", theme_options(themes)),
        Setting(
            "motion", "Motion", "Over SSH nothing moves in any case.", (("where it is quick", "auto"), ("off", "off")),
        ),
        Setting(
            "minutes", "A sitting", "How long one practice is; every day a little is best.",
            tuple((f"{n} minutes", n) for n in sorted({*MINUTES, settings.minutes})),
        ),
        Setting(
            "short_words", "Words", "Few and easy words are good for children.",
            (("as usual", False), ("few and easy", True)),
        ),
        Setting(
            "talk_of_speed", "Speed", "Without it nothing says slow, fast or seconds; they are still kept.",
            (("spoken of", True), ("not spoken of", False)),
        ),
    )  # fmt: skip
    return {row.name: row for row in rows}


def tuning_options(settings: Settings) -> tuple[tuple[str, str], ...]:
    """The shipped tunings, the learner's own where there is one, and pitches that stand for a tuning in the file."""
    known = [(tuning.title, name) for name, tuning in shipped().items()]
    if settings.own_tuning:
        known.append((f"my own, {settings.own_tuning}", OWN))
    if settings.tuning not in [name for _, name in known]:
        known.append((settings.tuning, settings.tuning))
    return tuple(known)


def theme_options(themes: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Our own two first."""
    own = ("lamp", "ink")
    rest = sorted(name for name in themes if name not in own)
    return (("the usual", ""), *((name, name) for name in (*own, *rest)))
