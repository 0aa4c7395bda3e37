"""Tables under a sum: both readings agree, and every cut is seen."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.profile.tables import dump, load

TEXT = st.text(max_size=20)
VALUES = st.one_of(
    st.booleans(),
    st.integers(-(2**53), 2**53),
    st.floats(allow_nan=False, allow_infinity=False),
    TEXT,
    st.lists(st.one_of(st.integers(0, 9), TEXT), max_size=4),
)
TABLES = st.recursive(
    st.dictionaries(TEXT, VALUES, max_size=4),
    lambda inner: st.dictionaries(TEXT, st.one_of(VALUES, inner), max_size=4),
    max_leaves=12,
)


@given(TABLES)
def test_tables_come_back_from_both_readings(tables: dict[str, Any]) -> None:
    tables.pop("sum", None)
    data = dump("a comment", tables)
    assert load(data) == tables
    whole = tomllib.loads(data.decode())
    whole.pop("sum")
    assert whole == tables


def test_keys_with_quotes_dots_and_signs_of_toml() -> None:
    tables = {"a.b": {'x" = y': 1, "[z]": {"c.d": "\n\u202e\U000e0001", "\\": [1, "] # = "]}}, "t": "= {"}
    assert load(dump("c", tables)) == tables


def test_a_cut_or_changed_document_is_never_taken() -> None:
    data = dump("a comment", {"a": 1, "t": {"row": [1, 2.5, "x"], "more": "y"}})
    for end in range(len(data)):
        with pytest.raises(ValueError, match="Sixline"):
            load(data[:end])
    for place in range(data.index(b"\n") + 1, len(data)):
        changed = data[:place] + bytes([data[place] ^ 1]) + data[place + 1 :]
        with pytest.raises(ValueError, match="Sixline"):
            load(changed)


@pytest.mark.parametrize("value", [None, float("nan"), float("inf"), object(), b"x"])
def test_what_has_no_place_is_refused(value: object) -> None:
    with pytest.raises(ValueError, match="no place"):
        dump("c", {"a": value})
