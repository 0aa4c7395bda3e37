"""Learners who misread in one way for more than a week, and then do not any more, on the real catalogue."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from itertools import pairwise

import pytest

from drills.catalogue import catalogue
from drills.question import Answer, Manner, Misreading, Question
from tests.trainer.fakes import STANDARD, TODAY, Learner, well
from trainer.practice import Asked
from trainer.reports.progress import document, lines
from trainer.schedule.rid import gone
from trainer.schedule.summary import Summary
from trainer.schedule.why import Why
from trainer.screens.progress_words import misreadings
from trainer.wording import rid_lines, summary_lines

CATALOGUE = catalogue(STANDARD)
WEEK, AFTER = 10, 10


def misread(question: Question, kind: Misreading) -> str | None:
    """An answer that can be given, and that this misreading alone explains."""
    offered = {option.answer for option in question.choices}
    for said in sorted(question.traps.get(kind, ())):
        if (not offered or said in offered) and sum(said in wrong for wrong in question.traps.values()) == 1:
            return said
    return None


@dataclass
class Weeks:
    """Practises day after day, half of the time misreading in one way, then never again."""

    kind: Misreading
    learner: Learner = field(default_factory=lambda: Learner(CATALOGUE))
    summaries: list[Summary] = field(default_factory=list)
    pairs: list[tuple[str, str]] = field(default_factory=list)

    def practise(self, days: int, *, misreads: bool) -> None:
        """So many more days."""
        rng = random.Random(len(self.summaries))

        def reply(asked: Asked) -> Answer:
            said = misread(asked.question, self.kind) if misreads and rng.random() < 0.5 else None
            return well(asked) if said is None else Answer(said, 1.2)

        for _ in range(days):
            practice = self.learner.practise(reply, TODAY + len(self.summaries), minutes=8)
            self.summaries.append(practice.summary())
            side = [asked.item.id for asked in self.learner.asked if asked.why is Why.CONTRAST]
            self.pairs += pairwise(side)

    def told(self) -> list[int]:
        """The days at whose end it was told that the habit is gone."""
        return [day for day, summary in enumerate(self.summaries) if self.kind in summary.rid_of]


def mixed_up(kind: Misreading, pair: tuple[str, str]) -> bool:
    """Whether one of them, misread in this way, has the answer of the other."""
    one, other = (CATALOGUE.ask(CATALOGUE.by_id[item], random.Random(0), Manner()) for item in pair)
    return one.item.drill == other.item.drill and any(
        wrong.traps.get(kind, frozenset()) & set(right.answers) for wrong, right in ((one, other), (other, one))
    )


@pytest.mark.parametrize(
    ("kind", "least"),
    # What is misread over and over is taken apart and not repeated: of the few rows of hammered notes, most of them.
    [(Misreading.MIRRORED_LINE, WEEK), (Misreading.WRONG_DIRECTION, WEEK // 2), (Misreading.PICKED_FOR_SLURRED, 1)],
)
def test_pairs_come_side_by_side_and_the_end_of_the_habit_is_told_once(kind: Misreading, least: int) -> None:
    weeks = Weeks(kind)
    weeks.practise(WEEK, misreads=True)
    assert any(summary.misreading is not None and summary.misreading[0] == kind for summary in weeks.summaries)
    assert sum(mixed_up(kind, pair) for pair in weeks.pairs) >= least
    assert weeks.told() == []
    assert [each for each, *_ in misreadings(weeks.learner.ledger).there] == [kind]
    weeks.practise(AFTER, misreads=False)
    (day,) = weeks.told()
    assert day > WEEK
    assert rid_lines([kind])[0] in summary_lines(weeks.summaries[day])
    assert gone(weeks.learner.ledger.habits) == {kind: TODAY + day}
    found = misreadings(weeks.learner.ledger)
    assert ([each for each, *_ in found.gone], found.there) == ([kind], [])
    report = document(CATALOGUE, weeks.learner.ledger, TODAY + WEEK + AFTER)
    (entry,) = report["misreadings"]
    assert (entry["kind"], entry["gone"], set(entry)) == (kind, True, {"kind", "count", "items", "gone"})
    assert "Misreadings that you are rid of:" in lines(report)
    assert "Misreadings:" not in lines(report)
    weeks.pairs.clear()
    weeks.practise(1, misreads=False)
    assert weeks.pairs == []
