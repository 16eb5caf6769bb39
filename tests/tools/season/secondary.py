"""Cornerbacks and safeties."""

from backs import break_of, family
from charter import strip_throw
from fronts import _finish as finish
from fronts import coverage_phase, fit, tackle, thrown_at
from routes import ROUTES

ZONE = {
    "3": {"deep": 8, "flat": 1},
    "3-match": {"match": 6, "deep": 3},
    "3-cloud": {"flat": 4, "deep": 5},
    "3-fire": {"deep": 8},
    "2": {"flat": 8, "deep": 0.3},
    "2-middle": {"flat": 8},
    "2-read": {"match": 8},
    "4": {"deep": 8},
    "4-match": {"match": 7, "deep": 2},
    "6": {"deep": 5, "flat": 4},
    "prevent": {"deep": 8},
    "other": {"man": 3, "deep": 3},
}
WIDE = {"left": ("wide-left", "left"), "right": ("wide-right", "right")}


def corner(chart):
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    if snap["play"] in ("kneel", "spike") or not dice.chance(man.share):
        return None
    row["where"] = man.spot or man.side
    if man.spot == "slot" and not dice.chance(0.7):
        row["where"] = man.side
    if man.spot == "travels":
        row["where"] = "travels" if dice.chance(0.6) else man.side
    if chart.is_run():
        strip_throw(row)
        fit(chart)
        row["run-help"] = dice.pick({"came": 6, "waited": 2.5, "turned-down": 0.6})
        tackle(chart)
        return finish(chart, False, row["gap-kept"] == "no" and dice.chance(0.6))
    if snap["rushers"] >= 5 and dice.chance(0.05):
        strip_throw(row)
        row.update({"job": "rush", "tackle": "none"})
        return chart.mark(False, False)
    return cover_outside(chart)


def cover_outside(chart):
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    row["job"] = "cover"
    seen = family(chart)
    duty = "man" if seen == "man" else dice.pick(ZONE.get(snap["coverage"], {"deep": 1}))
    row["duty"] = duty
    slot = row["where"] == "slot"
    row["opponent"] = "slot" if slot or dice.chance(0.08) else "WR"
    his = chart.thrown() and snap.get("target") == ("slot" if row["opponent"] == "slot" else "WR")
    mine = snap.get("side") in WIDE.get(man.side, ()) or slot
    share = 0.8 if mine and not slot else 0.55 if slot else 0.05
    his = his and dice.chance(share * (0.82 - 0.06 * man.skill if chart.was == "complete" else 1.15))
    window = snap.get("window") if his else None
    base = 0.75 + {"closed": 1.4, "closing": 0.5, "open": -1.2}.get(window, 0)
    run = snap["route"] if his else faced(chart, "slot" if row["opponent"] == "slot" else "WR")
    row["phase"] = coverage_phase(
        chart, base, "cover", "in-zone" if seen != "man" else "in-man", "vs-" + break_of(run)
    )
    tight = row["phase"] in ("even", "over")
    cushions = {"press": 6, "off": 4, "bail": 1} if duty in ("man", "match") else {"press": 2.5, "off": 6, "bail": 2}
    row["cushion"] = chart.given(cushions, lambda how: chart.odds(0.4, how), tight)
    row["leverage"] = dice.pick({"inside": 5, "outside": 4, "head-up": 1})
    if row["cushion"] == "press":
        row["jam"] = dice.pick(
            {"landed": 5, "missed": 1, "none": 3} if tight else {"landed": 2, "missed": 3, "none": 3}
        )
    else:
        row["cushion-yards"] = dice.whole(3, 6) if row["cushion"] == "bail" else dice.whole(4, 9)
    row["hips"] = dice.pick({"fluid": 5, "even": 5, "stiff": 0.7} if tight else {"fluid": 2, "even": 5, "stiff": 2.5})
    if duty in ("man", "match", "deep"):
        row["turn"] = dice.pick(
            {"clean": 7, "extra": 2, "guessed": 0.5} if tight else {"clean": 3, "extra": 4, "guessed": 2}
        )
    return answered(chart, his, run)


def faced(chart, who):
    weights = {route.name: route.weight for route in ROUTES if who in route.who}
    return chart.dice.pick(weights)


def answered(chart, his, run):
    """The throw, the tackle after it, and the mark."""
    row, dice, snap = chart.row, chart.dice, chart.snap
    hit = thrown_at(chart, his)
    if hit:
        deep = "deep" if row["depth"] >= 20 else "short"
        found = chart.good(0.3 + (1.2 if row["ball"] in ("broken-up", "intercepted") else 0), "find", deep)
        row["find"] = "found" if found else dice.pick({"late": 5, "never": 3})
        if row["ball"] == "intercepted":
            row["find"] = "found"
    if snap.get("penalty") == "defence" and snap["result"] == "no-play" and hit:
        row["flag"] = dice.pick({"holding": 2, "contact": 1})
    if hit and row["ball"] == "caught" and "gain" in snap:
        tackle(chart, 0.8, True)
    else:
        tackle(chart, 0.06 if chart.was == "complete" else 0)
    depth, side = row.get("depth"), row.get("side")
    strip_throw(row)
    row["route"] = run
    if hit:
        row["depth"], row["side"] = depth, side
    made = row.get("ball") in ("broken-up", "intercepted")
    return finish(chart, made or row["phase"] == "over", row["phase"] == "beaten" or row.get("flag") is not None)


def safety(chart):
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    if snap["play"] in ("kneel", "spike") or not dice.chance(man.share):
        return None
    high = snap["shell"]
    where = {"1-high": {"deep-middle": 5, "box": 4, "slot": 1}, "2-high": {"half": 4, "quarter": 5, "slot": 1}}
    row["from"] = dice.pick(where.get(high, {"box": 4, "deep-middle": 2, "slot": 2}))
    row["calls"] = "right" if chart.good(3.0, "calls") else "wrong"
    fake = "fake" if snap["play"] in ("play-action", "rpo") else ""
    if chart.is_run():
        strip_throw(row)
        fit(chart)
        tackle(chart, 0.26 if row["from"] == "box" else 0.15)
        angle(chart)
        return finish(
            chart,
            row.get("angle") == "good" and row["tackle"] == "solo",
            row["gap-kept"] == "no" and dice.chance(0.6),
        )
    if snap["rushers"] >= 5 and row["from"] == "box" and dice.chance(0.12):
        strip_throw(row)
        row.update({"job": "rush", "tackle": "none"})
        return chart.mark(False, False)
    row["key"] = "right" if chart.good(1.5, "key", fake) else dice.pick({"late": 4, "wrong": 1.5})
    return cover_inside(chart, fake)


def angle(chart):
    row = chart.row
    if row["tackle"] == "none":
        return
    good = chart.good(0.6 + (0.8 if row["tackle"] != "missed" else -1.0), "angle")
    row["angle"] = "good" if good else chart.dice.pick({"even": 3, "bad": 2 if row["tackle"] == "missed" else 0.6})


def cover_inside(chart, fake):
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    row["job"] = "cover"
    seen = family(chart)
    deep = row["from"] in ("deep-middle", "half", "quarter")
    if seen == "man":
        row["duty"] = (
            "deep" if row["from"] == "deep-middle" else "robber" if snap["coverage"] == "1-robber" else "man"
        )
    elif seen == "match" and row["from"] in ("quarter", "slot"):
        row["duty"] = "match"
    else:
        row["duty"] = "deep" if deep else dice.pick({"under": 5, "flat": 2})
    row["opponent"] = dice.pick(
        {"slot": 5, "TE": 5, "RB": 1} if row["from"] != "half" else {"slot": 4, "TE": 2, "WR": 3}
    )
    target = snap.get("target") == row["opponent"]
    share = 0.4 if row["duty"] in ("man", "match") else 0.3 if snap.get("depth", 0) >= 14 else 0.08
    his = "target" in snap and chart.thrown() and dice.chance(share * (1.2 if target else 0.5))
    if his:
        row["opponent"] = snap["target"]
    run = snap["route"] if his else faced(chart, row["opponent"])
    base = 0.7 + {"closed": 1.2, "closing": 0.4, "open": -0.9}.get(snap.get("window") if his else None, 0)
    row["phase"] = coverage_phase(
        chart, base - (0.7 if row["key"] != "right" else 0), "cover", "on-" + row["opponent"]
    )
    if row["duty"] in ("man", "match", "deep"):
        row["turn"] = dice.pick({"clean": 7, "extra": 2, "guessed": 0.7})
    row["cushion"] = dice.pick({"press": 1, "off": 8})
    highs = {"0": 0, "1": 1, "3": 1, "2": 2, "4": 2, "6": 2}.get(snap["coverage"][0])
    if highs is not None and snap["shell"] != f"{highs}-high":
        row["shown"] = "held" if chart.good(0.8, "shown") else "gave-away"
    if his and row["duty"] == "deep":
        tight = row["phase"] in ("even", "over")
        row["range"] = dice.pick({"there": 6, "late": 2} if tight else {"there": 1, "late": 4, "out-of-it": 2})
    answered(chart, his, run)
    row.pop("find", None)
    angle(chart)
    return row
