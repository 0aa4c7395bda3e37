"""Every note value and rest that is asked about, the bars that hold it, and lengths in words."""

from __future__ import annotations

from fractions import Fraction
from typing import Final, NamedTuple

from drills.kinds.rhythm.written import values
from drills.notation.staff_view import Dialect
from drills.notation.stems import RESTS
from drills.notation.values import BY_LETTER, Value
from drills.stages import Stage

STEMS: Final = {
    "whole": "without a stem",
    "half": "with a short stem",
    "quarter": "with a long stem",
    "eighth": "with one flag or beam",
    "sixteenth": "with two flags or beams",
}
"""How print tells values apart under tab (common practice, no source)."""


class Sign(NamedTuple):
    """One value as it is met.

    Attributes:
        written: ``q``, ``q.``, ``qr`` for a rest.
        stage: when it is taught.
        signs: the lesson that draws it.
        bars: bars that hold it, as metre and values.
        among: which set of ``AMONG`` it is looked for in, or empty.
    """

    written: str
    stage: Stage
    signs: str
    bars: tuple[tuple[str, str], ...]
    among: str = ""

    @property
    def value(self) -> Value:
        """The value."""
        return Value(BY_LETTER[self.written[0]], self.written.count("."))

    @property
    def noun(self) -> str:
        """``note`` or ``rest``."""
        return "rest" if "r" in self.written else "note"

    @property
    def key(self) -> str:
        """As it stands in ids: ``dotted-quarter``, ``half-rest``."""
        return self.value.words.replace(" ", "-") + ("-rest" if self.noun == "rest" else "")

    @property
    def name(self) -> str:
        """``dotted quarter note``."""
        return f"{self.value.words} {self.noun}"

    def look(self, dialect: Dialect) -> str:
        """How it is written, after ``is written``."""
        if dialect == Dialect.TEXT:
            return f"as {self.value.letters}{'r' * (self.noun == 'rest')}"
        sign = f"as {RESTS[self.value.name]}" if self.noun == "rest" else STEMS[self.value.name]
        return sign + " and a dot" * self.value.dots


def _in_four(*texts: str) -> tuple[tuple[str, str], ...]:
    return tuple(("4-4", text) for text in texts)


def _in_two(*texts: str) -> tuple[tuple[str, str], ...]:
    return tuple(("2-4", text) for text in texts)


SIGNS: Final = {
    sign.key: sign
    for sign in (
        Sign("w", Stage.STACKS, "values", _in_four("w"), "plain"),
        Sign("h", Stage.STACKS, "values", _in_four("h h", "h q q", "q q h", "q h q"), "plain"),
        Sign("q", Stage.STACKS, "values", _in_four("q q h", "q h q", "h q q"), "plain"),
        Sign("e", Stage.HALF_BEATS, "short", _in_four("q e e h", "h e e q", "q. e h"), "dotted"),
        Sign("h.", Stage.HALF_BEATS, "short", _in_four("h. q", "q h.", "h. e e"), "held"),
        Sign("q.", Stage.HALF_BEATS, "short", _in_four("q. e h", "h q. e", "q. e q q"), "dotted"),
        Sign("wr", Stage.HALF_BEATS, "rests", _in_four("wr")),
        Sign("hr", Stage.HALF_BEATS, "rests", _in_four("h hr", "hr h", "q q hr", "hr q q")),
        Sign("qr", Stage.HALF_BEATS, "rests", _in_four("q qr h", "h q qr", "qr q h", "q q q qr")),
        Sign("er", Stage.HALF_BEATS, "rests", _in_four("q er e h", "e er q h", "h er e q")),
        Sign("s", Stage.FAST_BEATS, "sixteenth", _in_two("s s s s q", "e s s q", "q s s e", "s s e q"), "fast"),
        Sign("e.", Stage.FAST_BEATS, "sixteenth", _in_two("e. s q", "q e. s", "e. s e e"), "fast"),
        Sign("sr", Stage.FAST_BEATS, "rests", _in_two("s sr e q", "q s sr e", "sr s e q")),
    )
}  # fmt: skip
"""Every value that is asked about, by key."""

AMONG: Final = {
    "plain": (("w",), ("h", "q", "e e")),
    "dotted": (("w",), ("h", "q. e")),
    "held": (("h.", "q"), ("h", "q", "e e")),
    "fast": (("e. s", "q", "h"),),
}
"""Bars in which values are looked for, and in each the groups of values, which may stand in any order, and
each either way round."""

TIES: Final = {
    "quarter-quarter": ("4-4", "q~ q h"), "half-quarter": ("4-4", "h~ q q"), "half-half": ("4-4", "h~ h"),
    "dotted-half-quarter": ("4-4", "h.~ q"), "quarter-eighth": ("4-4", "q q~ e e q"),
    "half-eighth": ("4-4", "h~ e e q"), "eighth-eighth": ("2-4", "e e~ e e"),
    "dotted-quarter-quarter": ("4-4", "e q.~ q q"),
}  # fmt: skip
"""Two tied values, each one item, with the bar that holds them."""

BEATS: Final = {
    "4 beats": Fraction(4), "3 beats": Fraction(3), "2 1/2 beats": Fraction(5, 2), "2 beats": Fraction(2),
    "1 1/2 beats": Fraction(3, 2), "1 beat": Fraction(1), "3/4 of a beat": Fraction(3, 4),
    "1/2 of a beat": Fraction(1, 2), "1/4 of a beat": Fraction(1, 4),
}  # fmt: skip
"""Lengths as they are offered, where a quarter is one beat."""

def beats_by(stage: int) -> list[str]:
    """The lengths that are offered at a stage: quarters of a beat only where sixteenths are taught."""
    return [text for text, length in BEATS.items() if stage >= Stage.FAST_BEATS or length.denominator <= 2]


IN_BEATS: Final = {length: text for text, length in BEATS.items()}


def tied(text: str) -> tuple[Value, Value]:
    """The two values of a tie."""
    read = values(text)
    at = next(n for n, (_, _, tie) in enumerate(read) if tie)
    return read[at][0], read[at + 1][0]


def article(name: str) -> str:
    """``an eighth note``, ``a half note``."""
    return f"an {name}" if name[0] in "aeiou" else f"a {name}"
