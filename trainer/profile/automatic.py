"""When the memory is to be fitted by itself. Cheap to import; ``fitted`` does it."""

from __future__ import annotations

from trainer.profile.store import Profile
from trainer.schedule.marks import passed_mark


class Automatic:
    """Once for each mark that the cold answers pass; never after somebody has undone a fit."""

    def __init__(self, profile: Profile) -> None:
        """Take a profile as it is when the learner begins: marks that were passed before are not due any more."""
        self._profile = profile
        self._cold = profile.ledger.cold

    def due(self) -> bool:
        """Whether a fit is due; if so, then not again before the next mark."""
        ledger = self._profile.ledger
        before, self._cold = self._cold, ledger.cold
        undone = ledger.fit is not None and ledger.fit.undone
        return not undone and passed_mark(self._cold, before)
