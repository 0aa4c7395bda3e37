"""The simulated learners against the formulas they come from, and the trials against themselves."""

from __future__ import annotations

from math import exp, log
from statistics import mean, stdev

import numpy as np
import pytest

from tests.bench.learning import act_r, half_life, multiscale
from tests.bench.learning.figures import difference, mean_of
from tests.bench.learning.learner import Learner
from tests.bench.learning.plain_policies import RoundRobin
from tests.bench.learning.simulate import days_missed, practise, run
from tests.bench.learning.sixline import Sixline
from tests.bench.learning.subjects import COUNT, first_items, first_position, subjects
from tests.bench.learning.table import lines
from tests.bench.learning.trials import LEARNERS, POLICIES, Trial, trials, tried

PART = first_items()
SUBJECTS = subjects(PART)


def test_the_items_are_the_first_of_the_real_catalogue_each_with_what_it_needs() -> None:
    assert len(SUBJECTS) == COUNT
    assert all(need in PART.by_id for item in PART.items for need in item.needs)
    thirty = first_position().items
    assert len(thirty) == 30
    assert {item.subject for item in thirty} == {f"{s}/{f}" for s in range(1, 7) for f in range(5)}


def test_activation_is_that_of_pavlik_and_anderson() -> None:
    # m_n = ln(sum t_k^-d_k), d_k = c e^m_(k-1) + a (Pavlik and Anderson 2005), by hand for three practices; the rest
    # between days counts .025 of its length.
    learner = act_r.ActR(SUBJECTS, 3)
    learner._ability[:] = 0.0
    for day in (0, 1, 3):
        learner.learn(7, day, 0.0, right=True)
    rest = 86_400 * 0.025
    first = log(rest**-0.177)
    second_decay = 0.217 * exp(first) + 0.177
    second = log((3 * rest) ** -0.177 + (2 * rest) ** -second_decay)
    third_decay = 0.217 * exp(second) + 0.177
    expected = log((4 * rest) ** -0.177 + (3 * rest) ** -second_decay + rest**-third_decay)
    assert learner._activation(7, 4, 0.0) == pytest.approx(expected, rel=1e-12)
    assert learner._all(4, 0.0)[7] == pytest.approx(expected, rel=1e-12)


def test_recall_halves_with_each_half_life_and_spacing_lengthens_it() -> None:
    learner = half_life.HalfLife(SUBJECTS, 3)
    learner.learn(7, 0, 0.0, right=True)
    half = learner._half[7]
    learner._half[7] = 2.0
    assert learner._recall(7, 2, 0.0) == pytest.approx(0.5)
    assert learner._recall(7, 4, 0.0) == pytest.approx(0.25)
    learner.learn(7, 2, 0.0, right=True)
    assert learner._half[7] == pytest.approx(2.0 * (1 + 4 * 0.5))
    assert half > 0


def test_what_a_pool_takes_in_is_what_the_faster_ones_have_lost() -> None:
    learner = multiscale.Multiscale(SUBJECTS, 3)
    learner.learn(7, 0, 0.0, right=False)
    once = learner._pools[7].copy()
    learner.learn(7, 0, 20.0, right=True)  # at once: nothing was lost, so the slow ones take in next to nothing
    massed = learner._pools[7] - once
    learner.learn(8, 0, 0.0, right=False)
    learner.learn(8, 4, 0.0, right=True)
    spaced = learner._pools[8] - once * learner._uptake[8] / learner._uptake[7]
    assert spaced[-8:].sum() > 3 * massed[-8:].sum()


@pytest.mark.parametrize("name", LEARNERS)
def test_chances_are_how_often_an_item_is_right_and_fast(name: str) -> None:
    # The exam's closed form against answers drawn from the same learner.
    learner = LEARNERS[name](SUBJECTS, 11)
    for day in range(6):
        for subject in range(0, COUNT, 3):
            learner.answer(subject, day, subject * 2.0)
    chance = learner.chances(7)
    rng = np.random.default_rng(5)
    hits, expected = 0, 0.0
    for subject in range(0, COUNT, 3):
        for _ in range(20):
            reply = learner.respond(subject, 7, 0.0, float(rng.random()), float(rng.random()))
            hits += reply.right and reply.seconds <= learner.limit[subject]
        expected += 20 * float(chance[subject])
    assert hits == pytest.approx(expected, rel=0.08, abs=40)


def test_the_same_learner_answers_alike_under_every_policy() -> None:
    one, two = (act_r.ActR(SUBJECTS, 4) for _ in range(2))
    for subject in (5, 9, 2):
        one.answer(subject, 0, 0.0)
    for subject in (2, 5, 9):
        two.answer(subject, 0, 0.0)
    assert [one.answer(s, 1, 0.0) for s in (2, 5)] == [two.answer(s, 1, 0.0) for s in (2, 5)]


def test_a_day_is_ten_minutes_for_everybody_and_sixlines_first_sitting_fills_it() -> None:
    for kind in LEARNERS.values():
        learner = kind(SUBJECTS, 2)
        assert practise(RoundRobin(learner, 2), 0)[1] >= 600
        ours = kind(SUBJECTS, 2)
        assert practise(Sixline(ours, 2, PART), 0)[1] >= 590


def test_a_trial_can_be_repeated() -> None:
    trial = Trial("every day", "B", "Sixline", 5)
    assert tried(trial, days=3) == tried(trial, days=3)


def test_missed_days_are_the_same_for_all_and_never_the_first() -> None:
    missed = days_missed(90, 0.3, 8)
    assert missed == days_missed(90, 0.3, 8)
    assert 0 not in missed
    assert 15 < len(missed) < 40
    learner = half_life.HalfLife(SUBJECTS, 1)
    assert run(RoundRobin(learner, 1), days=3, probes=(3,), missed={1}).minutes[1] == 0


def test_means_and_their_intervals_are_those_of_the_handbooks() -> None:
    # Standard deviation by the standard library; Student's t for 9 degrees of freedom is 2.262 (any handbook, from
    # memory).
    values = [4.0, 7.5, 3.0, 9.0, 5.5, 6.0, 8.0, 2.5, 7.0, 6.5]
    found = mean_of(values)
    assert found.value == pytest.approx(mean(values))
    assert found.half == pytest.approx(2.262 * stdev(values) / 10**0.5, abs=0.01)
    assert difference([3.0, 5.0], [1.0, 4.0]).value == 1.5


def test_the_table_names_every_policy_and_those_who_beat_us() -> None:
    todo = trials(range(2), ("B",))
    results = {trial: tried(trial, days=1) for trial in todo if trial.policy in ("random", "Sixline")}
    results |= {trial: results[trial._replace(policy="random")] for trial in todo if trial not in results and
                trial._replace(policy="random") in results}  # fmt: skip
    results |= {trial: results[trial._replace(study="every day")] for trial in todo if trial not in results}
    text = "\n".join(lines({trial: found._replace(read=(1, 2, 3, 4, 5)) for trial, found in results.items()}))
    assert all(policy in text for policy in POLICIES)
    assert "of the best" in text


def test_every_sort_of_learner_is_tried() -> None:
    assert {kind.name for kind in Learner.__subclasses__()} == set(LEARNERS)
