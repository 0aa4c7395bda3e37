"""What the drills of chords say before they first ask: diagrams, names, tones, upper parts, distances, the two x."""

from __future__ import annotations

from drills.kinds import chord_pictures, pictures
from drills.kinds.chord_shapes import Taught, by_text, families, readings, taught
from drills.notation.drawing import Role
from drills.notation.pitch import Naming, spell
from drills.notation.score import Bar, Onset, Piece
from drills.notation.shape import Shape
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Item, Manner, Picture

HARD = (
    "These ask a lot of the hand: one finger over several strings, or fingers far apart. Reading them is enough; leave "
    "holding them until your teacher shows you how."
)


CAUTION = "Stop when a finger, the hand or the wrist hurts, and ask your teacher, or a doctor if it stays."


def sample(tuning: Tuning, *wanted: str) -> Taught:
    """The first shape of some families, or of all."""
    return next(iter(families(tuning, *wanted) or taught(tuning)))


def diagrams(item: Item, manner: Manner, press: str) -> Explanation:
    """A chord diagram beside the same chord as tab; power chords; what is hard on the hand."""
    lines = item.tuning.lines
    left, right = ("right", "left") if manner.left_handed else ("left", "right")
    if item.lesson == "power":
        title, wanted = "Two or three strings are enough", "power"
        words: tuple[str, ...] = (
            "A power chord is a note and its fifth, sometimes with the first note again an octave higher. Its name has "
            "a 5. It is played on the lower strings, and the rest are left alone.",
            "An x over a string of a diagram means: not played. On the staff such a string has no number.",
            press,
        )
    elif item.lesson == "hard":
        title, wanted = "Barres and bigger shapes", "barre"
        words = (
            "Where more strings are held than there are fingers, one finger lies across several of them: a barre. In "
            "the diagram it is a row of dots at one fret. A number beside the diagram is the fret of its top row.",
            HARD,
            CAUTION,
            press,
        )
    else:
        title, wanted = "A chord as a picture", "first"
        words = (
            f"A chord diagram is the neck stood upright: the nut on top, string {lines} at the {left}, string 1 at the "
            f"{right}. Dots are fingers, a ring is an open string, an x a string that is not played.",
            "A number in place of a dot says which finger: 1 is the index finger, 4 the little finger.",
            "On the staff the same chord is a column of numbers, one for each string that is played. Its bottom number "
            f"belongs to the string at the {left} of the diagram.",
            press,
        )
    entry = sample(item.tuning, wanted)
    return Explanation(title, words, chord_pictures.with_chord(entry.shape, item.tuning, manner, entry.fingers))


def names(item: Item, manner: Manner, press: str) -> Explanation:
    """What the name of a chord says."""

    def say(name: str) -> str:
        return chord_pictures.say_chord(name, manner.naming)

    hard: tuple[str, ...] = ()
    if item.lesson == "power":
        title, wanted = "Names with a 5", "power"
        words: tuple[str, ...] = (
            f"A power chord bears the name of its lowest note and a 5: {say('A5')} is {say('A')} with the fifth above "
            "it. It is neither major nor minor, because the third is left out.",
        )
    elif item.lesson == "shapes":
        title, wanted = "What a chord is called", "first"
        words = (
            f"The letter of a chord is its root, the note on which it is built. A letter alone is a major chord, an m "
            f"after it makes it minor: {say('A')} and {say('Am')} differ by one fret. A 7 adds one more note.",
            "The same notes have the same name, however often each of them is played and on whichever string.",
        )
    else:
        title, wanted = "More in a name", "seventh"
        hard = (HARD,) if item.lesson == "hard" else ()
        words = (
            f"What follows the letter says which notes are added or changed: {say('Cmaj7')}, {say('Dsus4')}, "
            f"{say('Cadd9')}. After a slash stands the lowest note, where it is not the root: {say('D/F#')}.",
            f"One set of notes can have several names, as {say('Am7')} is also {say('C6/A')}. Only one of those that "
            "are offered fits.",
        )
    entry = sample(item.tuning, wanted)
    return Explanation(
        title,
        (*words, *hard, press),
        chord_pictures.with_chord(entry.shape, item.tuning, manner, entry.fingers),
    )


def tones(item: Item, manner: Manner) -> Explanation:
    """Which notes a chord has."""
    entry = sample(item.tuning, "power" if item.lesson == "power" else "first")
    example = " ".join(chord_pictures.spelled_tones(entry.shape, item.tuning, manner.naming))
    return Explanation(
        "The notes in a chord",
        (
            "Each number of the column is a note. A chord of five or six strings mostly has three different notes; "
            "some of them are played twice or three times, in different octaves.",
            "Read the column from the bottom line up, name each note, and leave out what you have had.",
            f"Type the names in any order, such as {example}, then Enter. Sharps and flats are both right.",
        ),
        chord_pictures.with_chord(entry.shape, item.tuning, manner),
    )


def heard(item: Item, manner: Manner) -> Explanation:
    """From the lowest note to the highest."""
    entry = sample(item.tuning, "power" if item.lesson == "power" else "first")
    shape = entry.shape
    names = chord_pictures.heard_names(shape.pitches(item.tuning), shape, item.tuning)
    notes = ", ".join(spell(name, manner.naming) for name in names)
    if item.tuning.gauge_ordered:
        rule = "The bottom line sounds lowest, so a column is heard from its bottom number up."
    else:
        rule = "On this instrument the bottom line is not the lowest string: the pitches say which note sounds lowest."
    return Explanation(
        "What sounds, from low to high",
        (
            "The notes of a column are struck together, but the ear still hears which of them is the lowest and which "
            "the highest.",
            f"{rule} Here it is {notes}.",
            "Press the key beside the right row of notes.",
        ),
        chord_pictures.with_chord(shape, item.tuning, manner),
    )


def upper(item: Item, manner: Manner) -> Explanation:
    """Three strings of a chord are still that chord."""
    entry = by_text(item.tuning)[sample(item.tuning, "first").shape.text]
    shape = entry.shape.only(range(1, 4))
    name = chord_pictures.say_chord(readings(entry.shape, item.tuning)[0].name, manner.naming)
    return Explanation(
        "Parts of a chord",
        (
            "Tab often has only some strings of a chord. The hand may hold the whole shape and the pick strike a part "
            "of it.",
            f"This column is the three upper strings of {name}, the shape in the diagram. Look for the chord that has "
            "all of the notes.",
            "Press the key beside the chord's name.",
        ),
        Picture(
            chord_pictures.stack(
                item.tuning, manner.dialect, [shape], labels=pictures.line_letters(item.tuning, manner.naming)
            ),
            pictures.neck_with(item.tuning, dict.fromkeys(shape.places, Role.FRET), manner.left_handed),
            chord_pictures.one_box(entry.shape, manner, entry.fingers),
        ),
    )


def distances(item: Item, manner: Manner, shape: Shape) -> Explanation:
    """How far apart two notes are."""
    return Explanation(
        "How far apart two notes are",
        (
            "Two notes that are struck together are a double stop. Its name is the distance between them, counted in "
            "letters: from C to E is a third, to F a fourth, to G a fifth, to the next C an octave."
            if manner.naming is Naming.LETTERS
            else "Two notes that are struck together are a double stop. Its name is the distance between them, counted "
            "in note names: the next but one is a third, then a fourth, a fifth, and the eighth an octave.",
            "In frets: a minor third is 3, a major third 4, a fourth 5, a fifth 7, an octave 12. Count from the lower "
            "note up to the higher, as if both were on one string.",
            "Press the key beside the name.",
        ),
        chord_pictures.with_chord(shape, item.tuning, manner),
    )


def crosses(item: Item, manner: Manner) -> Explanation:
    """An x on a staff and an x over a diagram."""
    tuning = item.tuning
    entry = by_text(tuning)[item.subject.partition("-")[2]]
    muted = Onset(chord_pictures.struck(entry.shape))
    letters = pictures.line_letters(tuning, manner.naming)
    return Explanation(
        "Two kinds of x",
        (
            "Over a chord diagram an x means that the string is not played at all. Skip it, or let a finger touch it "
            "so that it stays silent.",
            "On the staff an x is a stroke: the string is struck while the hand damps it, and it clicks without a "
            "pitch. It counts as struck.",
            "Press the number of strings that the picking hand strikes.",
        ),
        Picture(
            StaffView(Piece(tuning, (Bar((muted,)),)), manner.dialect, letters),
            pictures.neck_with(tuning, dict.fromkeys(entry.shape.places, Role.FRET), manner.left_handed, letters),
            chord_pictures.one_box(entry.shape, manner),
        ),
    )
