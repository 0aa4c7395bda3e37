"""Text -> lines as they are scanned: TABs expanded, every dash a ``-``, every bar a ``|``, HTML signs undone."""

from __future__ import annotations

import html
import re
from typing import Final, NamedTuple

_SAME: Final = {
    "-": "‐‑‒–—―−─━═╌╍┄┅┈┉⎯﹘﹣－ーᅳ",
    "|": "‖∣❘│┃║╎╏┆┇┊┋¦｜├┤┼╫╂╟╢╞╡╪╬┝┥┠┨┣┫╠╣┬┴┌┐└┘╔╗╚╝",
    "~": "〜～∼≈∿〰˜",
    "x": "×✕✗✘╳",
    "/": "⁄∕╱⟋",
    "\\": "╲⟍∖",
    "#": "♯",
    "b": "♭",
    "'": "’‘′`´",
    '"': "“”″",
    "(": "❨⦅",
    ")": "❩⦆",
    "<": "‹⟨〈◇",
    ">": "›⟩〉",
    "*": "●•∙○",
    " ": "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000"
    "\x0b\x0c\x1c\x1d\x1e\x1f\x85",
}
_PLAIN: Final = str.maketrans(
    {wide: plain for plain, wides in _SAME.items() for wide in wides}
    | {chr(0xFF01 + n): chr(0x21 + n) for n in range(94)}
    | {sign: str(n) for n, sign in enumerate("⁰¹²³⁴⁵⁶⁷⁸⁹")}
)
"""One character each, so that columns stay; full-width letters and digits become ASCII."""

_IS_HTML: Final = re.compile(r"<(?:pre|br|html|span|div|p|code)\b|&(?:lt|gt|amp|nbsp|#[0-9]+);", re.IGNORECASE)
_TAG_OR_SIGN: Final = re.compile(r"<[/!]?[A-Za-z][^<>\n]{0,200}>|&#?[A-Za-z0-9]{2,8};")
_BREAK: Final = re.compile(r"<br\b[^<>\n]{0,80}>", re.IGNORECASE)
_QUOTE: Final = re.compile(r"^(?:> ?)+")
_TAB: Final = 8


class Line(NamedTuple):
    """A line as it is scanned.

    Attributes:
        number: in the file, from 1.
        text: plain characters.
        columns: the column of each character in the file, from 0; None where it is its own.
    """

    number: int
    text: str
    columns: list[int] | None = None

    def column(self, at: int) -> int:
        """The column in the file, from 1, of what stands at ``at`` in the text."""
        if self.columns is None:
            return at + 1
        return self.columns[min(at, len(self.columns) - 1)] + 1 if self.columns else 1


def split_lines(text: str) -> list[Line]:
    """The lines of a text: a line ends with LF, CRLF or CR."""
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    tagged = ("<" in text or "&" in text) and _IS_HTML.search(text) is not None
    if not text.isascii():
        text = text.translate(_PLAIN)
    lines: list[Line] = []
    for number, raw in enumerate(_unquoted(text.split("\n")), start=1):
        if tagged and ("<" in raw or "&" in raw):
            lines += _without_tags(number, raw)
        elif "\t" in raw:
            lines.append(_expanded(number, raw, list(range(len(raw)))))
        else:
            lines.append(Line(number, raw))
    return lines


def _unquoted(lines: list[str]) -> list[str]:
    """Blanks for the ``>`` before the lines of a quoted mail; a file with a few of them has accents."""
    quoted = sum(line[:1] == ">" for line in lines)
    if not quoted or 2 * quoted < sum(1 for line in lines if line.strip()):
        return lines
    return [_QUOTE.sub(lambda found: " " * len(found.group()), line, count=1) for line in lines]


def _expanded(number: int, text: str, columns: list[int]) -> Line:
    """TABs as blanks up to the next eighth column."""
    out: list[str] = []
    at: list[int] = []
    for character, column in zip(text, columns, strict=True):
        if character == "\t":
            wide = _TAB - len(at) % _TAB
            out.append(" " * wide)
            at += [column] * wide
        else:
            out.append(character)
            at.append(column)
    return Line(number, "".join(out), at)


def _without_tags(number: int, raw: str) -> list[Line]:
    """A line of HTML as a browser shows it: ``<br>`` ends a line, tags vanish, ``&lt;`` is ``<``."""
    found: list[Line] = []
    start = 0
    stops = [*((m.start(), m.end()) for m in _BREAK.finditer(raw)), (len(raw), len(raw))]
    for stop, end in stops:
        out: list[str] = []
        at: list[int] = []
        place = start
        for match in _TAG_OR_SIGN.finditer(raw, start, stop):
            out.append(raw[place : match.start()])
            at += range(place, match.start())
            if match.group().startswith("&"):
                plain = html.unescape(match.group()).translate(_PLAIN)
                out.append(plain)
                at += [match.start()] * len(plain)
            place = match.end()
        out.append(raw[place:stop])
        at += range(place, stop)
        text = "".join(out)
        if text.strip() or len(stops) == 1 or stop != len(raw):
            found.append(_expanded(number, text, at))
        start = end
    return found or [Line(number, "")]
