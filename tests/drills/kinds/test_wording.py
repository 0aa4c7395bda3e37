"""Words that several drills share."""

from __future__ import annotations

import re

import pytest

from drills.kinds.wording import sentence_hint
from drills.notation.pitch import Naming
from drills.notation.tuning import sentence_fits, shipped
from tests.drills.samples import EVERY


@pytest.mark.parametrize("naming", Naming)
@pytest.mark.parametrize("name", EVERY)
def test_a_sentence_that_does_what_the_hint_says_fits(name: str, naming: Naming) -> None:
    tuning = shipped()[name]
    hint = sentence_hint(tuning, naming)
    initials = re.findall(r"\b[A-Z]\b", hint.partition("begin with ")[2].partition(" (for")[0])
    words = [f"{initial}xyz" for initial in initials]
    assert sentence_fits(" ".join(words), tuning, naming) == "up"
    assert sentence_fits(" ".join(reversed(words)), tuning, naming) is not None


def test_the_hint_says_which_names_the_letters_stand_for() -> None:
    flats = shipped()["half-step-down"]
    assert sentence_hint(flats, Naming.LETTERS) == (
        "That does not spell the strings: give six words that begin with E, A, D, G, B, E "
        "(for Eb Ab Db Gb Bb Eb), in this order or backwards."
    )
    standard = shipped()["standard"]
    assert "begin with M, L, R, S, S, M (for mi la re sol si mi), in" in sentence_hint(standard, Naming.SOLFEGE)
    assert "begin with E, A, D, G, B, E, in this order" in sentence_hint(standard, Naming.LETTERS)
