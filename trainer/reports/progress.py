"""``sixline progress``."""

from __future__ import annotations

from statistics import median
from typing import Any, Final

from drills.catalogue import Catalogue
from trainer.clock import Clock
from trainer.complaint import DONE
from trainer.opening import Choices, catalogue_of, open_profile
from trainer.reports import print_json, print_lines, table, tell_problems
from trainer.schedule.days import as_date
from trainer.schedule.due import is_due
from trainer.schedule.ledger import Ledger
from trainer.schedule.rid import gone
from trainer.schedule.stages import current_stage
from trainer.schedule.status import Status, status
from trainer.wording import USUAL, Voice, counted, habit, status_word, voice_of

NOTE_DRILLS: Final = frozenset({"fret-to-note", "tab-to-place", "place-to-tab"})
"""Drills whose every answer is the reading of one note."""
ENOUGH_NOTES: Final = 5
SHOWN_DAYS: Final = 14
FLUENT: Final = (Status.FLUENT, Status.KEPT)


def report(choices: Choices, clock: Clock, *, as_json: bool) -> int:
    """Print how far the learner has come; the exit code."""
    profile = open_profile(choices, clock, write=False)
    tell_problems(profile.problems)
    day = profile.sitting_day(clock.now(), clock.zone)
    found = document(catalogue_of(profile.settings), profile.ledger, day)
    if as_json:
        print_json(found)
    else:
        print_lines(lines(found, voice_of(profile.settings)))
    return DONE


def document(catalogue: Catalogue, ledger: Ledger, day: int) -> dict[str, Any]:
    """For programs. ``stage`` is the one that the learner is at, see ``current_stage``."""
    states = {item.id: status(ledger.states.get(item.id)) for item in catalogue.items}
    stage = current_stage(catalogue, ledger.states)
    counts = {str(each): sum(found is each for found in states.values()) for each in Status}
    return {
        "items": len(catalogue.items),
        **counts,
        "due": sum(is_due(ledger.states.get(item.id), day) for item in catalogue.items),
        "stage": {"number": stage.number, "title": stage.title, "fluent": stage.fluent},
        "days": [
            {
                "day": as_date(when).isoformat(),
                "answers": tally.answers,
                "right": tally.right,
                "median_seconds": tally.median_seconds,
                "minutes": tally.minutes,
            }
            for when, tally in sorted(ledger.days.items())
        ],
        "misreadings": misreadings(ledger),
        "by_drill": _by_drill(catalogue, states),
        "notes_per_minute": _notes_per_minute(catalogue, ledger),
        "predicted": _predicted(ledger),
    }


def misreadings(ledger: Ledger) -> list[dict[str, Any]]:
    """The most frequent first; of each the items where it happened most, and whether it was a habit and is gone."""
    away = gone(ledger.habits)
    found = [
        {
            "kind": kind,
            "count": sum(items.values()),
            "items": [item for item, _ in sorted(items.items(), key=lambda entry: (-entry[1], entry[0]))],
            "gone": kind in away,
        }
        for kind, items in ledger.misreadings.items()
    ]
    return sorted(found, key=lambda entry: (-int(str(entry["count"])), str(entry["kind"])))


def _by_drill(catalogue: Catalogue, states: dict[str, Status]) -> dict[str, dict[str, int]]:
    found: dict[str, dict[str, int]] = {}
    for item in catalogue.items:
        drill = found.setdefault(item.drill, {"items": 0, "fluent": 0})
        drill["items"] += 1
        drill["fluent"] += states[item.id] in FLUENT
    return found


def _notes_per_minute(catalogue: Catalogue, ledger: Ledger) -> int | None:
    """From the usual recent seconds of right answers to single notes; None before there are a few."""
    paces = [
        state.pace
        for name, state in ledger.states.items()
        if state.pace is not None and name in catalogue.by_id and catalogue.by_id[name].drill in NOTE_DRILLS
    ]
    return round(60 / median(paces)) if len(paces) >= ENOUGH_NOTES and median(paces) > 0 else None


def _predicted(ledger: Ledger) -> dict[str, Any]:
    """Foretold against observed, by the memory in use; ``fitted`` says when and how well it was fitted, if it was."""
    predictions = ledger.predictions
    loss = predictions.log_loss
    bins = [
        {"predicted": round(each.predicted / each.n, 4), "observed": round(each.observed / each.n, 4), "n": each.n}
        for each in predictions.bins
        if each.n
    ]
    fit = ledger.fit
    fitted = None
    if fit is not None and not fit.undone:
        fitted = {"day": as_date(fit.day).isoformat(), "before": fit.before, "after": fit.after}
    return {"log_loss": None if loss is None else round(loss, 4), "bins": bins, "fitted": fitted}


def lines(found: dict[str, Any], voice: Voice = USUAL) -> list[str]:
    """For people; nothing of speed where they do not want to hear of it."""
    stage = found["stage"]
    out = [
        f"{counted(found['items'], 'item')}: "
        + ", ".join(f"{found[str(state)]} {status_word(state)}" for state in Status)
        + ".",
        f"Stage {stage['number']}, {stage['title']}: {stage['fluent']} fluent. To go over now: {found['due']}.",
    ]
    if found["notes_per_minute"] is not None and voice.speed:
        out.append(f"About {counted(found['notes_per_minute'], 'single note')} a minute.")
    if found["days"]:
        heads = ["DAY", "ANSWERS", "RIGHT", "MINUTES", *(["USUAL TIME"] if voice.speed else [])]
        rows = [heads, *(_day(day)[: len(heads)] for day in found["days"][-SHOWN_DAYS:])]
        out += ["", *table(rows)]
    for title, away in (("Misreadings that you are rid of:", True), ("Misreadings:", False)):
        told = [each for each in found["misreadings"] if each["gone"] == away]
        if told:
            out += ["", title, *table([[f"  {habit(each['kind'])}", f"{each['count']} x"] for each in told])]
    drills = [[f"  {name}", f"{each['fluent']} of {each['items']}"] for name, each in found["by_drill"].items()]
    return [*out, "", "Fluent by drill:", *table(drills)]


def _day(day: dict[str, Any]) -> list[str]:
    seconds = day["median_seconds"]
    usual = "" if seconds is None else f"{seconds:.1f} s"
    return [day["day"], str(day["answers"]), str(day["right"]), f"{day['minutes']:.1f}", usual]
