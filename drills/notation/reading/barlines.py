"""Bar lines: where they stand on each row, and where on most rows, with their repeat signs."""

from __future__ import annotations

import re
from collections import Counter
from typing import Final, NamedTuple

from drills.notation.reading.rows import Row
from drills.notation.reading.shapes import Doubts

_CLUSTER: Final = re.compile(r"(?:(?<![0-9)\]>])\*|[:oO]){0,2}\|(?:[|:oO]|\*(?![0-9*])| {1,8}\|)*")
_TIMES: Final = re.compile(r"(?<=\|) *[(\[]?(?:[xX] ?([0-9]{1,2})|([0-9]{1,2}) ?[xX])[)\]]? *(?=\||$)")
_MASK: Final = {ord(sign): "-" for sign in "0123456789hHpPbBrRsStTvVxX/\\~^()<>[]{}=.+'gw "}
"""What is no part of a bar line, so that rows whose bar lines stand alike are looked at once."""
_INSTEAD: Final = frozenset(":][)!{}=I")
"""What people type in place of a label's bar line."""


class Cluster(NamedTuple):
    """A bar line of one row with the signs at it; places count from the start of its music."""

    start: int
    end: int
    text: str

    @property
    def opens(self) -> bool:
        """Whether a repeated part begins here."""
        return self.text[-1] in ":*oO"

    @property
    def closes(self) -> bool:
        """Whether a repeated part ends here."""
        return self.text[0] in ":*oO"


class Scored(NamedTuple):
    """A row's music with its bar lines made plain.

    Attributes:
        body: the music; bar lines are ``|`` alone.
        clusters: its bar lines; that of the label is left out.
        left: that of the label, or of the left edge, or None.
        times: how often it says the part before ``times[0]`` is played.
        shift: how far right of the system's left edge it begins.
    """

    body: str
    clusters: tuple[Cluster, ...]
    left: Cluster | None
    times: tuple[tuple[int, int], ...]
    shift: int = 0


class Span(NamedTuple):
    """A bar as most rows have it, in columns of the system.

    Attributes:
        start, end: the columns of its music, ``end`` not included.
        opens, closes: whether a repeat sign stands at its left, at its right.
    """

    start: int
    end: int
    opens: bool
    closes: bool


_REMEMBERED: Final = 4096
Known = dict[tuple[str, int], tuple[Cluster | None, tuple[Cluster, ...]]]
"""Where bar lines stand on a row that looks so, that of the left edge apart."""


def score_rows(rows: tuple[Row, ...], shifts: list[int], known: Known) -> list[Scored]:
    """Find the bar lines of a system's rows; ``known`` remembers rows that look so from one system to the next."""
    if len(known) > _REMEMBERED:
        known.clear()
    scored = [_score(row, shift, known) for row, shift in zip(rows, shifts, strict=True)]
    if all(row.left is None and _begins_barred(row) for row in scored):
        return [row._replace(left=row.clusters[0], clusters=row.clusters[1:]) for row in scored]
    return scored


def _begins_barred(row: Scored) -> bool:
    """Whether a bar line stands so far left that no bar has room before it: ``E-|--``."""
    return bool(row.clusters) and row.clusters[0].start - row.shift <= 2 and not row.body[:2].strip("-| ")


def _score(row: Row, shift: int, known: Known) -> Scored:
    body = row.body
    if body[:1] in _INSTEAD:
        body = "|" + body[1:]
    times: list[tuple[int, int]] = []
    if "x" in body or "X" in body:
        for found in _TIMES.finditer(body):
            times.append((found.start(), int(found[1] or found[2])))
        body = _TIMES.sub(lambda found: "|" * len(found.group()), body) if times else body
    if "|" not in body:
        return Scored(body, (), None, (), shift)
    bare = not (":" in body or "*" in body or "o" in body or "O" in body or " |" in body)
    key = (body.translate(_MASK) if bare else body, shift)
    marked = known.get(key)
    if marked is None:
        clusters = tuple(Cluster(m.start() + shift, m.end() + shift, m.group()) for m in _CLUSTER.finditer(body))
        edge = bool(clusters) and clusters[0].start <= shift
        marked = known[key] = (clusters[0], clusters[1:]) if edge else (None, clusters)
    if not bare:
        body = _CLUSTER.sub(lambda found: "|" * len(found.group()), body)
    return Scored(body, marked[1], marked[0], tuple([(at + shift, n) for at, n in times]) if times else (), shift)


def bar_spans(scored: list[Scored]) -> tuple[list[Span], int]:
    """The bars that most rows agree on, and how many of them a bar line closes."""
    lines = _agreed(scored)
    width = max([len(row.body) + row.shift for row in scored])
    edge, opens = _edge(scored)
    spans: list[Span] = []
    start = edge
    for line, end, opening, closing in lines:
        spans.append(Span(start, line, opens, closing))
        start, opens = end, opening
    lasting = sum(len(row.body) + row.shift - start > 2 for row in scored)
    if 2 * lasting >= len(scored) or not spans or _sounds(scored, start):
        spans.append(Span(start, max(width, start), opens, False))
    return spans, len(lines)


def _edge(scored: list[Scored]) -> tuple[int, bool]:
    """The column behind the left edge, and whether a repeated part begins there."""
    first = scored[0].left
    if all(row.left == first for row in scored):
        return (0, False) if first is None else (first.end, first.opens and len(first.text) > 1)
    lefts = [row.left for row in scored if row.left is not None]
    edge = Counter(left.end for left in lefts).most_common(1)[0][0] if 2 * len(lefts) >= len(scored) else 0
    return edge, 2 * sum(left.opens and len(left.text) > 1 for left in lefts) >= len(scored)


def _sounds(scored: list[Scored], start: int) -> bool:
    """Whether anything is played behind a place."""
    return any(row.body[max(0, start - row.shift) :].strip("-| ") for row in scored)


def _agreed(scored: list[Scored]) -> list[tuple[int, int, bool, bool]]:
    """Start, end, opening and closing of the bar lines of most rows."""
    first = scored[0].clusters
    if all(row.clusters is first or row.clusters == first for row in scored):
        return [(c.start, c.end, c.opens, c.closes) for c in first]
    counts = Counter(len(row.clusters) for row in scored)
    most, votes = max(counts.items(), key=lambda item: (item[1], item[0]))
    if 2 * votes < len(scored):
        return _voted(scored)
    rows = [row.clusters for row in scored if len(row.clusters) == most]
    agreed = []
    for clusters in zip(*rows, strict=True):
        start = Counter(c.start for c in clusters).most_common(1)[0][0]
        end = Counter(c.end for c in clusters if c.start == start).most_common(1)[0][0]
        agreed.append((start, end, _dots(clusters, "opens"), _dots(clusters, "closes")))
    return agreed


def _dots(clusters: tuple[Cluster, ...], side: str) -> bool:
    """Whether repeat dots stand on at least two rows of a bar line, as many print them on the inner rows alone."""
    found = sum(cluster.opens if side == "opens" else cluster.closes for cluster in clusters)
    return found >= min(2, len(clusters))


def _voted(scored: list[Scored]) -> list[tuple[int, int, bool, bool]]:
    """Bar lines at the places that at least half of the rows share."""
    places: dict[int, list[Cluster]] = {}
    for row in scored:
        for cluster in row.clusters:
            places.setdefault(cluster.start, []).append(cluster)
    return [
        (start, max(c.end for c in found), any(c.opens for c in found), any(c.closes for c in found))
        for start, found in sorted(places.items())
        if 2 * len(found) >= len(scored)
    ]


class Ruler:
    """Where a place of one row lies in the system, bar by bar.

    Args:
        scored: the row.
        spans: the bars of the system.
        closed: how many bar lines most rows have.
    """

    def __init__(self, scored: Scored, spans: list[Span], closed: int) -> None:
        self.fits = len(scored.clusters) == closed
        own = [scored.left.end if scored.left is not None else spans[0].start]
        own += [cluster.end for cluster in scored.clusters]
        self.starts = own[: len(spans)] if self.fits else [span.start for span in spans]
        self.shifts = [span.start - start for span, start in zip(spans, self.starts, strict=True)]
        ends = [c.start for c in scored.clusters] if self.fits else []
        self.odd = {
            index
            for index, end in enumerate(ends)
            if end - self.starts[index] != spans[index].end - spans[index].start
        }


def rulers_of(scored: list[Scored], spans: list[Span], closed: int) -> list[Ruler]:
    """The ruler of each row; rows whose bar lines stand alike share one."""
    first = scored[0]
    shared = Ruler(first, spans, closed)
    alike = [row.clusters is first.clusters and row.left is first.left for row in scored]
    return [shared if same else Ruler(row, spans, closed) for row, same in zip(scored, alike, strict=True)]


def doubt_bars(rows: tuple[Row, ...], rulers: list[Ruler], first: int, doubts: Doubts) -> None:
    """Say which rows have bar lines elsewhere than most; ``first`` is the index of the system's first bar."""
    for row, ruler in zip(rows, rulers, strict=True):
        if not ruler.fits and row.body[1:-1].strip("- "):
            doubts.warn(
                row.line.number, row.line.column(row.start),
                "the bar lines of this row differ from those of most rows",
                "put each bar line in one column on all rows",
            )
        elif ruler.odd:
            bar = min(ruler.odd)
            doubts.warn(
                row.line.number, row.line.column(row.start + ruler.starts[bar]),
                f"bar {first + bar + 1} is not as wide on this row as on most: aligned from its left",
                "add or take away dashes until the bar lines stand in one column",
            )
