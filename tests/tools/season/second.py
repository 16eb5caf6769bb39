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
    "personnel": {"11": {"12": 2, "21": 1}, "12": {"11": 2, "13": 1}, "21": {"12": 1}, "10": {"11": 1}},
    "backfield": {"gun": {"pistol": 1}, "pistol": {"gun": 1}},
    "sub": {"nickel": {"dime": 2, "base": 1}, "dime": {"nickel": 1}, "base": {"nickel": 1}},
    "hash": {"L": {"M": 1}, "M": {"L": 1, "R": 1}, "R": {"M": 1}},
    "why": {"dropped": {"broken-up": 1}, "broken-up": {"dropped": 1, "off": 1}, "off": {"mixed-up": 1}},
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
    "launch": 0.11,
    "shell": 0.11,
    "front": 0.20,
    "protection": 0.2,
    "drop": 0.16,
    "target": 0.16,
    "side": 0.12,
    "motion": 0.14,
    "formation": 0.18,
    "personnel": 0.07,
    "backfield": 0.09,
    "sub": 0.13,
    "hash": 0.09,
    "why": 0.12,
    "tempo": 0.12,
    "route": 0.18,
    "pressure-from": 0.2,
    "pressure-call": 0.03,
    "mark": 0.16,
}

# And how many he leaves blank.
BLANKS = {"window": 0.06, "eyes": 0.14, "throw-time": 0.10, "side": 0.03, "protection": 0.12, "hash": 0.02}

NUMBERS = {"depth": 0.17, "read": 0.24, "box": 0.18, "rushers": 0.07, "protectors": 0.17}
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
    if seen.get("formation") in ("i", "split", "2x1", "heavy", "empty", "wing"):
        seen["personnel"] = row["personnel"]
    if seen.get("pressure-call") != row.get("pressure-call") and seen.get("rushers") != 4:
        for name in ("pressure-call", "rushers"):
            seen[name] = row[name]
    if seen.get("why") == "mixed-up":
        seen.pop("placement", None)
        seen.pop("window", None)
    if seen.get("coverage") in ("0", "3-fire", "prevent") and "rushers" in row:
        seen["rushers"] = row["rushers"]
    return seen


def chart(rows, seed):
    dice = Dice(seed)
    return [again(row, dice) for row in rows]


# Any position: judged fields, and of how many snaps the second charter says otherwise. The rest everybody can count.
JUDGED = {
    "personnel": 0.05,
    "backfield": 0.05,
    "sub": 0.08,
    "hash": 0.04,
    "motion": 0.10,
    "drop": 0.10,
    "protection": 0.12,
    "route": 0.12,
    "opponent": 0.05,
    "leverage": 0.15,
    "assign": 0.08,
    "stance": 0.05,
    "where": 0.02,
    "run-to": 0.10,
    "launch": 0.10,
    "target": 0.12,
    "side": 0.08,
    "tempo": 0.10,
    "protectors": 0.12,
    "open": 0.17,
    "cushion": 0.08,
    "release": 0.15,
    "contested": 0.12,
    "hands": 0.12,
    "align": 0.04,
    "from": 0.09,
    "speed": 0.2,
    "lane": 0.13,
    "cut": 0.14,
    "choice": 0.08,
    "finish": 0.15,
    "task": 0.12,
    "faced": 0.15,
    "strike": 0.22,
    "kick": 0.14,
    "feet": 0.18,
    "point": 0.12,
    "sustain": 0.17,
    "run-rep": 0.15,
    "moved": 0.16,
    "over": 0.06,
    "pads": 0.22,
    "move": 0.16,
    "blocked": 0.09,
    "get-off": 0.17,
    "second": 0.08,
    "lane-kept": 0.05,
    "key": 0.09,
    "met": 0.11,
    "take-on": 0.13,
    "shed": 0.15,
    "gap-kept": 0.07,
    "edge": 0.10,
    "tech": 0.09,
    "chase": 0.18,
    "trigger": 0.20,
    "step": 0.10,
    "drop-to": 0.14,
    "spot-on": 0.06,
    "duty": 0.08,
    "phase": 0.15,
    "turn": 0.16,
    "hips": 0.20,
    "jam": 0.12,
    "find": 0.12,
    "angle": 0.15,
    "range": 0.12,
    "coverage": 0.15,
    "shell": 0.06,
    "front": 0.12,
    "box": 0.15,
    "mark": 0.15,
    "formation": 0.08,
    "base": 0.07,
    "timing": 0.15,
    "placement": 0.09,
    "pressure": 0.09,
    "window": 0.18,
    "eyes": 0.24,
    "read": 0.18,
}
SETTLED = {"faced": "free", "opponent": "none", "blocked": "free", "met": "none"}  # a value that nobody mistakes


def chart_of(of, rows, seed):
    import chart as charts

    dice = Dice(f"{seed} again")
    seen = [dict(row) for row in rows]
    for name, share in sorted(JUDGED.items()):
        field = of.fields.get(name)
        if (
            field is None
            or field.tag == "derived"
            or field.get("type") == "yes-no"
            and name not in ("contested", "second", "gap-kept")
        ):
            continue
        usual = usage(rows, name)
        for row in seen:
            if name in row and fixed(row, name) is False and dice.chance(share):
                row[name] = other(of, name, row[name], usual, dice)
    for row in seen:
        for name in ("in", "out", "note"):
            row.pop(name, None)
        for name in ("strike", "hips", "get-off", "leverage", "feet", "chase", "pads"):
            if name in row and dice.chance(0.06):
                del row[name]
    return [charts.keep(of, row) for row in seen]


def usage(rows, name):
    counts = {}
    for row in rows:
        if name in row:
            counts[row[name]] = counts.get(row[name], 0) + 1
    return counts


def fixed(row, name):
    """What hangs on the play's end is not seen otherwise."""
    if name in ("pressure", "placement"):
        return row.get("result") in ("sack", "complete") or "pressure-call" in row and row["pressure-call"] != "none"
    if name in ("timing", "read"):
        return row.get("drop") == "0" or row.get("timing") == "early" or row.get("read", 0) >= 3
    return name == "move" and row.get("blocked") == "free" or row.get(name) == SETTLED.get(name)


def other(of, name, value, usual, dice):
    field = of.fields[name]
    if field.get("type") == "number":
        return max(int(float(field.get("low"))), value + dice.pick({1: 1, -1: 1}))
    if name in NEIGHBOURS and value in NEIGHBOURS[name]:
        return dice.pick(NEIGHBOURS[name][value])
    known = [choice.get("id") for choice in field.element.findall("value")] or ["no", "yes"]
    if field.get("type") == "ordered":
        at = known.index(str(value))
        return dice.pick({known[near]: 1 for near in (at - 1, at + 1) if 0 <= near < len(known)})
    weights = {choice: usual.get(choice, 0.2) for choice in known if choice not in (str(value), SETTLED.get(name))}
    return dice.pick(weights) if sum(weights.values()) > 0.5 else value
