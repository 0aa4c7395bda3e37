"""How to answer, in one line, for whoever types instead of pressing keys. Nothing here tells the answer."""

from __future__ import annotations

from drills.notation.pitch import Naming, spell
from drills.question import Kind, Question


def how_to_answer(question: Question, naming: Naming) -> str:
    """What a possible answer looks like."""
    item, lines = question.item, question.item.tuning.lines
    if item.kind is Kind.NOTE:
        return "Type a note name such as " + f"{spell('C', naming)}, {spell('F#', naming)} or {spell('Bb', naming)}."
    if item.kind is Kind.STRING and any(option.text for option in question.options):
        names = ", ".join(option.text for option in question.options)
        return f"Type the string's name ({names}) or its number from 1 to {lines}."
    if item.kind is Kind.PLACE:
        keys = [option.key for option in question.options]
        letter = f", or the letter from {keys[0]} to {keys[-1]}" if keys else ""
        return f"Type string/fret, such as 5/3{letter}."
    if item.kind is Kind.CHOICE:
        return f"Type {', '.join(option.key for option in question.choices[:-1])} or {question.choices[-1].key}."
    if item.kind is Kind.SET and not question.options:
        return f"Type the names of the notes in any order, such as {spell('A', naming)} {spell('B', naming)}."
    if item.kind is Kind.BEAT and not question.options:
        return "Type the beat as it is counted, such as 2, 2e, 2& or 2a."
    if item.kind is Kind.CHORD:
        minor, seventh, slash = map(question.show, ("Am", "F#m7", "G/B"))
        return f"Type a chord name such as {minor} or {seventh}, with a bass that is not its root as in {slash}."
    return {
        Kind.STRING: f"Type the number of the string, from 1 to {lines}.",
        Kind.LINE: f"Type the number of the line, from 1 at the top to {lines}.",
        Kind.COUNT: "Type a number from 1 to 9.",
        Kind.FRET: "Type the number of the fret; 0 is the open string.",
        Kind.PICKED: "Type y or n for each number, from left to right, such as yn.",
        Kind.ORDER: "Type the numbers of the strings in order, such as 5 3.",
        Kind.SET: "Type the numbers of the strings, such as 2 3.",
        Kind.BEAT: "Type the beat, such as 2, or 2& for the half beat after it.",
        Kind.TAP: "Type the times of your taps in seconds, such as 0.00 0.52 1.01.",
    }[item.kind]


def read_answer(question: Question, typed: str) -> str | None:
    """The answer that was typed, or None when it is no possible one. The letter of a place stands for the place."""
    if question.parse(typed) is not None:
        return typed
    if question.item.kind is Kind.PLACE:
        wanted = typed.strip().casefold()
        return next((option.answer for option in question.options if option.key.casefold() == wanted), None)
    return None
