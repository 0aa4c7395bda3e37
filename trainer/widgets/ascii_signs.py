"""What a terminal that knows nothing but ASCII is sent in the place of other signs."""

from __future__ import annotations

from rich.cells import cell_len
from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from drills.notation.drawing import TO_ASCII


class AsciiSigns(LineFilter):
    """Every sign on every screen as ASCII, the framework's own (arrows, scroll bars) too; no cell moves."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """The same line in ASCII."""
        return [
            segment if segment.text.isascii() else Segment(plain(segment.text), segment.style, segment.control)
            for segment in segments
        ]


def plain(text: str) -> str:
    """Our own signs by their likeness, others as question marks, each as wide as it was."""
    return "".join(sign if sign.isascii() else "?" * cell_len(sign) for sign in text.translate(TO_ASCII))
