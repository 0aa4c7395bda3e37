"""Open the screen on a profile, and keep everything when it closes, however it closes."""

from __future__ import annotations

import io
import os
import sys
from typing import Final

from trainer.app import SixlineApp
from trainer.clock import Clock
from trainer.complaint import DONE, ERRORS, REFUSED, shown
from trainer.hangup import surviving
from trainer.learner import Learner, ascii_terminal
from trainer.opening import Choices, open_profile
from trainer.themes import motion

CRASHED: Final = (
    "sixline: something went wrong inside (the screen): your answers are kept; "
    "run it again with SIXLINE_DEBUG=1 and report what it shows"
)


def run(choices: Choices, clock: Clock) -> int:
    """Practise on the screen; the exit code: a signal's, 1 where an answer is lost, 2 after a crash, else 0."""
    profile = open_profile(choices, clock, write=True)
    app = SixlineApp(Learner(choices, clock, profile, ascii_terminal()))
    app.animation_level = motion(os.environ, profile.settings.motion)
    crash = io.StringIO()
    app.error_console.file = crash
    try:
        with surviving(app):
            app.run()
    finally:
        lost = profile.close(clock.now())
    if lost:
        print(f"sixline: {shown(lost)}", file=sys.stderr)
    if crash.getvalue().strip():
        print(crash.getvalue() if os.environ.get("SIXLINE_DEBUG") else CRASHED, file=sys.stderr)
        return REFUSED
    return app.return_code or (ERRORS if lost else DONE)
