"""Is this line a row of tab? Where its label ends, where its music ends, and what is remarked after it."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from drills.notation.reading.labels import LETTER, NUMBER, PLAIN, Label, parse_label
from drills.notation.reading.lines import Line

_QUOTED: Final = r" *(?:(?:[>*\"'`]|//|#|[-+] )(?=[ A-Ha-h0-9|])(?![0-9]*-) *)?"
"""What a mail, a list, or a program's source puts before a row."""

_HEAD: Final = re.compile(
    rf"(?P<before>{_QUOTED}[(\[]?)"
    rf"(?:(?P<label>(?:{LETTER}|{NUMBER})(?=\)? {{0,6}}[|:\]\[)!{{}}=I])|{PLAIN}(?= {{0,2}}-| {{3,8}}--))"
    rf"\)?(?: {{0,6}}(?P<bar>[|:\]\[)!{{}}=]{{1,4}}|I(?=-))| {{0,8}}(?=-)))?"
)
_NAMED: Final = re.compile(
    rf"(?P<before>(?! *[|=])[^-|=\n]{{1,24}}?(?<![A-Za-z0-9#]))(?P<label>{LETTER})(?P<bar>\|{{1,2}})(?=[-|:0-9])"
)
"""A part's name before the label: ``Gtr 1  e|---``."""
_STROKES: Final = re.compile(r" *[A-Ga-g][#b]? ?[Il!][-0-9hpbr/\\~xX()]{3}[-0-9hpbr/\\~xX()Il! ]*")
_AS_BARS: Final = str.maketrans("Il!", "|||")
"""Letters and signs that some type for bar lines."""
_TAB: Final = frozenset("-|0123456789hHpPbBrRsStTvVxX/\\~^()<>[]{}=*.:+'gowWuUd \"")
_REMARK: Final = re.compile(
    r"(?<![ ]) +(?=[(\[{*\"<]?(?:[xX] ?[0-9]{1,2}(?![-0-9|]| {1,8}\|)"
    r"|[0-9]{1,2} ?(?:[xX](?![-x|])|times|st\b|nd\b|rd\b|th\b))"
    r"|[(\[{*\"]?(?:(?![A-Ga-g][#b]?[|:\-])[A-Za-z]{2})"
    r"|[^-|0-9xXhpbtrsg/\\~^(<\[{=*.:+'A-Ha-h ])"
    r"|(?<![ ]) {2,}(?=[A-Za-z](?![|:\-0-9 ]))"
    r"|(?<=\|) +(?=[(\[<{]?[A-Za-z](?![|:\-0-9]))"
    r"|(?<=\|)(?=[A-Ha-h][#b]? *$)"
    r"|(?<=\|) *(?=[(\[]?[xX][0-9]{1,2}[)\]]? *$|[(\[]?[0-9]{1,2}[xX][)\]]? *$)"
)
"""Where a remark begins: blanks before a word, before ``x4``, or before what no row holds."""
_PLAYED: Final = re.compile(r"[0-9xX]")
WORDS: Final = re.compile(
    r"(?<=[-0-9|])\((?!full|half)[A-Za-z]{3,16}(?: [A-Za-z]{2,16}){0,3}\.?\)(?=[-0-9|])"
)
"""Words in brackets between dashes."""
_SPELLED_CHORD: Final = re.compile(r"[0-9xX](?:-[0-9xX]{1,2}){3,7} *")
_COUNT: Final = re.compile(r"[-|: ]*1[-+&e.a |]*2[-+&e.a |]*(?:3|$)[-+&e.a |0-9]*$")
_SOURCE_END: Final = re.compile(r"(?:\\n)?[\"'`],? *$|\\n *$|\\ *$")


class Row(NamedTuple):
    """One line of tab.

    Attributes:
        line: the line it stands on.
        label: before it, or None.
        strong: whether label or bar line make it sure to be tab; a weak one needs neighbours.
        start: where its music begins in ``line.text``: at the label's bar line, or what stands in its place.
        end: where it ends.
        remark: what stands after it.
    """

    line: Line
    label: Label | None
    strong: bool
    start: int
    end: int
    remark: str

    @property
    def body(self) -> str:
        """Its music."""
        return self.line.text[self.start : self.end]


def find_rows(lines: list[Line]) -> list[Row | None]:
    """The row that each line is, or None; lines that read alike, as silent strings do, are looked at once."""
    known: dict[str, Row | None] = {}
    found: list[Row | None] = []
    for line in lines:
        text = line.text
        if text in known:
            row = known[text]
            if row is not None:
                at = line if row.line.text == text else line._replace(text=row.line.text)
                row = Row(at, row.label, row.strong, row.start, row.end, row.remark)
        else:
            row = known[text] = find_row(line)
        found.append(row)
    return found


def find_row(line: Line) -> Row | None:
    """The row that a line is, or None."""
    line = _plainer(line)
    text = line.text
    if "-" not in text and "|" not in text and "=" not in text:
        return None
    head = _HEAD.match(text)
    if head is None:
        return None
    if not head["label"] and (named := _NAMED.match(text)) is not None:
        head = named
    label = head["label"]
    start = head.start("bar") if head["bar"] else head.end()
    if not label:
        start = len(head["before"].rstrip("(["))
        while start < len(text) and text[start] == " ":
            start += 1
    end = _end(text, start)
    body = text[start:end]
    if "(" in body:
        body = WORDS.sub(lambda found: "-" * len(found.group()), body)
    if not _plausible(body, bool(head["bar"]), label):
        return None
    found = parse_label(label) if label else None
    strong = bool(label) or (body.startswith("|") and "-" in body)
    remark = text[end:].strip()
    return Row(line, found, strong, start, end, remark)


def _plainer(line: Line) -> Line:
    """With bar lines for the strokes, and dashes for the dots or low lines, that some type instead."""
    text = line.text
    if "|" not in text:
        return line._replace(text=text.translate(_AS_BARS)) if _STROKES.fullmatch(text) is not None else line
    if "-" not in text and len(text) > 4:
        fill = max("._", key=text.count)
        if 2 * text.count(fill) > len(text) - text.count(" "):
            return line._replace(text=text.replace(fill, "-"))
    return line


def _end(text: str, start: int) -> int:
    """Where the music of a row ends: before a remark, and before the quotes of a program's source."""
    if text[-1] in "|-" and '"' not in text and " " not in text[start:]:
        return len(text)
    probe = WORDS.sub(lambda found: "-" * len(found.group()), text) if "(" in text else text
    match = _REMARK.search(probe, start)
    end = match.start() if match else len(text)
    if (mark := text.find('"', start)) != -1 and mark < end:
        end = mark
    if text[:1] in " \"'" or text.endswith(("\\n", "\\n\"", "\\n\",")):
        source = _SOURCE_END.search(text, max(start, len(text) - 12))
        if source and source.start() < end:
            end = source.start()
    bar = text.rfind("|", start, end)
    if text[bar + 1 : bar + 2] == " " and bar > start and _PLAYED.search(text, bar, end) is None:
        end = bar + 1
    while end > start and text[end - 1] == " ":
        end -= 1
    return end


def _plausible(body: str, barred: bool, label: str | None) -> bool:
    """Whether the characters are those of a row."""
    solid = len(body) - body.count(" ")
    if solid < 2:
        return body == "|" and label is not None
    dashes, bars = body.count("-") + body.count("="), body.count("|")
    if not dashes and not (solid > 4 and (bars > 1 or (bars and label is not None))):
        return barred and _blank(body)
    strange = set(body) - _TAB
    if strange:
        odd = sum(body.count(character) for character in strange) - len("fll") * body.count("full")
        if odd > 2 and odd > 0.15 * solid:
            return False
    if _SPELLED_CHORD.fullmatch(body.strip("|:= ")) and "|" not in body:
        return False
    if label:
        if barred:
            return dashes + bars >= 0.2 * solid or (not strange and "|" in body)
        return dashes >= 0.4 * solid and "--" in body and solid > 3
    if body[0] == "|":
        return dashes + bars >= 0.25 * solid and dashes > 0 if dashes else _digits_only(body)
    return dashes >= 0.35 * solid and "--" in body and solid > 3 and body[0] in "-0123456789(<[xX/\\h=~pt:"


def _blank(body: str) -> bool:
    """Whether a row with label and bar lines has blanks where others have dashes."""
    return len(body) > 4 and body[0] == body[-1] == "|" and not body.strip("|0123456789hp/\\xX~ ")


def _digits_only(body: str) -> bool:
    return 2 * body.count("|") < len(body) and all(character in "|0123456789 hp/\\xX" for character in body)


def looks_counted(row: Row) -> bool:
    """Whether a row without label may be a count line that is written with dashes: ``1---2---3---4---``."""
    return row.label is None and _COUNT.fullmatch(row.body) is not None


def is_rule(row: Row) -> bool:
    """Whether it is nothing but dashes, as a line under a heading is."""
    return row.label is None and not row.body.strip("-= ")
