"""The same game charted again by another man: the same snaps, seen with other eyes.

What everybody can count (down, spot, result, gain) agrees. What is judged parts now and then, to a neighbour of what
the first charter wrote; what he could not make out he leaves blank. Film times are the first chart's."""

from dice import Dice

NEIGHBOURS = {
    "placement": {
        "on": {"high": 3, "behind": 3, "ahead": 2, "low": 2},
        "high": {"on": 3, "away": 1},
        "low": {"on": 3, "behind": 1},
        "behind": {"on": 4, "low": 1},
        "ahead": {"on": 3, "away": 1},
        "away": {"ahead": 1, "high": 1},
    },
    "timing": {"early": {"on": 1}, "on": {"early": 2, "late": 3}, "late": {"on": 1}},
    "base": {"set": {"off": 1}, "off": {"set": 1}},
    "pressure": {"none": {"hurry": 1}, "hurry": {"none": 3, "hit": 2}, "hit": {"hurry": 1}},
    "coverage": {
        "1": {"1-robber": 4, "1-hole": 2, "3-match": 2},
        "1-robber": {"1": 3, "1-hole": 2},
        "1-hole": {"1": 2, "1-robber": 2},
        "2": {"2-middle": 2, "6": 2, "2-read": 1},
        "2-middle": {"2": 2},
        "2-man": {"2": 1, "2-read": 2},
        "2-read": {"4-match": 2, "2": 1},
        "3": {"3-match": 4, "3-cloud": 2},
        "3-match": {"3": 3, "1": 2},
        "3-cloud": {"3": 2, "6": 1},
        "4": {"4-match": 3, "6": 2},
        "4-match": {"4": 3, "2-read": 1},
        "6": {"4": 2, "2": 1},
    },
    "window": {"closed": {"closing": 1}, "closing": {"open": 3, "closed": 2}, "open": {"closing": 1}},
    "eyes": {
        "moved": {"scanned": 3, "fixed": 1},
        "scanned": {"moved": 3, "fixed": 1},
        "fixed": {"scanned": 3, "moved": 1},
        "rush": {"scanned": 1},
    },
    "launch": {"pocket": {"slid": 1}, "slid": {"pocket": 1}},
    "shell": {"1-high": {"2-high": 1}, "2-high": {"1-high": 1}},
    "front": {"even": {"over": 1, "under": 1}, "over": {"even": 1}, "under": {"even": 1}, "odd": {"tite": 1}},
    "protection": {
        "half-slide": {"full-slide": 1, "man": 1},
        "man": {"half-slide": 1},
        "full-slide": {"half-slide": 1},
    },
    "drop": {"1": {"3": 1}, "3": {"5": 1, "1": 1}, "5": {"3": 1}},
    "target": {"WR": {"slot": 1}, "slot": {"WR": 1}},
    "side": {
        "wide-left": {"left": 1},
        "left": {"wide-left": 1, "middle": 1},
        "middle": {"left": 1, "right": 1},
        "right": {"middle": 1, "wide-right": 1},
        "wide-right": {"right": 1},
    },
    "motion": {
        "none": {"shift": 1},
        "across": {"jet": 2, "in": 2, "return": 1},
        "jet": {"ghost": 2, "across": 1},
        "ghost": {"jet": 1},
        "in": {"across": 1, "none": 1},
        "out": {"none": 1, "shift": 1},
        "return": {"across": 1},
        "shift": {"none": 1},
        "orbit": {"return": 1},
    },
    "formation": {
        "2x2": {"stack": 1},
        "3x1": {"trips": 2, "bunch": 1},
        "trips": {"3x1": 2, "bunch": 1},
        "bunch": {"trips": 1},
    },
    "tempo": {"huddle": {"no-huddle": 1}, "no-huddle": {"huddle": 2, "hurry": 1}},
    "route": {
        "dig": {"in": 1, "over": 1},
        "over": {"dig": 1, "drag": 1},
        "sail": {"corner": 1, "deep-out": 1},
        "corner": {"sail": 1},
        "post": {"skinny-post": 1},
        "skinny-post": {"post": 1, "seam": 1},
        "glance": {"slant": 1, "skinny-post": 1},
        "hitch": {"curl": 1},
        "stick": {"option": 1, "hitch": 1},
        "out": {"flat": 1},
        "check": {"angle": 1},
        "shallow": {"drag": 1},
    },
    "pressure-from": {
        "left": {"free": 1},
        "right": {"free": 1},
        "middle": {"left": 1, "right": 1},
        "free": {"left": 1, "right": 1},
    },
    "pressure-call": {"none": {"creeper": 1}, "creeper": {"none": 1}, "simulated": {"creeper": 1, "none": 1}},
    "mark": {"-": {"0": 1}, "0": {"-": 1, "+": 1}, "+": {"0": 1}},
}

# Of the snaps that have the field, how many the second charter sees otherwise.
PARTS = {
    "placement": 0.08,
    "timing": 0.16,
    "base": 0.07,
    "pressure": 0.10,
    "coverage": 0.20,
    "window": 0.19,
    "eyes": 0.25,
    "launch": 0.08,
    "shell": 0.09,
    "front": 0.20,
    "protection": 0.16,
    "drop": 0.16,
    "target": 0.12,
    "side": 0.12,
    "motion": 0.14,
    "formation": 0.18,
    "tempo": 0.10,
    "route": 0.18,
    "pressure-from": 0.2,
    "pressure-call": 0.03,
    "mark": 0.16,
}

# And how many he leaves blank.
BLANKS = {"window": 0.06, "eyes": 0.14, "throw-time": 0.10, "side": 0.03, "protection": 0.12, "hash": 0.02}

NUMBERS = {"depth": 0.17, "read": 0.24, "box": 0.18, "rushers": 0.07, "protectors": 0.13}
FIRST_CHART_ONLY = ("in", "out", "note")


def again(row, dice):
    seen = {name: value for name, value in row.items() if name not in FIRST_CHART_ONLY}
    for name, share in PARTS.items():
        others = NEIGHBOURS[name].get(row.get(name))
        if others and dice.chance(share):
            seen[name] = dice.pick(others)
    for name, share in NUMBERS.items():
        if name in row and dice.chance(share):
            seen[name] = off_by_one(name, row, dice)
    if "throw-time" in row and dice.chance(0.6):
        seen["throw-time"] = round(row["throw-time"] + dice.pick({0.1: 3, -0.1: 3, 0.2: 1, -0.2: 1}), 1)
    for name, share in BLANKS.items():
        if name in seen and dice.chance(share):
            del seen[name]
    if row.get("risk") == "yes" and dice.chance(0.12):
        del seen["risk"]
    elif "placement" in row and row.get("window") != "open" and dice.chance(0.03):
        seen["risk"] = "yes"
    settled = settle(row, seen)
    if settled.get("pressure") in ("hurry", "hit") and "pressure-from" not in settled:
        settled["pressure-from"] = dice.pick({"left": 3, "right": 3, "middle": 2})
    return settled


def off_by_one(name, row, dice):
    value = row[name] + dice.pick({1: 1, -1: 1})
    low, high = {"read": (0, 4), "protectors": (5, 7), "rushers": (3, 6)}.get(name, (-9, 70))
    if name == "depth" and row["result"] == "complete":
        high = row["gain"]
    return max(low, min(high, value))


def settle(row, seen):
    """Takes back what cannot stand together: he would have seen it too."""
    if row["result"] == "complete" and seen.get("placement") == "away":
        seen["placement"] = row["placement"]
    if row["result"] == "sack" or seen.get("pressure-call") != "none":
        for name in ("pressure", "rushers"):
            if name in row:
                seen[name] = row[name]
    if seen.get("drop") == "0" or seen.get("timing") == "early":
        for name in ("read", "timing"):
            if name in row:
                seen[name] = row[name]
    if seen.get("pressure") == "none" and seen.get("result") != "sack":
        seen.pop("pressure-from", None)
    if seen.get("coverage") in ("0", "3-fire", "prevent") and "rushers" in row:
        seen["rushers"] = row["rushers"]
    return seen


def chart(rows, seed):
    dice = Dice(seed)
    return [again(row, dice) for row in rows]
