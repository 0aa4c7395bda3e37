"""What the learner is told of an answer and of a sitting, the same on the screen and line by line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NamedTuple

from drills.misreadings import HABITS, SPOKEN
from drills.question import Misreading
from trainer.complaint import shown
from trainer.practice import Asked, Outcome
from trainer.profile.settings import Settings
from trainer.schedule.status import Status
from trainer.schedule.summary import Summary
from trainer.schedule.why import Why

ROSE: Final = (
    (Status.KEPT, "kept for a week and more"),
    (Status.FLUENT, "fluent"),
    (Status.KNOWN, "known"),
)
HELPS: Final = {
    "letters": "letters", "letter": "one letter", "numbers": "numbers", "number": "one number", "neck": "the neck",
}  # fmt: skip
NOTHING_LEFT: Final = "Nothing is left for today: take a piece of tab and read it."
NOTHING_LEFT_SHORT: Final = "All done. Go and play!"


class Voice(NamedTuple):
    """How a learner is spoken to.

    Attributes:
        short: in few and easy words, for children.
        speed: slow, fast and seconds are spoken of.
    """

    short: bool = False
    speed: bool = True


USUAL: Final = Voice()


def voice_of(settings: Settings) -> Voice:
    """How a learner wants to be spoken to."""
    return Voice(settings.short_words, settings.talk_of_speed)


def headline(asked: Asked, outcome: Outcome, voice: Voice = USUAL) -> str:
    """Right, right but slow, or wrong, and what it was; what was said comes with its control signs escaped."""
    question, verdict = asked.question, outcome.verdict
    answer = shown(question.show(verdict.answer))
    if not verdict.right:
        said = shown(question.show(verdict.said))
        return f"Not yet: {answer}, not {said}." if voice.short else f"Wrong: it is {answer}; you said {said}."
    if voice.short or not voice.speed:
        slow = voice.speed and outcome.slow
        return f"Yes{', slow' if slow else ''}: {answer}." if voice.short else f"Right: {answer}."
    took = f", {outcome.seconds:.1f} s" if outcome.timed and outcome.seconds is not None else ""
    if outcome.slow:
        return f"Right, slow: {answer}{took} (aim for {outcome.limit:.1f} s)."
    return f"Right: {answer}{took}."


def help_word(asked: Asked) -> str:
    """Which help is in sight, or that there is none any more where there was some before; else nothing."""
    names = [HELPS[name] for name in asked.help if name in HELPS]
    if names:
        return f"with {' and '.join(names)}"
    return "without help now" if asked.bare else ""


def remarks(asked: Asked) -> list[str]:
    """What is said quietly beside a question, the most first and in fewer words each time: what it is told from, or
    that it is one of a pair, and which help is in sight."""
    if asked.landmark is not None:
        return [asked.landmark.text, asked.landmark.brief]
    words = help_word(asked)
    if asked.why is not Why.CONTRAST:
        return [words]
    return [f"side by side, {words}", words] if words else ["side by side"]


def reasons(outcome: Outcome, voice: Voice = USUAL) -> list[str]:
    """Why, in one sentence, and the misreading when only one fits; in few words, the misreading alone where it fits."""
    verdict = outcome.verdict
    lines = [verdict.why] if verdict.why else []
    if not verdict.right and len(verdict.misreadings) == 1:
        spoken = SPOKEN[verdict.misreadings[0]]
        return [spoken] if voice.short else [*lines, spoken]
    return lines


def summary_lines(
    summary: Summary, voice: Voice = USUAL, *, nothing_left: bool = False, drawn: bool = False
) -> list[str]:
    """A sitting in a few sentences: counts and seconds, nothing that looks like a mark.

    Args:
        summary: of the sitting.
        voice: how the learner is spoken to.
        nothing_left: there is nothing more today.
        drawn: what got better is drawn beside it, with its counts.
    """
    if not summary.answers:
        return ["Nothing was answered."]
    slow = f", {_how_many(summary.slow, summary.right)} slow" if summary.slow and voice.speed else ""
    took = f" in {summary.minutes:.0f} minutes" if summary.minutes >= 2 and not voice.short else ""
    lines = [f"{counted(summary.answers, 'answer')}{took}, {summary.right} right{slow}."]
    if summary.median_seconds is not None and voice.speed and not voice.short:
        lines.append(f"Half of them took at most {summary.median_seconds:.1f} seconds.")
    if summary.new and not drawn:
        lines.append(f"{'New' if voice.short else 'Met for the first time'}: {len(summary.new)}.")
    for state, words in ROSE:
        if (count := sum(now is state for _, now in summary.rose)) and not drawn:
            lines.append(f"Now {words}: {count}.")
    if summary.misreading is not None and summary.misreading[1] > 1 and not voice.short:
        kind, times = summary.misreading
        lines.append(f"What happened most, {times} times: {habit(kind)}.")
    lines += rid_lines(summary.rid_of, voice)
    if nothing_left:
        lines.append(NOTHING_LEFT_SHORT if voice.short else NOTHING_LEFT)
    return lines


def _how_many(some: int, of: int) -> str:
    return f"{some} of them" if some < of else "all of them" if of > 1 else "but"


def status_word(state: Status) -> str:
    """What a person is told of an item's state; programs go on reading ``shaky``."""
    return "met" if state is Status.SHAKY else str(state)


def counted(number: int, noun: str) -> str:
    """A number with its noun: ``1 day``, ``2 days``."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def habit(kind: str) -> str:
    """A misreading as something that one does: ``reading the staff upside down``; an unknown kind by its name."""
    return HABITS[Misreading(kind)] if kind in HABITS else shown(kind)


def rid_lines(kinds: Iterable[str], voice: Voice = USUAL) -> list[str]:
    """What is told once of each habit of misreading that has gone."""
    return [f"{'Gone' if voice.short else 'You are rid of a habit'}: {habit(kind)}." for kind in kinds]
