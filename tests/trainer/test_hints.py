"""The bottom row in narrow windows: closer first, then fewer, and the way out always."""

from __future__ import annotations

import pytest

from trainer.widgets.hints import fit_in_row


@pytest.mark.parametrize(
    ("room", "row"),
    [
        (99, (3, 1, 3)), (37, (3, 1, 3)), (36, (3, 1, 2)), (33, (3, 1, 1)), (30, (2, 1, 3)), (20, (1, 1, 3)),
        (9, (0, 1, 3)), (1, (0, 1, 1)),
    ],
)  # fmt: skip
def test_narrower_and_narrower(room: int, row: tuple[int, int, int]) -> None:
    assert fit_in_row([8, 8, 7, 5], room) == row


def test_nothing_to_show() -> None:
    assert fit_in_row([], 40) == (0, 0, 1)
