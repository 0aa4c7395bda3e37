"""The whole table as text for the README, those who beat us included."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from tests.bench.learning.figures import Mean, difference, mean_of
from tests.bench.learning.model_policies import Package
from tests.bench.learning.sixline import Sixline
from tests.bench.learning.trials import POLICIES, PROBES, Found, Trial

Results = Mapping[Trial, Found]
MONTH: Final = PROBES.index(30)
QUARTER: Final = PROBES.index(90)


def read(results: Results, study: str, learner: str, policy: str, probe: int) -> list[float]:
    """Items read at a probe, seed by seed."""
    return [
        float(found.read[probe])
        for trial, found in sorted(results.items())
        if (trial.study, trial.learner, trial.policy) == (study, learner, policy)
    ]


def lines(results: Results) -> list[str]:
    """Markdown: items read, first position, days missed, and what is to be held against the targets."""
    learners = sorted({trial.learner for trial in results})
    return [
        *_read_table(results, learners), "", *_thirty_table(results, learners), "", *_missed_table(results, learners),
        "", *_sums(results, learners),
    ]  # fmt: skip


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _head(cells: Sequence[str]) -> list[str]:
    return [_row(cells), _row(["---", *["---:"] * (len(cells) - 1)])]


def _read_table(results: Results, learners: Sequence[str]) -> list[str]:
    text = _head(["items read (of 600)", *[f"{who}, day {day}" for who in learners for day in (30, 90)]])
    for policy in POLICIES:
        cells = [
            str(mean_of(read(results, "every day", who, policy, probe)))
            for who in learners
            for probe in (MONTH, QUARTER)
        ]
        name = f"**{policy}**" if policy == Sixline.name else policy
        text.append(_row([name, *cells]))
    return text


def _thirty_table(results: Results, learners: Sequence[str]) -> list[str]:
    text = _head(["first position, 29 of 30 kept a week", *[f"{who}, {what}" for who in learners for what in _WHAT]])
    for policy in POLICIES:
        cells: list[str] = []
        for who in learners:
            found = [
                each
                for trial, each in results.items()
                if (trial.study, trial.learner, trial.policy) == ("first position", who, policy)
            ]
            minutes = [each.minutes for each in found if each.minutes is not None]
            days = [float(each.days) for each in found if each.days is not None]
            cells += [
                f"{mean_of(minutes).value:.0f}" if minutes else "-",
                f"{mean_of(days).value:.0f}" if days else "-",
                f"{len(minutes)} of {len(found)}",
            ]
        text.append(_row([policy, *cells]))
    return text


_WHAT: Final = ("minutes", "days", "got there")


def _missed_table(results: Results, learners: Sequence[str]) -> list[str]:
    text = _head(["three days in ten missed", *[f"{who}, day {day}" for who in learners for day in (30, 90)]])
    for policy in POLICIES:
        cells = [
            str(mean_of(values))
            for who in learners
            for probe in (MONTH, QUARTER)
            if (values := read(results, "days missed", who, policy, probe))
        ]
        if cells:
            text.append(_row([policy, *cells]))
    return text


def _sums(results: Results, learners: Sequence[str]) -> list[str]:
    text = []
    for who in learners:
        first = [
            found.first
            for trial, found in results.items()
            if (trial.study, trial.learner, trial.policy) == ("every day", who, Sixline.name)
        ]
        parts = [f"first sitting {min(first):.1f} to {max(first):.1f} minutes"]
        for day, probe in ((30, MONTH), (90, QUARTER)):
            best, name = best_of(results, who, probe)
            ours = mean_of(read(results, "every day", who, Sixline.name, probe)).value
            parts.append(f"day {day}: {ours / best:.0%} of the best ({name})" if best else f"day {day}: none read any")
        for study in ("every day", "days missed"):
            ahead = over_package(results, study, who, QUARTER)
            parts.append(f"{study}, ahead of the package by {ahead}")
        text.append(f"- {who}: {'; '.join(parts)}.")
    return text


def best_of(results: Results, learner: str, probe: int) -> tuple[float, str]:
    """The most that any row reads at a probe, and whose it is."""
    return max((mean_of(read(results, "every day", learner, policy, probe)).value, policy) for policy in POLICIES)


def over_package(results: Results, study: str, learner: str, probe: int) -> Mean:
    """By how many items Sixline is ahead of the memory package as it comes, learner by learner."""
    return difference(
        read(results, study, learner, Sixline.name, probe), read(results, study, learner, Package.name, probe)
    )
