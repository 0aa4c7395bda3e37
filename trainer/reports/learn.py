"""``sixline learn``."""

from __future__ import annotations

import sys
from pathlib import PurePath

from drills.notation.reader import read_tab
from drills.notation.reading.decoding import decode
from drills.notation.reading.shapes import Reading
from drills.uncollected import uncollected
from trainer.clock import Clock
from trainer.complaint import DONE, ERRORS, Complaint, shown
from trainer.opening import Choices, catalogue_of, find_tuning, open_profile
from trainer.profile.lock import HeldError
from trainer.profile.piece_names import UNTITLED, clean_title, piece_name
from trainer.profile.pieces import PIECES, KeptPiece
from trainer.profile.problem import mend, reason
from trainer.profile.store import Profile
from trainer.reports import print_json, print_lines, tell_problems
from trainer.reports.learn_words import Learned, document, errors_of, lines, refusal
from trainer.reports.reach import reach_of
from trainer.reports.read import Given
from trainer.reports.tab_file import STDIN, read_file
from trainer.reports.unmet import unmet
from trainer.schedule.days import as_date, practice_day


def report(choices: Choices, clock: Clock, given: Given, *, as_json: bool) -> int:
    """Keep a piece, so that what it needs comes first in practice, and say so; the exit code.

    A piece with errors is kept all the same, where something in it can be asked about.

    Raises:
        Complaint: the file cannot be read or is too large, there is no such tuning, another process writes the
            profile, or the piece cannot be written.
    """
    profile = open_profile(choices, clock, write=True)
    tuning = None if given.tuning is None else find_tuning(given.tuning, profile.settings.own_tuning)
    data = read_file(given.file)
    with uncollected():
        text, _ = decode(data)
        reading = read_tab(text, tuning=tuning, capo=given.capo)
        reach = reach_of(reading, profile.ledger.states)
    refused = refusal(reading, reach)
    kept, replaced = None, False
    title = _title(reading, given)
    if refused is None:
        piece = KeptPiece(
            title=title or UNTITLED,
            file=f"{piece_name(title, text)}.txt",
            day=as_date(practice_day(clock.now(), clock.zone)).isoformat(),
            items=reach.needs.items,
            tuning=None if tuning is None else tuning.name,
            capo=given.capo,
        )
        replaced = _keep(profile, clock, piece, text)
        kept = profile.folder / PIECES / piece.file
    tell_problems(profile.problems)
    catalogue = catalogue_of(profile.settings)
    learned = Learned(
        title=title or UNTITLED,
        reading=reading,
        reach=reach,
        kept=kept,
        replaced=replaced,
        first=unmet(catalogue, profile.ledger.states, reach.needs.items) if kept else [],
        learns=catalogue.tuning,
    )
    if as_json:
        print_json(document(profile.name, learned))
    else:
        _tell(learned, given, refused)
    return ERRORS if refused or reading.errors else DONE


def _tell(learned: Learned, given: Given, refused: tuple[str, str] | None) -> None:
    """What was kept, on standard output; what is wrong with the text, on standard error."""
    where = "standard input" if given.file == STDIN else given.file
    errors = errors_of(learned.reading)
    for doubt in errors:
        place = f"{where}, line {doubt.line}, column {doubt.column}"
        print(f"sixline: {shown(f'{doubt.message} ({place}): {doubt.mend}')}", file=sys.stderr)
    if refused is None:
        print_lines(lines(learned))
    elif not errors:
        print(f"sixline: {shown(f'{refused[0]} ({where}): {refused[1]}')}", file=sys.stderr)


def _title(reading: Reading, given: Given) -> str:
    """What the text says, else the file's name; empty where there is neither."""
    stem = "" if given.file == STDIN else PurePath(given.file).stem
    return clean_title(reading.piece.title) or clean_title(stem)


def _keep(profile: Profile, clock: Clock, piece: KeptPiece, text: str) -> bool:
    try:
        profile.acquire(clock.now())
        return profile.keep_piece(piece, text)
    except (HeldError, ValueError) as error:
        raise Complaint(str(error)) from None
    except OSError as error:
        where = str(error.filename or profile.folder)
        raise Complaint(f"the piece is not kept, {reason(error)}", where, mend(error)) from None
    finally:
        profile.close(clock.now())
