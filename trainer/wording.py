"""What the learner is told of an answer and of a sitting, the same on the screen and line by line."""

from __future__ import annotations

from typing import Final

from drills.misreadings import SPOKEN
from drills.question import Misreading
from trainer.complaint import shown
from trainer.practice import Asked, Outcome
from trainer.schedule.status import Status
from trainer.schedule.summary import Summary

ROSE: Final = (
    (Status.KEPT, "kept for a week and more"),
    (Status.FLUENT, "fluent"),
    (Status.KNOWN, "known"),
)


def headline(asked: Asked, outcome: Outcome) -> str:
    """Right, right but slow, or wrong, and what it was; what was said comes with its control signs escaped."""
    question, verdict = asked.question, outcome.verdict
    answer = shown(question.show(verdict.answer))
    if not verdict.right:
        return f"Wrong: it is {answer}; you said {shown(question.show(verdict.said))}."
    took = f", {outcome.seconds:.1f} s" if outcome.timed and outcome.seconds is not None else ""
    if outcome.slow:
        return f"Right, slow: {answer}{took} (aim for {outcome.limit:.1f} s)."
    return f"Right: {answer}{took}."


def reasons(outcome: Outcome) -> list[str]:
    """Why, in one sentence, and the misreading when only one fits."""
    verdict = outcome.verdict
    lines = [verdict.why] if verdict.why else []
    if not verdict.right and len(verdict.misreadings) == 1:
        lines.append(SPOKEN[verdict.misreadings[0]])
    return lines


def summary_lines(summary: Summary, *, nothing_left: bool = False) -> list[str]:
    """A sitting in a few sentences: counts and seconds, nothing that looks like a mark."""
    if not summary.answers:
        return ["Nothing was answered."]
    noun = "answer" if summary.answers == 1 else "answers"
    slow = f", {summary.slow} of them slow" if summary.slow else ""
    took = f" in {summary.minutes:.0f} minutes" if summary.minutes >= 2 else ""
    lines = [f"{summary.answers} {noun}{took}, {summary.right} right{slow}."]
    if summary.median_seconds is not None:
        lines.append(f"Half of them took at most {summary.median_seconds:.1f} seconds.")
    if summary.new:
        lines.append(f"Met for the first time: {len(summary.new)}.")
    for state, words in ROSE:
        if count := sum(now is state for _, now in summary.rose):
            lines.append(f"Now {words}: {count}.")
    if summary.misreading is not None and summary.misreading[1] > 1:
        kind, times = summary.misreading
        lines.append(f"What happened most, {times} times: {brief(kind)}.")
    if nothing_left:
        lines.append("Nothing is left for today: take a piece of tab and read it.")
    return lines


def brief(kind: str) -> str:
    """A misreading in a few words: ``the staff read upside down``."""
    return SPOKEN[Misreading(kind)].removeprefix("That is ").removeprefix("Those are ").rstrip(".")
