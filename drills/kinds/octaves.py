"""The same note an octave higher or lower: where it is, and the shapes that lead there."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import product
from typing import Final

from drills.kinds.elsewhere import ask_elsewhere, elsewhere_facts, elsewhere_items, example, sought
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Item, Manner, Question
from drills.stages import Stage

OCTAVE: Final = 12
"""Semitones, and so frets, of an octave."""


class Octaves:
    """Where does this note sound an octave higher, or lower?"""

    name = "octave"
    title = "Octaves"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        full = tuning.full
        asked = [
            (f"{low}/{fret}-on-{high}", Stage.TWELVE_FRETS, "octave-shape", "{}, an octave higher two strings on")
            for fret, (low, high) in product((1, 3, 5), zip(full, full[2:], strict=False))
        ]
        asked += [
            (f"{string}/{fret}", Stage.NECK, "higher", "{}, an octave higher")
            for fret, string in product((0, 3, 5), full[:4])
        ]
        asked += [
            (f"{string}/{fret}-down", Stage.NECK, "lower", "{}, an octave lower")
            for fret, string in product((3, 5, 7), full[-4:])
        ]
        return elsewhere_items(self.name, tuning, OCTAVE, asked)

    def facts(self, item: Item) -> Facts:
        return elsewhere_facts(item, sought(item, OCTAVE))

    def explain(self, item: Item, manner: Manner) -> Explanation:
        first = next(each for each in self.items(item.tuning) if each.lesson == item.lesson)
        way = "lower" if item.lesson == "lower" else "higher"
        shapes = item.lesson == "octave-shape"
        press = "Press the number of the fret." if shapes else "Press the letter of one on the neck."
        return Explanation(
            "Octave shapes" if shapes else f"An octave {way}",
            (
                "Twelve frets up the same string a note comes again, an octave higher, under the same name. It is "
                "nearer at hand on another string.",
                "From one string to the next but one the way is the same at every fret: a shape for two fingers that "
                "moves along the neck. Learn one for each pair of strings.",
                f"Here the second note is the first an octave {way}. {press}",
            ),
            example(first, sought(first, OCTAVE), manner),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        wanted = sought(item, OCTAVE)
        what = "an octave higher" if wanted.shift > 0 else "an octave lower"
        return ask_elsewhere(item, wanted, rng, manner, what if wanted.on else f"the same note {what}")
