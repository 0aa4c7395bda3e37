"""What the drills of chords say before they first ask: diagrams, names, tones, upper parts, distances, the two x."""

from __future__ import annotations

from drills.kinds import chord_pictures, pictures
from drills.kinds.caution import CAUTION
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


def sample(tuning: Tuning, *wanted: str) -> Taught:
    """The first shape of some families, or of all."""
    return next(iter(families(tuning, *wanted) or taught(tuning)))


def diagrams(item: Item, manner: Manner) -> Explanation:
    """A chord diagram beside the same chord as tab; power chords; what is hard on the hand."""
    lines = item.tuning.lines
    press = "Press the letter under the column that is the diagram."
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
            "On the staff the same chord is a column of numbers, one for each string that is played. Its bottom line "
            f"is the string at the {left} of the diagram.",
            f"Players also write it in one row, string {lines} first, an x for a string that is not played: "
            f"{sample(item.tuning, 'first').shape.text}. {press}",
        )
    entry = sample(item.tuning, wanted)
    return Explanation(title, words, chord_pictures.with_chord(entry.shape, item.tuning, manner, entry.fingers))


def back(item: Item, manner: Manner) -> Explanation:
    """From the column to the diagram."""
    side = "right" if manner.left_handed else "left"
    entry = sample(item.tuning, "first")
    return Explanation(
        "From tab to a diagram",
        (
            "Now the other way. Read the column from the bottom line up, and the strings of the diagram from the "
            f"{side}, where string {item.tuning.lines} is.",
            "A number is a dot at that fret, a 0 is a ring over the diagram, and a line without a number is an x.",
            "Press the letter under the diagram that is the column.",
        ),
        chord_pictures.with_chord(entry.shape, item.tuning, manner),
    )


def find(item: Item, manner: Manner) -> Explanation:
    """From a name to its shape."""
    entry = sample(item.tuning, "first")
    e, minor = (chord_pictures.say_chord(name, manner.naming) for name in ("E", "Em"))
    return Explanation(
        "From a name to its shape",
        (
            "Song books often write nothing but the name of a chord over the words, and the hand has to know its "
            "shape. So names are learned with their shapes, a few at a time.",
            f"A major chord and its minor chord, such as {e} and {minor}, have all but one note in common, and that "
            "one is a fret lower in the minor chord.",
            "Press the letter under the diagram that has the name.",
        ),
        chord_pictures.with_chord(entry.shape, item.tuning, manner, entry.fingers),
    )


def names(item: Item, manner: Manner) -> Explanation:
    """What the name of a chord says."""

    def say(name: str) -> str:
        return chord_pictures.say_chord(name, manner.naming)

    if item.lesson == "name-power":
        title, wanted = "Names with a 5", "power"
        words: tuple[str, ...] = (
            f"A power chord bears the name of its lowest note and a 5: {say('A5')} is {say('A')} with the fifth above "
            "it. It is neither major nor minor, because the third is left out.",
        )
    elif item.lesson == "name-shapes":
        title, wanted = "What a chord is called", "first"
        words = (
            f"The letter of a chord is its root, the note on which it is built. A letter alone is a major chord, an m "
            f"after it makes it minor: {say('A')} and {say('Am')} differ by one fret. A 7 adds one more note.",
            "You need not work it out yet: get to know column and name together. The same notes have the same name, "
            "however often each is played.",
            f"Names over a staff, such as {say('Am')} or {say('G')}, are a chord line: each tells which chord begins "
            "at its column, for whoever plays along. They are no notes to read.",
        )
    elif item.lesson == "name-hard":
        title, wanted = "Names of barre chords", "barre"
        moved = "A barre shape can be moved: each fret up makes the chord a semitone higher, and its name with it."
        if item.tuning.gauge_ordered:
            moved += " Its lowest note is the root that gives the name."
        words = (moved, HARD)
    else:
        title, wanted = "More in a name", "seventh"
        more = (
            f"What follows the letter says which notes are added or changed: {say('Cmaj7')}, {say('Dsus4')}, "
            f"{say('Cadd9')}."
        )
        by_bass = item.tuning.gauge_ordered
        if by_bass:
            more += f" After a slash stands the lowest note, where it is not the root: {say('D/F#')}."
        words = (
            more,
            f"One set of notes can have several names, as {say('Am7')} is also {say('C6/A' if by_bass else 'C6')}. "
            "Only one of those that are offered fits.",
        )
    entry = sample(item.tuning, wanted)
    return Explanation(
        title,
        (*words, "Press the key beside the name."),
        chord_pictures.with_chord(entry.shape, item.tuning, manner, entry.fingers),
    )


def tones(item: Item, manner: Manner) -> Explanation:
    """Which notes a chord has."""
    entry = sample(item.tuning, "first")
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
    entry = sample(item.tuning, "power")
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
    """Three strings of a chord are still that chord; the item is the one whose chord is shown."""
    entry = by_text(item.tuning)[item.subject.partition("/")[0]]
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
            "In frets: thirds are 3 (minor) and 4 (major), a fourth is 5, a tritone 6, a fifth 7, sixths 8 and 9, "
            "sevenths 10 and 11, an octave 12; seconds are 1 and 2. Count up from the lower note, as if both were on "
            "one string.",
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
            "pitch. It counts as struck; a line that is empty there does not.",
            "Press the number of strings that the picking hand strikes.",
        ),
        Picture(
            StaffView(Piece(tuning, (Bar((muted,)),)), manner.dialect, letters),
            pictures.neck_with(tuning, dict.fromkeys(entry.shape.places, Role.FRET), manner.left_handed, letters),
            chord_pictures.one_box(entry.shape, manner),
        ),
    )
