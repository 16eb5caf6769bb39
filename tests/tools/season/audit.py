#!/usr/bin/env python3
"""Checks that the snaps of a dossier follow from one another as on a real field, and prints what does not.

    audit.py DOSSIER...

The rules are those of the game and of charting practice: where the ball must lie after a gain, which down comes next,
what cannot stand together on one snap. Prints nothing and exits 0 when all holds."""

import sys
import xml.etree.ElementTree as ElementTree

sys.dont_write_bytecode = True  # the modules beside this one leave no folder behind

from counting import seconds, spot_value

THROWN = ("complete", "incomplete", "intercepted")
THROW_FIELDS = ("target", "route", "depth", "side", "placement", "read", "base", "timing")
TWO_HIGH = ("2", "2-middle", "2-man", "2-read", "4", "4-match", "6")


def together(snap):
    """What of one snap cannot stand together."""
    get = snap.get
    result, play = get("result"), get("play")
    to_goal = spot_value(get("spot")) if get("spot") else None
    gain = int(get("gain")) if get("gain") else None
    depth = int(get("depth")) if get("depth") else None
    down_play = play != "try"
    yield "no spot", down_play and to_goal is None
    yield "no gain", gain is None and result not in ("intercepted", "no-play")
    yield "a gain", gain is not None and result in ("intercepted", "no-play")
    yield "why of a catch", result != "incomplete" and get("why") is not None
    yield "no why", result == "incomplete" and get("why") is None
    yield "caught where nobody reaches", result == "complete" and get("placement") == "away"
    yield "caught past the gain", result == "complete" and (depth is None or gain < depth)
    yield "incomplete with a gain", result == "incomplete" and gain != 0
    yield "touchdown without the goal", down_play and (get("touchdown") == "yes") != (
        gain is not None and gain == to_goal
    )
    yield "gain past the goal", down_play and gain is not None and gain > to_goal
    yield "behind his own goal", down_play and gain is not None and to_goal - gain >= 100
    yield "no throw, but charted", result not in THROWN and any(get(name) for name in THROW_FIELDS)
    yield "thrown without", result in THROWN and any(get(name) is None for name in ("read", "timing"))
    yield "no depth", result in THROWN and (depth is None) != (get("why") == "thrown-away")
    judged = result in THROWN and get("why") not in ("batted", "thrown-away", "hit-as-thrown", "mixed-up")
    yield "placement", judged != (get("placement") is not None)
    yield "sack that gains", result == "sack" and gain > 0
    yield "sack without pressure", result == "sack" and get("pressure") == "none" and get(
        "pressure-from"
    ) != "held-it"
    yield "pressure from nowhere", get("pressure") in ("hurry", "hit") and get("pressure-from") is None
    yield "run on a pass", play in ("pass", "play-action") and result == "run"
    yield "spike on fourth down", result == "spike" and get("down") == "4"
    yield "late look with no drop", get("drop") == "0" and int(get("read") or 0) >= 2
    yield "early on a late look", get("timing") == "early" and int(get("read") or 0) >= 4
    yield from call(snap)
    yield from distance(snap, to_goal)


def call(snap):
    get = snap.get
    personnel, rushers = get("personnel"), int(get("rushers") or 4)
    backs = int(personnel[0]) if personnel else 1
    yield "six eligible", personnel is not None and backs + int(personnel[1]) > 5
    yield "two backs wanted", get("formation") in ("i", "split", "2x1") and backs < 2
    yield "empty with a back", get("formation") == "empty" and backs > 0
    yield "cover 0 with three", get("coverage") == "0" and rushers <= 3
    yield "prevent with five", get("coverage") == "prevent" and rushers >= 5
    yield "four wanted", get("pressure-call") in ("simulated", "creeper") and rushers != 4
    yield "five wanted", get("pressure-call") in ("blitz", "fire", "overload") and rushers < 5
    yield "two high from none", get("coverage") in TWO_HIGH and get("shell") == "0-high"


def distance(snap, to_goal):
    if snap.get("down") is None:
        return
    text = snap.get("distance")
    yield "goal from afar", text == "goal" and to_goal > 10
    yield "goal not said", text != "goal" and float(text) == to_goal and to_goal <= 10
    yield "past the goal", text != "goal" and float(text) > to_goal


def to_go(snap):
    text = snap.get("distance")
    return spot_value(snap.get("spot")) if text == "goal" else float(text)


def follows(before, after):
    """What of `after`, the next snap of the same drive, does not follow from `before`."""
    spot, down, go = spot_value(before.get("spot")), int(before.get("down")), to_go(before)
    next_spot, next_down, next_go = spot_value(after.get("spot")), int(after.get("down")), to_go(after)
    if before.get("result") == "no-play":
        yards = float(before.get("penalty-yards"))
        there = spot + yards if before.get("penalty") == "offence" else spot - yards
        yield "spot after a penalty", next_spot != there
        first = before.get("penalty") == "defence" and (yards == 15 or yards >= go)
        yield "down after a penalty", next_down != (1 if first else down)
        return
    gain = float(before.get("gain") or 0)
    yield "drive goes on", before.get("result") == "intercepted" or before.get("fumble") == "lost" or gain == spot
    yield f"spot is {next_spot:g}, not {spot - gain:g}", next_spot != spot - gain
    if gain >= go:
        yield "first down", next_down != 1 or next_go != min(10, next_spot)
    else:
        yield f"down {next_down} and {next_go:g} after {down} and {go:g} with {gain:g}", (next_down, next_go) != (
            down + 1,
            go - gain,
        )


def clock(before, after):
    quarter, then = int(before.get("quarter")), int(after.get("quarter"))
    yield "quarter runs back", then < quarter
    if quarter != then:
        return
    gap = seconds(before.get("clock")) - seconds(after.get("clock"))
    yield "clock rises", gap < 0
    if int(after.get("n")) == int(before.get("n")) + 1 and after.get("drive") == before.get("drive"):
        yield f"{gap:g} seconds between snaps", gap > 50
        if before.get("result") in ("incomplete", "spike"):
            yield f"{gap:g} seconds after a dead ball", gap > 9


def pairs(snaps):
    for before, after in zip(snaps, snaps[1:]):
        yield "numbers", int(after.get("n")) <= int(before.get("n")), after
        yield "drives", int(after.get("drive")) < int(before.get("drive")), after
        filmed = after.get("in") and before.get("out")
        yield "film", filmed and seconds(after.get("in")) < seconds(before.get("out")), after
        for what, wrong in clock(before, after):
            yield what, wrong, after
        same = before.get("drive") == after.get("drive") and int(after.get("n")) == int(before.get("n")) + 1
        if same and before.get("play") != "try" and after.get("play") != "try":
            for what, wrong in follows(before, after):
                yield what, wrong, after
        if same and before.get("margin") != after.get("margin") and after.get("play") != "try":
            yield "score changed inside a drive", True, after


def problems(path):
    for game in ElementTree.parse(path).getroot().findall("game"):
        for chart in game.findall("chart"):
            snaps = chart.findall("snap")
            for snap in snaps:
                yield from (f"{game.get('id')}.{snap.get('n')}: {what}" for what, wrong in together(snap) if wrong)
            yield from (f"{game.get('id')}.{snap.get('n')}: {what}" for what, wrong, snap in pairs(snaps) if wrong)


def main():
    found = [f"{path}: {problem}" for path in sys.argv[1:] for problem in problems(path)]
    print("\n".join(found), end="\n" if found else "")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
