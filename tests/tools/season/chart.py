"""Charts of one man out of the league's games: which snaps are his, and what his profile keeps of them."""

import functools
import pathlib

import league
from backs import back, end, receiver
from blocking import line
from charter import Chart
from counting import Profile, Snap
from dice import Dice
from fronts import backer, front
from match import Match
from secondary import corner, safety
from specialists import kicker, punter, returner, snapper

TEMPLATES = pathlib.Path(__file__).resolve().parents[3] / "templates"


def passer(chart):
    """Everything that the play shows of the man who throws."""
    if chart.is_run():
        return None
    row, dice = chart.row, chart.dice
    good = row.get("placement") == "on" and (row.get("depth", 0) >= 12 or row.get("window") != "open")
    bad = row.get("risk") == "yes" or chart.was == "intercepted" or row.get("placement") not in (None, "on")
    if row["result"] == "no-play":
        for name in (
            "read",
            "eyes",
            "base",
            "timing",
            "target",
            "route",
            "depth",
            "side",
            "placement",
            "window",
            "why",
        ):
            row.pop(name, None)
    if row["play"] in ("kneel", "spike"):
        row["mark"] = "0"
        return row
    return row if "mark" in row else chart.mark(good, bad)


OWN, OTHER, KICKS, RETURNS = "own", "other", "kicks", "returns"
CHARTERS = {
    "quarterback": (OWN, passer),
    "running-back": (OWN, back),
    "wide-receiver": (OWN, receiver),
    "tight-end": (OWN, end),
    "tackle": (OWN, line),
    "interior-line": (OWN, line),
    "interior-defensive-line": (OTHER, front),
    "edge": (OTHER, front),
    "linebacker": (OTHER, backer),
    "cornerback": (OTHER, corner),
    "safety": (OTHER, safety),
    "kicker": (KICKS, kicker),
    "punter": (KICKS, punter),
    "long-snapper": (KICKS, snapper),
    "returner": (RETURNS, returner),
}

# What a charter of the position does not write down, though the play shows it.
LEFT_OUT = {
    "quarterback": "weather wind",
    "running-back": "weather wind protection sub front leverage cushion",
    "wide-receiver": "weather wind front sub protection protectors backfield box",
    "tight-end": "weather wind front sub tempo box pressure-call",
    "tackle": "weather wind sub tempo motion",
    "interior-line": "weather wind sub tempo motion",
    "interior-defensive-line": "weather wind tempo protection motion formation",
    "edge": "weather wind tempo sub motion",
    "linebacker": "weather wind tempo protection protectors backfield cushion leverage",
    "cornerback": "weather wind tempo protection protectors backfield front box",
    "safety": "weather wind tempo protection protectors backfield front leverage",
    "kicker": "",
    "punter": "",
    "long-snapper": "wind",
    "returner": "",
}


@functools.lru_cache(maxsize=None)
def profile(name):
    return Profile(TEMPLATES / "profiles" / f"{name}.xml", TEMPLATES / "sets")


@functools.lru_cache(maxsize=None)
def match(day, visitor, host):
    return Match(Dice(f"{day} {visitor} {host}"), league.SCHOOLS[visitor], league.SCHOOLS[host])


def marks(of):
    return " ".join(name for name, field in of.fields.items() if field.get("exception") == "yes" and name != "jumbo")


class Unfit(ValueError):
    """A row that the profile cannot take."""


def fit_value(field, name, value):
    kind = field.get("type")
    if kind in ("choice", "ordered"):
        known = [choice.get("id") for choice in field.element.findall("value")]
        if str(value) not in known:
            raise Unfit(f"{name}={value}: not one of {known}")
    elif kind == "number":
        low, high = float(field.get("low")), float(field.get("high"))
        if not low <= float(value) <= high:
            raise Unfit(f"{name}={value}: not in {low:g}..{high:g}")
    return value


def keep(of, row):
    """What the profile asks for on this snap, in its order; without what does not apply."""
    snap = Snap(of, {name: str(value) for name, value in row.items()}, marks(of).split())
    kept = {"n": row["n"]}
    for name, field in of.fields.items():
        if field.tag == "derived" or field.get("type") in ("time", "text"):
            continue
        if name in LEFT_OUT[of.id].split() and field.get("required") != "yes":
            continue
        when = field.expression("when")
        applies = when.evaluate(snap) if when else True
        if applies is True and name in row:
            kept[name] = fit_value(field, name, row[name])
        elif applies is True and field.get("required") == "yes" and field.get("exception") != "yes":
            raise Unfit(f"{name} is wanted of {row}")
    for name in ("in", "out", "note"):
        if name in row:
            kept[name] = row[name]
    if kept.get("touchdown") == "no":
        del kept["touchdown"]
    for name in marks(of).split():
        if kept.get(name) in ("none", "no"):
            del kept[name]
    return kept


def sides(man, played):
    """His side of the game and the other."""
    own = played.sides[0] if played.sides[0].school.name == man.school else played.sides[1]
    return own, played.sides[1] if own is played.sides[0] else played.sides[0]


def rows(man, day, visitor, host):
    played = match(day, visitor, host)
    own, other = sides(man, played)
    where, charter = CHARTERS[man.profile]
    snaps = {OWN: own.snaps, OTHER: other.snaps, KICKS: own.kicks, RETURNS: other.kicks}[where]
    dice = Dice(f"{man.id} {day}")
    of = profile(man.profile)
    charted, drive, in_a_row = [], None, 0
    for snap in snaps:
        in_a_row = 0 if snap.get("drive") != drive else in_a_row
        drive = snap.get("drive")
        chart = Chart(man, dice, snap)
        chart.played_on = min(20, in_a_row + 1)
        row = charter(chart)
        in_a_row = 0 if row is None else in_a_row + 1
        if row is None:
            continue
        if where in (OTHER, RETURNS):
            row["margin"] = -row["margin"]
        charted.append(keep(of, row))
    return charted


def result(man, day, visitor, host):
    own, other = sides(man, match(day, visitor, host))
    return f"{'W' if own.points > other.points else 'L'} {own.points}-{other.points}"


def snaps_of(of, charted):
    """Rows as the counting reads them, by name."""
    return {
        f"{game}.{row['n']}": Snap(of, {name: str(value) for name, value in row.items()}, marks(of).split())
        for game, game_rows in charted.items()
        for row in game_rows
    }
