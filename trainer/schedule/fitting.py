"""Fitting the memory to a learner's own record.

The parameters are those under which the record is the likeliest, with a pull towards the published ones: maximum
likelihood on the log of answers is how the model's own authors fit it (from memory; their optimiser descends the
gradient with a neural-network library). Here the likelihood is that of right and fast on timed cold answers, and few
parameters move (see ``likeliest``).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Final, NamedTuple
from zlib import crc32

from trainer.schedule import grading
from trainer.schedule.event import Event
from trainer.schedule.formulas import Cold, History, foretell, scored
from trainer.schedule.likeliest import Search, loss_of
from trainer.schedule.marks import ENOUGH
from trainer.schedule.memory import MAX_INTERVAL, reach_of
from trainer.schedule.parameters import (
    LEAST_RETENTION,
    MOST_RETENTION,
    PUBLISHED,
    RETENTION,
    SHARES,
    USUAL,
    Model,
    Parameters,
)

LEAST_HELD_BACK: Final = 20
"""Answers that a fit is tried on at least; with fewer nothing is kept."""

MOST_ANSWERS: Final = 3000
"""Cold answers that a fit looks at, at most."""

LEAST_GAIN: Final = 0.001
"""A fit that foretells the last fifth better by less than this (log loss an answer) is not worth a change."""

_HALVINGS: Final = 16


class Outcome(NamedTuple):
    """What came of a fit.

    Attributes:
        cold: cold answers of the record.
        tried_on: held-back answers that both were tried on.
        model: what is to be kept, or None where what is in use foretells the last fifth as well.
        before, after: mean log loss on the last fifth, with those in use and with the fitted ones.
        evaluations: how often the answers were foretold.
    """

    cold: int
    tried_on: int
    model: Model | None
    before: float
    after: float
    evaluations: int


class TooFew(ValueError):
    """The record has not enough cold answers yet; ``missing`` says how many."""

    def __init__(self, cold: int) -> None:
        self.missing = ENOUGH - cold
        super().__init__(f"{cold} cold answers are too few")


def cold_answers(events: Iterable[Event]) -> dict[str, list[Cold]]:
    """The cold answers of each item, as the schedule counts and grades them; ``events`` are in the record's order."""
    last: dict[str, int] = {}
    found: dict[str, list[Cold]] = {}
    for at, event in enumerate(events):
        before = last.get(event.item)
        if before is not None and event.day <= before:
            continue
        last[event.item] = event.day
        if before is not None:
            hit = grading.is_fast(event) if event.timed and not event.help else None
            answers = found.setdefault(event.item, [])
            answers.append(Cold(event.day - before, grading.grade(event), hit, at))
    return found


def fit(
    answers: dict[str, list[Cold]], used: Model = USUAL, stop: Callable[[], bool] = lambda: False
) -> Outcome:
    """Fit to the first four fifths of a record, and try that on the last fifth.

    Of a long record whole items are drawn, the same ones each time, until there are ``MOST_ANSWERS``: the latest
    answers alone would be those of the items that are missed most.

    Args:
        answers: from ``cold_answers``.
        used: the model that is in use.
        stop: asked now and then; the fit is given up, as one that is not kept, once it says so.

    Raises:
        TooFew: there are fewer than ``ENOUGH``.
    """
    cold = sum(map(len, answers.values()))
    if cold < ENOUGH:
        raise TooFew(cold)
    histories = _drawn(answers)
    places = sorted(each.at for each in scored(histories))
    held_back = len(places) // 5
    if held_back < LEAST_HELD_BACK:
        return Outcome(cold, 0, None, 0.0, 0.0, 0)
    cut = places[-held_back]
    search = Search(list(_until(histories, cut)), stop)
    w, shares = search.best()
    model = Model(w, even_retention(w, histories), shares)
    before, after = (_later_loss(each, histories, cut) for each in (used, model))
    if stop() or before - after < LEAST_GAIN:
        return Outcome(cold, held_back, None, before, after, search.evaluations)
    return Outcome(cold, held_back, model, before, after, search.evaluations)


def even_retention(w: Parameters, histories: Sequence[History]) -> float:
    """The retention at which these parameters ask as often, all items together, as the published ones do at theirs.

    A fit says which items are the shakier ones, not how much of the learner's time going over is worth. Simulated
    learners showed why: they are slow at first, whatever the rest, which a fit takes for forgetting. Held to the usual
    retention it would have everything back each day, and nothing new would be met.
    """
    wanted = _askings(PUBLISHED, RETENTION, foretell(PUBLISHED, SHARES, histories).stabilities)
    stabilities = foretell(w, SHARES, histories).stabilities
    low, high = LEAST_RETENTION, MOST_RETENTION
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if _askings(w, middle, stabilities) > wanted:
            high = middle
        else:
            low = middle
    return round(low, 4)


def _askings(w: Parameters, retention: float, stabilities: Iterable[float]) -> float:
    """About how many items fall due a day."""
    reach = reach_of(Model(w, retention))
    return sum(1 / min(max(stability * reach, 1.0), MAX_INTERVAL) for stability in stabilities)


def _drawn(answers: dict[str, list[Cold]]) -> list[History]:
    drawn: list[History] = []
    left = MOST_ANSWERS
    for item in sorted(answers, key=lambda item: (crc32(item.encode()), item)):
        drawn.append(answers[item][:left])
        left -= len(drawn[-1])
        if not left:
            break
    return drawn


def _until(histories: Iterable[History], cut: int) -> Iterator[History]:
    """What of the histories lies before a place in the record."""
    for history in histories:
        early = [each for each in history if each.at < cut]
        if early:
            yield early


def _later_loss(model: Model, histories: Sequence[History], cut: int) -> float:
    """Mean log loss on what lies after a place in the record."""
    found = zip(scored(histories), foretell(model.parameters, model.shares, histories).chances, strict=True)
    losses = [loss_of(chance, each.hit is True) for each, chance in found if each.at >= cut]
    return sum(losses) / len(losses)
