"""A month of practice at the real screen: what Today and Progress say on days 1, 3, 7, 14 and 30, held against what was
asked and answered; and no day of it is silly. The learner is simulated, all bounds are our choice."""

from __future__ import annotations

import asyncio
import re
from collections import Counter
from datetime import timedelta
from itertools import groupby, pairwise
from pathlib import Path

import pytest

from tests.month import LOOKED_AT, START, Day, Month
from trainer.nothing_new import MISSED
from trainer.schedule.days import as_date
from trainer.schedule.reaching import StageAhead
from trainer.schedule.repeats import MOST_ASKINGS
from trainer.schedule.why import Why
from trainer.screens import foresight, practice

MINUTES = 6
SIZE = (80, 24)
KEYS = ["Enter", "Begin", "e", "Explain", "p", "Progress", "s", "Setup", "q", "Quit"]
STATES = re.compile(r"· (\d+) new +○ (\d+) met +◐ (\d+) known +● (\d+) fluent +◆ (\d+) kept")
ROW = re.compile(r"(\d+) answers, +(\d+) right")
TODAY = re.compile(r"(?:(\d+) to go over)?(?:, )?(?:(\d+) new)?: about (\d+) minutes?")
BACK = re.compile(r"(\d+) comes? back tomorrow")
STAGE = re.compile(r"Stage (\d+), .*: (\d+) of (\d+) met, (\d+) fluent")


@pytest.fixture(scope="module")
def month(tmp_path_factory: pytest.TempPathFactory) -> Month:
    """Thirty days of somebody who is right in about nine of ten, and slow at first."""
    month = Month(tmp_path_factory.mktemp("month"), "usual", minutes=MINUTES, size=SIZE)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(foresight, "REST", 0.0)
        patch.setattr(practice, "FRAME", 0.0)
        asyncio.run(month.whole())
    return month


@pytest.fixture
def looked_at(month: Month) -> list[Day]:
    """The days at the screen."""
    days = [day for day in month.days if day.pages]
    assert tuple(day.number for day in days) == LOOKED_AT
    return days


def text(day: Day, page: str) -> str:
    return " ".join(" ".join(day.pages[page]).split())


def found(pattern: re.Pattern[str], day: Day, page: str) -> tuple[int, ...]:
    match = pattern.search(text(day, page))
    assert match, text(day, page)
    return tuple(int(group or 0) for group in match.groups())


def met(month: Month, until: int) -> set[str]:
    """All that was asked up to the end of a day."""
    return {asked.item.id for day in month.days if day.number <= until for asked, _ in day.asked}


def test_the_five_states_sum_up_and_what_is_not_new_was_asked(month: Month, looked_at: list[Day]) -> None:
    whole = sum(found(STATES, looked_at[0], "progress-before"))
    for day in looked_at:
        for page, until in (("progress-before", day.number - 1), ("progress", day.number)):
            states = found(STATES, day, page)
            assert sum(states) == whole
            assert whole - states[0] == len(met(month, until))
    assert [found(STATES, day, "progress")[0] for day in looked_at] == sorted(
        (found(STATES, day, "progress")[0] for day in looked_at), reverse=True
    )
    assert sum(found(STATES, looked_at[-1], "progress")[3:]) > 20


def test_days_on_progress_are_those_that_were_practised(month: Month, looked_at: list[Day]) -> None:
    for day in looked_at:
        rows = [tuple(map(int, row)) for row in ROW.findall(text(day, "progress-end"))]
        before = [each for each in reversed(month.days) if each.number <= day.number]
        assert rows == [(len(each.asked), sum(right for _, right in each.asked)) for each in before][: len(rows)]
        assert len(rows) >= min(day.number, 3)


def test_the_summary_counts_what_was_answered_and_met(month: Month, looked_at: list[Day]) -> None:
    for day in looked_at:
        told = text(day, "summary")
        assert f"{len(day.asked)} answers in " in told
        assert f" {sum(right for _, right in day.asked)} right" in told
        new = len(met(month, day.number)) - len(met(month, day.number - 1))
        assert (f"{new} met for the first time" in told) == bool(new)


def test_today_asks_what_it_foretold(month: Month, looked_at: list[Day]) -> None:
    for day in looked_at:
        due, new, minutes = found(TODAY, day, "today")
        assert (due, new, minutes) == (day.ahead.due, day.ahead.new, day.ahead.minutes)
    close = 0
    for day in month.days:
        whys = Counter(asked.why for asked, _ in day.asked)
        assert whys[Why.DUE] <= day.ahead.due
        assert whys[Why.DUE] == day.ahead.due or not whys[Why.NEW], day.number
        close += abs(whys[Why.NEW] - day.ahead.new) <= 8
    assert close >= 24


def test_what_comes_back_tomorrow_does(month: Month, looked_at: list[Day]) -> None:
    for day, after in ((day, month.days[day.number]) for day in looked_at if day.number < len(month.days)):
        (back,) = found(BACK, day, "summary")
        assert f"{back} come" in text(day, "today-after")
        # A memory that is fitted after the sitting may move a few of them.
        assert abs(after.ahead.due + after.ahead.waiting - back) <= 3 + back // 4


def test_every_sitting_is_near_its_minutes_and_today_says_about_how_long(month: Month) -> None:
    full = [day for day in month.days if 0.9 * MINUTES <= day.minutes <= 1.1 * MINUTES]
    assert len(full) >= 26
    for day in month.days:
        assert 0.4 * MINUTES <= day.minutes <= 1.1 * MINUTES
        assert len(day.asked) >= 20
    assert sum(abs(day.ahead.minutes - day.minutes) <= 2.5 for day in month.days) >= 26


def test_no_day_is_silly(month: Month) -> None:
    for day in month.days:
        names = [asked.item.id for asked, _ in day.asked]
        assert all(one != two for one, two in pairwise(names))
        assert max(Counter(names).values()) <= MOST_ASKINGS
        assert len(set(names)) >= 12
        assert max(len(list(run)) for _, run in groupby(asked.question.prompt for asked, _ in day.asked[20:])) <= 8


def test_nothing_new_for_days_is_never_without_a_word(month: Month) -> None:
    days = [(any(asked.why is Why.NEW for asked, _ in day.asked), day.why) for day in month.days]
    for (new, _), (again, why) in pairwise(days):
        assert new or again or why
    for day in month.days:
        if day.why == MISSED:
            assert not day.ahead.new


def test_nothing_new_comes_while_much_is_missed(month: Month) -> None:
    recent: list[bool] = []
    seen: dict[str, int] = {}
    for day in month.days:
        for asked, right in day.asked:
            if asked.why is Why.NEW and len(recent) >= 10:
                assert sum(recent[-30:]) >= 0.6 * len(recent[-30:])
            if seen.get(asked.item.id, day.number) < day.number and not asked.help:
                recent.append(right)
            seen[asked.item.id] = day.number


def test_no_page_contradicts_itself(looked_at: list[Day]) -> None:
    for day in looked_at:
        before, after = text(day, "today"), text(day, "today-after")
        assert "Done for today" not in before
        assert "Nothing is due" not in before
        assert "Done for today" in after
        for words in ("to go over", "Nothing is due", "Welcome", "Good to have you back"):
            assert words not in after
        for page in ("today", "today-after"):
            assert ("Nothing new" in text(day, page)) <= (", 0 new" not in text(day, page))
            assert not ("Too early" in text(day, page) and "luent around" in text(day, page))


def test_the_stage_moves_on_and_its_dates_lie_ahead(looked_at: list[Day]) -> None:
    lines = [found(STAGE, day, page) for day in looked_at for page in ("today", "today-after")]
    assert [line[0] for line in lines] == sorted(line[0] for line in lines)
    for one, two in pairwise(lines):
        if one[0] == two[0]:
            assert one[1] <= two[1] <= two[2]
    stages: list[tuple[int, StageAhead]] = [(day.day, stage) for day in looked_at for stage in day.stages]
    assert len(stages) >= 2 * len(looked_at) - 1
    for today, stage in stages:
        if stage.early is not None and stage.likely is not None and stage.late is not None:
            assert today <= stage.early <= stage.likely <= stage.late
    assert any(stage.likely is not None for _, stage in stages)


def test_the_date_on_each_page_is_its_day(looked_at: list[Day]) -> None:
    for day in looked_at:
        when = (START + timedelta(days=day.number - 1)).date()
        assert as_date(day.day) == when
        for page in ("today", "today-after"):
            assert re.search(rf"\w+day {when.day} \w+", day.pages[page][0])


def test_nothing_is_cut_and_every_key_is_in_sight(looked_at: list[Day]) -> None:
    for day in looked_at:
        assert not day.cut
        for rows in day.pages.values():
            assert len(rows) == SIZE[1]
            assert all(len(row) <= SIZE[0] for row in rows)
            assert not [row for row in rows if re.search(r" and \d+( m(o(r)?)?)?$", row)]
        assert day.pages["today"][-1].split() == KEYS


def test_one_is_one_and_several_are_several(looked_at: list[Day]) -> None:
    wrong = re.compile(
        r"\b1 (answers|minutes|items|times|days|come|more items)\b|\b(?!1\b)\d+ (answer|minute|time|day|comes)\b"
        r"|\bNone\b|\bnan\b|  \.|\b0 (to go over|answers|come back)"
    )
    for day in looked_at:
        for rows in day.pages.values():
            assert not [row for row in rows if wrong.search(row)]


def test_who_is_always_slow_is_foretold_what_comes_and_goes_on_meeting_new_items(tmp_path: Path) -> None:
    month = Month(tmp_path, "slow")
    for number in range(1, 17):
        month.off_screen(number)
    for day in month.days[8:]:
        whys = Counter(asked.why for asked, _ in day.asked)
        assert abs(whys[Why.DUE] - day.ahead.due) <= 12
        assert abs(whys[Why.NEW] - day.ahead.new) <= 8
        assert whys[Why.NEW]
        assert not day.why


def test_who_is_right_in_six_of_ten_is_told_why_nothing_new_comes(tmp_path: Path) -> None:
    month = Month(tmp_path, "wavering")
    for number in range(1, 11):
        month.off_screen(number)
    told_or_new = [bool(day.why) or any(asked.why is Why.NEW for asked, _ in day.asked) for day in month.days]
    assert all(one or two for one, two in pairwise(told_or_new))
    assert all(len(day.asked) >= 20 for day in month.days)
    assert any(day.why == MISSED for day in month.days)
