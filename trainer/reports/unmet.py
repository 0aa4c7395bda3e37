"""What of the learner's own pieces is not met yet: it comes first among the new items."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from drills.catalogue import Catalogue
from trainer.profile.pieces import KeptPiece
from trainer.schedule.standing import standing
from trainer.schedule.wanted import with_needs
from trainer.wording import counted

LONGEST_TITLE = 50


def unmet(catalogue: Catalogue, met: Collection[str], wanted: Iterable[str]) -> list[str]:
    """Ids of the wanted items that were never met, and of those that they need, in teaching order."""
    found = sorted(with_needs(catalogue.items, standing(catalogue.items), wanted))
    return [id for at in found if (id := catalogue.items[at].id) not in met]


def piece_line(catalogue: Catalogue, met: Collection[str], pieces: Sequence[KeptPiece]) -> str:
    """One line on the pieces of which something is to be met yet; empty where there are none."""
    open_ones = [piece for piece in pieces if unmet(catalogue, met, piece.items)]
    if not open_ones:
        return ""
    left = len(unmet(catalogue, met, {item for piece in open_ones for item in piece.items}))
    title = open_ones[0].title
    title = title if len(title) <= LONGEST_TITLE else title[: LONGEST_TITLE - 3] + "..."
    more = f" and {counted(len(open_ones) - 1, 'other piece')}" if len(open_ones) > 1 else ""
    return f"First among the new: what {title}{more} needs, {counted(left, 'item')} not met yet."
