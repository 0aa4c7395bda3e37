"""What is told before a question, cut into pages that leave the picture whole."""

from __future__ import annotations

import pytest
from textual.geometry import Size

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from drills.question import Manner
from trainer.screens.telling import FLAT, LOW, Reading, pages, parts
from trainer.widgets.fitting import fit
from trainer.widgets.heading import rows

CATALOGUE = catalogue(shipped()["standard"])
LESSONS = [CATALOGUE.explain(item, Manner()) for item in {item.lesson: item for item in CATALOGUE.items}.values()]


@pytest.mark.parametrize("size", [(40, 12), (50, 15), (80, 19), (200, 12)])
def test_no_word_is_lost_and_every_page_has_room_for_its_picture(size: tuple[int, int]) -> None:
    width, height = size
    for lesson in LESSONS:
        told = pages(lesson, width, height)
        assert " ".join(page.words for page in told).split() == " ".join(lesson.lines).split()
        for page in told:
            taken = rows(page.title, width - 2) + rows(page.words, min(width, 76) - 2) + 1 + (height >= FLAT)
            least = fit(lesson.picture, width, 1, whole=True).height
            assert taken + least <= max(height, least + 5), (lesson.title, page.words)


def test_in_a_high_window_a_lesson_is_one_page() -> None:
    for lesson in LESSONS:
        (page,) = pages(lesson, 80, 24)
        assert [line for line in page.words.split("\n") if line] == list(lesson.lines)


@pytest.mark.parametrize("size", [(40, 12), (80, 19), (80, LOW), (80, 30)])
def test_after_a_resize_one_reads_on_where_one_was(size: tuple[int, int]) -> None:
    long = max(LESSONS, key=lambda lesson: sum(map(len, lesson.lines)))
    reading = Reading(Size(40, 12), long)
    reading.turn()
    assert reading.page is not None
    first = reading.page.words.split()[0]
    reading.cut_anew(Size(*size))
    assert reading.page is not None
    assert first in reading.page.words
    while reading.page is not None:
        last = reading.page
        reading.turn()
    assert long.lines[-1].split()[-1] in last.words


def test_a_paragraph_is_cut_between_sentences_where_that_is_possible() -> None:
    assert parts("One is here. Two is there. Three.", 14, 1) == ["One is here.", "Two is there.", "Three."]
    assert parts("One is here. Two is there. Three.", 14, 2) == ["One is here. Two is there.", "Three."]
    assert parts("No sentence ends before the room does", 12, 2) == ["No sentence ends before", "the room does"]
