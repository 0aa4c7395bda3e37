"""Taps in time: when a written bar is to be tapped, and whether taps fit it.

What is judged is the pattern, not the machine: terminals and keyboards delay every key by about the same time, so
only the distances between taps count. A learner may also be steady at a tempo of their own, a little off the pulse.
The figures are our choice; no published norm for beginners tapping from tab was found.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise
from typing import Final, NamedTuple

from drills.notation.score import Piece
from drills.notation.values import beat_moments, beats_of, start_of

OFF_TEMPO: Final = 0.08
"""How much faster or slower than the pulse a steady tempo may be."""

_STEPS: Final = 32

NARROWEST, WIDEST = 0.06, 0.15
"""Bounds of the window in seconds."""


class Fit(NamedTuple):
    """The steady tempo that comes nearest to some taps.

    Attributes:
        rate: seconds tapped for each second written: above 1 is slower.
        start: when the piece began, in the seconds of the taps.
        errors: how late each tap came (negative: early), in seconds.
    """

    rate: float
    start: float
    errors: tuple[float, ...]


class Tapping(NamedTuple):
    """What is to be tapped, with all that a screen needs to pulse along.

    Attributes:
        tempo: pulses a minute; one pulse is one beat of the metre (an eighth in 6/8).
        lead_in: pulses before the piece begins.
        moments: when each note is struck, in seconds from the start of the piece, after the lead-in.
        length: seconds from the start of the piece to its end.
        window: how far a tap may be from its place, in seconds, after the best steady tempo is taken: a quarter of
            the shortest written value, but at least 0.06 and at most 0.15.
    """

    tempo: int
    lead_in: int
    moments: tuple[float, ...]
    length: float
    window: float

    @property
    def pulse(self) -> float:
        """Seconds from pulse to pulse."""
        return 60 / self.tempo

    @property
    def gaps(self) -> tuple[float, ...]:
        """Seconds from each note to the next."""
        return tuple(later - earlier for earlier, later in pairwise(self.moments))

    @property
    def model(self) -> str:
        """Taps just where they are written, as an answer in normal form."""
        return " ".join(f"{moment:.2f}" for moment in self.moments)

    def fit(self, taps: Sequence[float]) -> Fit:
        """The tempo, within 8 % of the pulse, that leaves the smallest largest error.

        The offset is the median one, so that one tap out of place is told as that tap, and does not drag the others
        along. Tried are the tempos of every two taps and some in between.

        Raises:
            ValueError: not as many taps as notes.
        """
        from statistics import median  # late: not needed before the first question

        pairs = list(zip(self.moments, taps, strict=True))
        low, high = 1 / (1 + OFF_TEMPO), 1 + OFF_TEMPO
        slopes = [(s - r) / (t - u) for (u, r), (t, s) in combinations(pairs, 2)]
        rates = [1.0, *(low + (high - low) * step / _STEPS for step in range(_STEPS + 1))]
        rates += [rate for rate in slopes if low < rate < high]

        def at(rate: float) -> Fit:
            off = [tap - rate * moment for moment, tap in pairs]
            start = median(off)
            return Fit(rate, start, tuple(each - start for each in off))

        return min(map(at, rates), key=lambda fit: max(map(abs, fit.errors)))

    def fits(self, taps: Sequence[float]) -> bool:
        """Whether there are as many taps as notes and each is within the window."""
        if len(taps) != len(self.moments):
            return False
        # Half a hundredth more: taps are handed on in hundredths of a second.
        return max(map(abs, self.fit(taps).errors)) <= self.window + 0.005

    def in_beats(self, taps: Sequence[float]) -> tuple[float, ...]:
        """Where taps fall in the piece, in beats from its start: at the best tempo, or, where there are too many or
        too few, with the first one on the first note."""
        if len(taps) == len(self.moments):
            rate, start, _ = self.fit(taps)
        else:
            rate, start = 1.0, taps[0] - self.moments[0]
        return tuple((tap - start) / rate / self.pulse for tap in taps)


def tapping_of(piece: Piece, tempo: int, lead_in: int) -> Tapping:
    """What is tapped of a piece whose beats and lengths are known; a tied note and a rest are not tapped.

    Raises:
        ValueError: a beat or a length is unknown.
    """
    lengths = [onset.length for _, _, onset in piece.onsets()]
    known = [length for length in lengths if length is not None]
    if len(known) < len(lengths) or not known:
        raise ValueError("an onset has no length: what is tapped needs the length of every onset")
    pulse = 60 / tempo
    window = min(WIDEST, max(NARROWEST, float(min(known)) * pulse / 4))
    beats = sum(beats_of(bar) + 1 - start_of(bar) for bar in piece.bars)
    moments = tuple(float(moment) * pulse for moment in beat_moments(piece))
    return Tapping(tempo, lead_in, moments, float(beats) * pulse, window)
