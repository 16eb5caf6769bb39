#!/usr/bin/env python3
"""Plays a season of an invented league and writes the dossiers of its players.

    season.py DOSSIER       prints one, such as vashti.xml or earlier/birkett-1.xml
    season.py -o FOLDER     writes them all
    season.py --same FOLDER tells which of those in the folder are not what it makes

Possessions are simulated, so that downs, distances, spots, clock and score follow from one another, and every dropback
is charted. The words (claims, grades, prose) are written by hand in PASSER_prose.xml around the chart that the seed
gives: a change here or of the seed makes other snaps, and then the words must be looked at again. The seed was picked
so that every verdict appears.

The figures in tests/templates/vashti.counts are made by expected.py, which counts by itself."""

import argparse
import pathlib
import sys
from dataclasses import dataclass, field

sys.dont_write_bytecode = True  # the modules beside this one leave no folder behind

import people
import second
import write
from dice import Dice
from game import Game
from report import Report, earlier
from roster_back import BACK
from roster_front import FRONT
from roster_hand import HAND
from roster_kicks import KICKS
from roster_line import LINE
from roster_skill import SKILL

HERE = pathlib.Path(__file__).resolve().parent
MARKER = "<!-- games -->\n"


@dataclass(frozen=True)
class Plan:
    """One game of a season."""

    id: str
    on: str
    site: str
    opponent: people.Opponent
    media: str
    by: str = "rk"
    receives: bool = True
    second: str = ""  # who charted it again, when somebody did
    corrections: dict = field(default_factory=dict)  # what the official scorer saw otherwise


@dataclass(frozen=True)
class Season:
    passer: people.Passer
    seed: int
    plans: tuple
    blanks: dict  # fields that the charter could not make out: how many of them
    checks: int = 0  # snaps on which he changed the play at the line
    notes: dict = field(default_factory=dict)  # by snap


VASHTI = Season(
    people.VASHTI,
    8810,
    (
        Plan(
            "g1",
            "2031-09-06",
            "home",
            people.Opponent("Tarn County", people.BALANCED, 0.17, 0.07, 0.24),
            "wk1",
            second="dm",
        ),
        Plan(
            "g2",
            "2031-09-20",
            "away",
            people.Opponent("Windle A&M", people.MAN_FIRST, 0.24, 0.05, 0.26),
            "wk3",
            receives=False,
        ),
        Plan(
            "g3",
            "2031-09-27",
            "away",
            people.Opponent("Lowmoor State", people.ZONE_FIRST, 0.14, 0.10, 0.25),
            "wk4",
            second="dm",
        ),
        Plan(
            "g4",
            "2031-10-18",
            "home",
            people.Opponent("Cadder Ridge", people.MAN_FIRST, 0.22, 0.06, 0.25),
            "wk7",
            by="dm",
            receives=False,
        ),
        # The scorer saw one catch more than the chart, for no gain: the one disagreement of the dossier, and meant.
        Plan(
            "g5",
            "2031-11-08",
            "away",
            people.Opponent("Skerry Point", people.ZONE_FIRST, 0.15, 0.09, 0.28),
            "wk10",
            corrections={"completions": 1},
        ),
    ),
    {"base": 6, "target": 2, "window": 5, "throw-time": 6, "eyes": 8, "side": 2, "protection": 7, "motion": 3},
    checks=11,
    notes={
        "g2.71": "Screen read by the end; his hand was on it",
        "g3.30": "Waits for the seam the safety has closed",
        "g4.47": "Through the back’s hands and up in the air",
        "g4.54": "Linebacker drops from the line into the sail",
        "g5.51": "Scorer has a catch for no gain; on film the ball is on the grass first",
    },
)

OHASHI = Season(
    people.OHASHI,
    8,
    (
        Plan(
            "g1",
            "2031-09-13",
            "away",
            people.Opponent("Harrow Valley", people.BALANCED, 0.18, 0.06, 0.28),
            "wk2",
            by="dm",
        ),
        Plan(
            "g2",
            "2031-10-04",
            "home",
            people.Opponent("Ōtāwhai Näs", people.ZONE_FIRST, 0.16, 0.08, 0.22),
            "wk5",
            by="dm",
            receives=False,
        ),
    ),
    {"base": 2, "window": 4, "throw-time": 9, "eyes": 6, "protection": 9},
)

SEASONS = {"vashti": VASHTI, "ohashi": OHASHI}


def play(season):
    """Rows and results of every game, in order."""
    games = []
    for at, plan in enumerate(season.plans):
        dice = Dice(season.seed * 1000 + at)
        games.append(Game(dice, plan.opponent, season.passer, try_for_two=True).play(plan.receives))
    blank(season, games)
    mark_checks(season, games)
    for at, plan in enumerate(season.plans):
        for row in games[at].rows:
            note = season.notes.get(f"{plan.id}.{row['n']}")
            if note:
                row["note"] = note
    return games


def blank(season, games):
    """Takes out what could not be seen on film, spread over the season."""
    dice = Dice(season.seed * 1000 + 999)
    for name, count in season.blanks.items():
        rows = [row for game in games for row in game.rows if name in row and (name != "base" or "placement" in row)]
        for _ in range(count):
            row = rows.pop(dice.whole(0, len(rows) - 1))
            del row[name]


def mark_checks(season, games):
    dice = Dice(season.seed * 1000 + 998)
    rows = [
        row
        for game in games
        for row in game.rows
        if row["play"] in ("pass", "play-action", "screen") and row["result"] != "no-play"
    ]
    for _ in range(season.checks):
        rows.pop(dice.whole(0, len(rows) - 1))["check"] = "yes"


def again(season, at):
    """What makes a second chart of the game out of the first, or nothing."""
    seed = season.seed * 1000 + 500 + at
    return lambda rows: second.chart(rows, seed) if season.plans[at].second else []


def result(game):
    ours, theirs = game.points
    return f"{'W' if ours > theirs else 'L' if ours < theirs else 'T'} {ours}-{theirs}"


def flagship(name):
    season = SEASONS[name]
    games = play(season)
    text = "".join(
        write.game(plan, game.rows, result(game), again(season, at)(game.rows))
        for at, (plan, game) in enumerate(zip(season.plans, games))
    )
    return framed(name, text)


def framed(name, games):
    """The words written by hand, with the games put in."""
    frame = (HERE / f"{name}_prose.xml").read_text(encoding="utf-8")
    if frame.count(MARKER) != 1:
        raise SystemExit(f"{name}_prose.xml: the line {MARKER.strip()} must stand there once")
    return frame.replace("  " + MARKER, games)


def dossiers():
    """Path below dossiers/ to what makes its text."""
    makers = {
        "vashti.xml": lambda: flagship("vashti"),
        "dordic-ohashi.xml": lambda: flagship("ohashi"),
    }
    for entry in SKILL + LINE + FRONT + BACK + KICKS:
        name = entry.man.id.split("-", 1)[1]
        makers[f"{name}.xml"] = lambda entry=entry: Report(entry).xml()
        if entry.earlier:
            makers[f"earlier/{name}-{entry.revision - 1}.xml"] = lambda entry=entry: earlier(entry).xml()
    for entry in HAND:
        name = entry.man.id.split("-", 1)[1]
        makers[f"{name}.xml"] = lambda entry=entry, name=name: framed(name, Report(entry).games_xml())
    return makers


def main():
    parser = argparse.ArgumentParser(description="Writes the dossiers of an invented season.")
    parser.add_argument(
        "dossier", nargs="?", help="its path below dossiers/, such as vashti.xml; else all are written"
    )
    parser.add_argument("-o", dest="folder", type=pathlib.Path, help="where all are written")
    parser.add_argument("--same", type=pathlib.Path, help="a folder to compare with")
    arguments = parser.parse_args()
    makers = dossiers()
    if arguments.dossier:
        print(makers[arguments.dossier](), end="")
        return
    if arguments.same:
        for path, make in makers.items():
            kept = arguments.same / path
            if not kept.exists() or kept.read_text(encoding="utf-8") != make():
                print(kept)
        return
    for path, make in makers.items():
        target = arguments.folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(make(), encoding="utf-8")


if __name__ == "__main__":
    main()
