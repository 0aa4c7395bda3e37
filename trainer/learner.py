"""What every screen is given: the learner's profile, the clock and how to begin a sitting."""

from __future__ import annotations

import locale
import sys
from dataclasses import dataclass

from drills.catalogue import Catalogue
from drills.question import Manner
from trainer import opening
from trainer.clock import Clock
from trainer.opening import Choices
from trainer.practice import Practice
from trainer.profile.settings import Settings
from trainer.profile.store import Profile
from trainer.wording import Voice, voice_of


@dataclass(slots=True)
class Learner:
    """One learner at one terminal.

    Attributes:
        choices: what the command line said.
        clock: the only source of the date.
        profile: the learner on disk.
        ascii_only: whether the terminal knows nothing but ASCII.
    """

    choices: Choices
    clock: Clock
    profile: Profile
    ascii_only: bool = False

    @property
    def settings(self) -> Settings:
        """What the learner has chosen."""
        return self.profile.settings

    @property
    def manner(self) -> Manner:
        """How this learner is asked."""
        return opening.manner(self.settings)

    @property
    def voice(self) -> Voice:
        """How this learner is spoken to: ``headline`` and its like take it."""
        return voice_of(self.settings)

    @property
    def catalogue(self) -> Catalogue:
        """Every item of the learner's tuning."""
        return opening.catalogue_of(self.settings)

    def begin(self) -> Practice:
        """A sitting for now; for somebody who reads already, the first one begins with the placement."""
        placement = self.settings.reader and not self.profile.ledger.events
        return opening.begin(self.profile, self.clock, seed=self.choices.seed, placement=placement)


def ascii_terminal() -> bool:
    """Whether the terminal's encoding cannot show more than ASCII (no UTF-8, no such locale)."""
    stream = sys.__stderr__
    encoding = (stream.encoding if stream else None) or locale.getpreferredencoding(False)
    try:
        "─╭●".encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return True
    return False
