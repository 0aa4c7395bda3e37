"""The room that numbers and the signs beside them need, in either dialect."""

from __future__ import annotations

from drills.notation.signs import Signs
from drills.notation.spacing import OnsetAt, onset_counts
from drills.notation.staff_view import StaffView


def token_widths(view: StaffView, signs: Signs) -> dict[OnsetAt, int]:
    """What the numbers of each onset take, with the signs after them, from its column on."""
    widths = {(bar, n): 1 for bar, count in enumerate(onset_counts(view)) for n in range(count)}
    for at, token in signs.tokens.items():
        widths[at.bar, at.onset] = max(widths[at.bar, at.onset], token.width)
    return widths


def lead_in(signs: Signs, steps: dict[OnsetAt, int]) -> int:
    """Make room before numbers that a sign stands before: in the step to them, and (returned) after bar lines."""
    lead = 0
    for (bar, index), length in _before(signs).items():
        if index == 0:
            lead = max(lead, length)
        else:
            steps[bar, index - 1] += length
    return lead


def _before(signs: Signs) -> dict[OnsetAt, int]:
    """Cells that signs before the numbers of an onset take."""
    found: dict[OnsetAt, int] = {}
    for at, token in signs.tokens.items():
        if token.before:
            found[at.bar, at.onset] = max(found.get((at.bar, at.onset), 0), len(token.before))
    return found
