"""What went wrong, told in one line; and outside text made safe to show. Cheap to import."""

from __future__ import annotations

DONE, ERRORS, REFUSED = 0, 1, 2
"""Exit codes: done; the input has errors, which are listed; wrong usage or a file that cannot be read or written."""


class Complaint(Exception):
    """An error that the person at the keyboard can mend."""

    def __init__(self, what: str, where: str = "", mend: str = "") -> None:
        """Say what is wrong, where (a file, an option, an environment variable), and how to mend it.

        One text alone is a whole line already: ``WHAT (WHERE): HOW TO MEND IT``.
        """
        super().__init__(f"{what} ({where}): {mend}" if where else what)


def shown(text: str) -> str:
    """Text from outside on one line: control, direction and other unprintable characters are escaped."""
    return text if text.isprintable() else "".join(map(_shown, text))


def _shown(sign: str) -> str:
    return sign if sign.isprintable() else ascii(sign)[1:-1]


def nearest(name: str, known: list[str]) -> str | None:
    """The known name that was probably meant, or None."""
    from difflib import get_close_matches  # late: --help does not need it

    return next(iter(get_close_matches(name.lower(), known, n=1, cutoff=0.5)), None)
