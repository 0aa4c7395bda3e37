"""What the learner is told of an answer, the same in the screen and line by line."""

from __future__ import annotations

from drills.misreadings import SPOKEN
from trainer.practice import Asked, Outcome


def headline(asked: Asked, outcome: Outcome) -> str:
    """Right, right but slow, or what it was and what was said."""
    question, verdict = asked.question, outcome.verdict
    answer = question.show(verdict.answer)
    if verdict.right:
        seconds = f"   {outcome.seconds:.1f} s" if outcome.timed and outcome.seconds is not None else ""
        if outcome.slow:
            return f"Right, slow   {answer}{seconds}, aim for {outcome.limit:.1f} s"
        return f"Right   {answer}{seconds}"
    return f"It is {answer}; you said {question.show(verdict.said)}"


def reasons(outcome: Outcome) -> list[str]:
    """Why, in one sentence, and the misreading when only one fits."""
    verdict = outcome.verdict
    lines = [verdict.why] if verdict.why else []
    if len(verdict.misreadings) == 1:
        lines.append(SPOKEN[verdict.misreadings[0]])
    return lines
