"""Practice for programs: one JSON object a line, as the surface promises."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict
from typing import Any, Final, NamedTuple, NoReturn

from drills.notation.neck import draw_neck
from drills.question import Answer, Kind, Picture
from drills.tapping import Tapping
from trainer.clock import Clock
from trainer.practice import Asked, Outcome, Practice
from trainer.rows import diagram_rows, lit_of, staff_rows
from trainer.schedule import grading
from trainer.turns import take_turns

HOW: Final = 'send one line such as {"answer": "C", "seconds": 1.4}'


def run(
    practice: Practice,
    clock: Clock,
    *,
    read: Callable[[], bytes | None],
    say: Callable[[str], None],
    kept: Callable[[], None],
) -> None:
    """Ask, take replies and give verdicts until the sitting or the input ends.

    Args:
        practice: the sitting.
        clock: moved on by each answer's seconds where it was set.
        read: the next line, or None at the end of input; may raise Stopped.
        say: prints a line at once.
        kept: called after each verdict, to make the answer survive a power cut.
    """
    reason = take_turns(practice, clock, _Program(read, say), kept)
    summary = practice.summary()
    done = {"answers": summary.answers, "right": summary.right, "slow": summary.slow}
    say(json.dumps({"done": {**done, "reason": reason, "rid_of": list(summary.rid_of)}}))


class _Program(NamedTuple):
    """How a program is asked."""

    read: Callable[[], bytes | None]
    say: Callable[[str], None]

    def ask(self, asked: Asked) -> Answer | None:
        """The answer to a question, which is asked again after every line that is no reply; None at the end."""
        if asked.lesson is not None:
            text = "\n".join([asked.lesson.title, *asked.lesson.lines])
            self.say(json.dumps({"tell": {"id": asked.item.id, "text": text}}))
        question = json.dumps({"ask": ask_document(asked)})
        self.say(question)
        while (line := self.read()) is not None:
            try:
                return parse_reply(line)
            except ValueError as error:
                self.say(json.dumps({"error": str(error)}))
                self.say(question)
        return None

    def tell(self, asked: Asked, outcome: Outcome) -> None:
        """What became of the answer."""
        self.say(json.dumps({"verdict": verdict_document(asked, outcome)}))


def parse_reply(line: bytes) -> Answer:
    """The answer that a line holds. Seconds that can be no time make it untimed.

    Raises:
        ValueError: it is no reply; says why and what one looks like.
    """
    try:
        reply = json.loads(line.decode(), parse_constant=_refuse)
    except (ValueError, RecursionError):
        raise ValueError(f"this line is not JSON: {HOW}") from None
    if not isinstance(reply, dict):
        raise ValueError(f"this line is no JSON object: {HOW}")
    text, seconds = reply.get("answer"), reply.get("seconds")
    if not isinstance(text, str):
        raise ValueError(f'"answer" is missing or no text: {HOW}')
    if seconds is not None and (isinstance(seconds, bool) or not isinstance(seconds, int | float)):
        raise ValueError(f'"seconds" is no number: {HOW}')
    return Answer(text, _seconds(seconds))


def _refuse(name: str) -> NoReturn:
    raise ValueError(f"{name} is no JSON")


def _seconds(value: int | float | None) -> float | None:
    try:
        return grading.usable(None if value is None else float(value))
    except OverflowError:
        return None


def ask_document(asked: Asked) -> dict[str, Any]:
    """What is asked. ``neck`` and ``diagram`` hold the rows of what stands beside the staff, ``tapping`` what is to be
    tapped, where taps are the answer, ``landmark`` what an item is told from on which repeating has not helped."""
    item, question, picture = asked.item, asked.question, asked.picture
    rows, lit, neck = picture_rows(picture)
    diagram = diagram_rows(picture.diagram, plain=True) if picture.diagram is not None else []
    rows = rows or diagram
    choices = None
    if item.kind is Kind.CHOICE:
        choices = [{"key": option.key, "text": option.answer} for option in question.choices]
    return {
        "n": asked.n,
        "id": item.id,
        "drill": item.drill,
        "tuning": item.tuning.name,
        "why": str(asked.why),
        "kind": str(item.kind),
        "prompt": question.prompt,
        "staff": rows,
        "lit": lit,
        "neck": neck,
        "diagram": diagram,
        "choices": choices,
        "help": list(asked.help),
        "landmark": None if asked.landmark is None else asked.landmark.text,
        "limit": asked.limit,
        "tapping": None if question.tapping is None else tapping_document(question.tapping),
    }


def tapping_document(tapping: Tapping) -> dict[str, Any]:
    """What is to be tapped: pulses a minute, pulses counted in, and in seconds from the start of the first bar when
    each tap belongs, how long it all lasts, and how far off a tap may be."""
    return {
        "tempo": tapping.tempo,
        "lead_in": tapping.lead_in,
        "moments": [round(moment, 3) for moment in tapping.moments],
        "length": round(tapping.length, 3),
        "window": round(tapping.window, 3),
    }


def picture_rows(picture: Picture) -> tuple[list[str], list[dict[str, int | None]], list[str]]:
    """Rows of the staff, what is lit in them, and rows of the neck; a neck alone stands in the staff's place."""
    neck = draw_neck(picture.neck).ascii().text() if picture.neck is not None else []
    if picture.staff is None:
        return neck, [], []
    return staff_rows(picture.staff), [asdict(lit) for lit in lit_of(picture.staff)], neck


def verdict_document(asked: Asked, outcome: Outcome) -> dict[str, Any]:
    """What became of an answer."""
    verdict = outcome.verdict
    return {
        "n": asked.n,
        "id": asked.item.id,
        "right": verdict.right,
        "slow": outcome.slow,
        "timed": outcome.timed,
        "seconds": outcome.seconds,
        "limit": outcome.limit,
        "said": verdict.said,
        "answer": verdict.answer,
        "answers": list(verdict.answers),
        "why": verdict.why,
        "misreadings": [str(kind) for kind in verdict.misreadings],
        "repeat": outcome.repeat,
    }
