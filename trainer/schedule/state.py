"""What is known of one item for one learner, and how one answer changes it."""

from __future__ import annotations

from typing import Final, NamedTuple

from trainer.schedule import fading, grading, memory
from trainer.schedule.event import Event
from trainer.schedule.memory import Memory
from trainer.schedule.parameters import USUAL, Model
from trainer.schedule.spread import spread

STUCK: Final = 6
"""So many slips without a good cold answer between: repeating has not helped, take the item apart."""

SLOW_RUN: Final = 3
FLUENT_RUN: Final = 3
FLUENT_REST: Final = 3
KEPT_REST: Final = 7
_SMOOTH: Final = 0.4


class ItemState(NamedTuple):
    """One item as the record leaves it. Days are practice days; a cold answer is the first of a later day.

    Attributes:
        met: the day of its first answer.
        last: the day of its last answer.
        due: the day from which it is to be gone over.
        memory: stability and difficulty, or None until the first cold answer.
        cold: how many cold answers it has had.
        right_run: cold answers right in a row; one that was right only with help, right after a miss, is none.
        fast_run: cold answers right and fast in a row; one that proves no speed breaks it.
        slow_run: cold answers right but slow in a row.
        fluent, kept: see ``status``.
        slips: wrong answers, and slow cold ones, since the last good cold answer.
        asked, right, fast: answers of the day ``last``.
        missed: whether the last answer was wrong.
        answers, rights: of all time.
        step: how many steps of its help have gone, see ``fading``.
        pace: recent seconds of right answers (newest weighs .4), or None.
    """

    met: int
    last: int
    due: int
    memory: Memory | None
    cold: int
    right_run: int
    fast_run: int
    slow_run: int
    fluent: bool
    kept: bool
    slips: int
    asked: int
    right: int
    fast: int
    missed: bool
    answers: int
    rights: int
    step: int
    pace: float | None

    @property
    def stuck(self) -> bool:
        """Whether repeating it has stopped helping."""
        return self.slips >= STUCK

    @property
    def always_slow(self) -> bool:
        """Whether it comes back day after day and is not read: right and slow, or never timed, again and again, or
        stuck."""
        return self.slow_run >= SLOW_RUN or self.stuck or (self.pace is None and self.right_run >= SLOW_RUN)

    def recall(self, day: int, model: Model = USUAL) -> float:
        """The chance that it would be remembered on that day; .5 until the first cold answer."""
        return 0.5 if self.memory is None else memory.recall(day - self.last, self.memory, model)

    def chance(self, day: int, model: Model = USUAL) -> float:
        """The chance that it would be right and fast on that day; .5 until the first cold answer."""
        if self.memory is None:
            return 0.5
        return self.recall(day, model) * model.shares[min(self.fast_run, len(model.shares) - 1)]


def after(
    state: ItemState | None,
    event: Event,
    seed: int = 0,
    model: Model = USUAL,
    longest: int = memory.MAX_INTERVAL,
) -> ItemState:
    """The state after one answer, by that model of memory; ``longest`` is the longest rest in days.

    Only a cold answer moves the memory and the due day. A day before the last one (a clock set back) counts as
    the last one.
    """
    if state is None:
        return _met(event)
    if event.day <= state.last:
        return _same_day(state, event)
    return _cold(state, event, seed, model, longest)


def _met(event: Event) -> ItemState:
    right = int(event.right)
    return ItemState(
        met=event.day,
        last=event.day,
        due=event.day + 1,
        memory=None,
        cold=0,
        right_run=0,
        fast_run=0,
        slow_run=0,
        fluent=False,
        kept=False,
        slips=1 - right,
        asked=1,
        right=right,
        fast=int(grading.is_fast(event)),
        missed=not event.right,
        answers=1,
        rights=right,
        step=fading.step_after(None, event),
        pace=_pace(None, event),
    )


def _same_day(state: ItemState, event: Event) -> ItemState:
    right = int(event.right)
    return ItemState(
        met=state.met,
        last=state.last,
        due=state.due,
        memory=state.memory,
        cold=state.cold,
        right_run=state.right_run,
        fast_run=state.fast_run,
        slow_run=state.slow_run,
        fluent=state.fluent,
        kept=state.kept,
        slips=state.slips + 1 - right,
        asked=state.asked + 1,
        right=state.right + right,
        fast=state.fast + grading.is_fast(event),
        missed=not event.right,
        answers=state.answers + 1,
        rights=state.rights + right,
        step=fading.step_after(state, event),
        pace=_pace(state.pace, event),
    )


def _cold(state: ItemState, event: Event, seed: int, model: Model, longest: int) -> ItemState:
    rest = event.day - state.last
    grade = grading.grade(event)
    right = int(event.right)
    fast, slow = grade >= grading.READ, grade == grading.SLOW
    lifted = fading.is_lifted(state, event)
    after_memory, wait = _remember(state, event, rest, grade, seed, model, longest)
    slow_run = state.slow_run + 1 if slow else 0
    fast_run = state.fast_run + 1 if fast else 0
    fluent = (state.fluent and event.right and slow_run < 2) or (
        fast and fast_run >= FLUENT_RUN and rest >= FLUENT_REST
    )
    return ItemState(
        met=state.met,
        last=event.day,
        due=event.day + wait,
        memory=after_memory,
        cold=state.cold + 1,
        right_run=state.right_run + 1 if right and not lifted else 0,
        fast_run=fast_run,
        slow_run=slow_run,
        fluent=fluent,
        kept=fluent and (state.kept or (fast and rest >= KEPT_REST)),
        slips=state.slips + 1 if grade <= grading.MISSED else state.slips if lifted else 0,
        asked=1,
        right=right,
        fast=int(grading.is_fast(event)),
        missed=not event.right,
        answers=state.answers + 1,
        rights=state.rights + right,
        step=fading.step_after(state, event),
        pace=_pace(state.pace, event),
    )


def _remember(
    state: ItemState, event: Event, rest: int, grade: int, seed: int, model: Model, longest: int
) -> tuple[Memory, int]:
    """The memory after a cold answer, and the days until it is due."""
    if grade == grading.SLOW:
        stability, difficulty = state.memory or memory.after(None, rest, grading.UNTIMED, model)
    else:
        stability, difficulty = memory.after(state.memory, rest, grade, model)
    if grade <= grading.UNTIMED and state.memory is not None:
        stability = min(stability, state.memory[0])
    if grade >= grading.READ and state.fluent and not state.kept:
        longest = max(longest, KEPT_REST + 1)  # so that it can show that it is kept
    wait = min(memory.interval((stability, difficulty), model), longest)
    wait = spread(wait, seed, event.item, state.cold + 1)
    if grade <= grading.UNTIMED:
        # What was wrong or slow, or proves nothing, never waits longer than it was meant to wait before.
        wait = min(wait, max(1, state.due - state.last))
    return (stability, difficulty), wait


def _pace(pace: float | None, event: Event) -> float | None:
    if not (event.right and event.timed) or event.seconds is None:
        return pace
    seconds = event.seconds
    return round(seconds if pace is None else pace + _SMOOTH * (seconds - pace), 3)
