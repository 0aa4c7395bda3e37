"""What the memory model goes by: its 21 parameters as published, their bounds, and what was fitted to one learner."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final, NamedTuple

Parameters = tuple[float, ...]
"""w0 to w20 of FSRS-6, in its order."""

# FSRS-6 as published with py-fsrs 6.3: DEFAULT_PARAMETERS, LOWER_BOUNDS_PARAMETERS, UPPER_BOUNDS_PARAMETERS. Written
# out so that nothing before the first question needs the import; a test holds them equal.
PUBLISHED: Final[Parameters] = (
    0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796,
    1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
)  # fmt: skip
LOWEST: Final[Parameters] = (
    0.001, 0.001, 0.001, 0.001, 1.0, 0.001, 0.001, 0.001, 0.0, 0.0, 0.001,
    0.001, 0.001, 0.001, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.1,
)  # fmt: skip
HIGHEST: Final[Parameters] = (
    100.0, 100.0, 100.0, 100.0, 10.0, 4.0, 4.0, 0.75, 4.5, 0.8, 3.5,
    5.0, 0.25, 0.9, 4.0, 1.0, 6.0, 2.0, 2.0, 0.8, 0.8,
)  # fmt: skip


RETENTION: Final = 0.87
"""With the published parameters an item is due when its recall has fallen to this: what came out best with simulated
learners of two kinds, beside ``lasting``."""

LEAST_RETENTION: Final = 0.5
MOST_RETENTION: Final = 0.99
"""Bounds of what stands in its place beside fitted parameters."""


_MOST_LOSS: Final = 100


Shares = tuple[float, ...]
SHARES: Final[Shares] = (0.6, 0.7, 0.75, 0.85)
"""How often what is remembered is also read, fast: after none, one, two, three or more fast cold answers in a row. What
came out about right with simulated learners, until it is fitted; the published model speaks of remembering alone."""

LEAST_SHARE: Final = 0.05


class Model(NamedTuple):
    """A memory model.

    Attributes:
        parameters: 21.
        retention: an item is due when its recall has fallen to this.
        shares: four, see ``SHARES``.
    """

    parameters: Parameters
    retention: float
    shares: Shares = SHARES


USUAL: Final = Model(PUBLISHED, RETENTION)


class Fit(NamedTuple):
    """A model that was fitted to a learner's own record and kept, or that this was undone.

    Attributes:
        day: the practice day on which that was.
        parameters: 21, or none where the published ones are in use again.
        retention, shares: see ``Model``.
        before: mean log loss on the last fifth of the record with the parameters in use before, 0 when undone.
        after: the same with these parameters.
    """

    day: int
    parameters: Parameters = ()
    retention: float = RETENTION
    shares: Shares = SHARES
    before: float = 0.0
    after: float = 0.0

    @property
    def undone(self) -> bool:
        """Whether it says that the published parameters are to be used."""
        return not self.parameters


def model_of(fit: Fit | None) -> Model:
    """The model that a record's last fit leaves in use."""
    return USUAL if fit is None or fit.undone else Model(fit.parameters, fit.retention, fit.shares)


def fields_of(fit: Fit) -> dict[str, Any]:
    """A fit as it is written down, but for its day."""
    if fit.undone:
        return {"fitted": []}
    return {
        "fitted": list(fit.parameters), "retention": fit.retention, "shares": list(fit.shares),
        "before": fit.before, "after": fit.after,
    }  # fmt: skip


def checked_fit(day: int, fields: Mapping[str, object]) -> Fit:
    """A fit as it was written down; ``day`` is sound.

    Raises:
        ValueError: says in a few words what is wrong.
    """
    if fields.get("fitted") == []:
        return Fit(day)
    return Fit(
        day,
        _numbers(fields.get("fitted"), "fitted", LOWEST, HIGHEST),
        _number(fields.get("retention"), "retention", LEAST_RETENTION, MOST_RETENTION),
        _numbers(fields.get("shares"), "shares", (LEAST_SHARE,) * len(SHARES), (1.0,) * len(SHARES)),
        _number(fields.get("before"), "before", 0, _MOST_LOSS),
        _number(fields.get("after"), "after", 0, _MOST_LOSS),
    )


def _numbers(values: object, name: str, lowest: Sequence[float], highest: Sequence[float]) -> tuple[float, ...]:
    if not isinstance(values, list) or len(values) != len(lowest):
        raise ValueError(f"{name} is not a list of {len(lowest)} numbers")
    bounds = zip(values, lowest, highest, strict=True)
    return tuple(_number(value, f"{name}, number {n},", *bound) for n, (value, *bound) in enumerate(bounds, start=1))


def _number(value: object, name: str, low: float, high: float) -> float:
    # Of whole numbers too: one may be too large for a float. NaN is in no bounds.
    if isinstance(value, bool) or not isinstance(value, int | float) or not low <= value <= high:
        raise ValueError(f"{name} is no number from {low:g} to {high:g}")
    return float(value)
