"""Runners, receivers and tight ends."""

from blocking import pass_block, run_block
from charter import strip_throw
from routes import ROUTES

BACK_ROUTES = {"check": 5, "flat": 4, "swing": 3, "angle": 2, "wheel": 1}
OPEN = {
    "closed": {"covered": 6, "arm": 4},
    "closing": {"covered": 1, "arm": 5, "step": 4},
    "open": {"arm": 1, "step": 6, "clear": 4},
}
BREAKS = {
    "in": "slant glance in dig over drag shallow spot".split(),
    "out": "out deep-out comeback corner sail flat".split(),
    "vertical": "go fade seam wheel post skinny-post double".split(),
}


def break_of(route):
    for name, routes in BREAKS.items():
        if route in routes:
            return name
    return "settle"


def family(chart):
    from picture import FAMILY

    coverage = chart.snap.get("coverage")
    if coverage in ("2-read", "3-match", "4-match"):
        return "match"
    return FAMILY.get(coverage, "zone")


def back(chart):
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    if snap["play"] in ("kneel", "spike") or snap["personnel"][0] == "0":
        return None
    if chart.is_run():
        strip_throw(row)
        if snap["_carrier"] == "RB":
            return carry(chart) if dice.chance(man.share) else None
        row["job"] = dice.pick({"fake": 2, "lead": 1})
        return chart.mark(False, False) if dice.chance(0.5) else None
    mine = snap.get("target") == "RB" and chart.thrown()
    if not dice.chance(0.8 if mine else man.share * 0.85):
        return None
    if mine:
        return route(chart, True)
    if snap["play"] == "play-action" and dice.chance(0.45):
        strip_throw(row)
        row["job"] = "fake"
        return chart.mark(False, False)
    if snap.get("protectors", 5) > 5 and dice.chance(0.75):
        lost = (
            chart.pressed() and snap.get("pressure-from") in ("free", "middle", "left", "right") and dice.chance(0.22)
        )
        opponents = {"backer": 6, "edge": 1.5, "back": 1.5, "none": 2 if snap["rushers"] <= 4 else 0.4}
        pass_block(chart, lost, opponents)
        strip_throw(row)
        return row
    return route(chart, False)


def carry(chart):
    row, dice, snap = chart.row, chart.dice, chart.snap
    row["job"] = "carry"
    for name in ("to", "gap", "lane", "beat"):
        row[name] = snap[name]
    gain = snap.get("gain", 2)
    contact = snap.get("contact", 1)
    if snap["lane"] == "shut" and chart.good(-0.3, "own"):
        contact = min(contact, gain - dice.whole(1, 3))
    row["contact"] = max(-8, min(contact, gain))
    row["fumble"] = snap.get("fumble", "none")
    cuts = {"as-blocked": 6, "bend": 2, "cutback": 1.5, "bounce": 1.2 if snap["lane"] != "shut" else 2.5}
    row["cut"] = dice.pick(cuts)
    right = 1.5 + (0.5 if gain >= 4 else -0.4) - (0.9 if row["cut"] == "bounce" else 0)
    row["choice"] = "right" if chart.good(right, "choice") else "wrong"
    past = gain - row["contact"]
    row["finish"] = dice.pick({"back": 3, "stopped": 4, "forward": 1} if past <= 0 else {"stopped": 3, "forward": 5})
    strong = snap["beat"] >= 1 or past >= 4 or (snap["lane"] == "shut" and gain >= 3)
    return chart.mark(strong, row["choice"] == "wrong" or row["fumble"] != "none", 0.7)


def route(chart, targeted):
    """A back's own route."""
    row, dice, snap = chart.row, chart.dice, chart.snap
    row.update({"job": "route", "align": dice.pick({"backfield": 8, "slot": 1, "wide": 0.7})})
    run = snap["route"] if targeted else dice.pick(BACK_ROUTES)
    finish_route(chart, run, targeted)
    return row


def finish_route(chart, run, targeted):
    """Route, openness and what came of the ball."""
    row, dice, snap = chart.row, chart.dice, chart.snap
    depth, side = snap.get("depth"), snap.get("side")
    why = snap.get("why")
    gone = why in ("batted", "hit-as-thrown", "thrown-away")
    targeted = targeted and not gone and "window" in snap or targeted and why == "mixed-up"
    strip_throw(row)
    row["route"] = run
    row["targeted"] = "yes" if targeted else "no"
    if targeted:
        row["depth"], row["side"] = depth, side
    opened(chart, targeted)
    if why == "mixed-up" and targeted:
        row["choice"] = "wrong"
    elif run == "option":
        row["choice"] = "right" if chart.good(1.6, "option") else "wrong"
    if targeted:
        caught(chart)
    good = (
        row["open"] == "clear"
        or row.get("catch") == "caught"
        and row.get("contested") == "yes"
        or row.get("beat", 0) > 0
    )
    bad = row.get("catch") == "dropped" or row["open"] == "covered" and dice.chance(0.35)
    chart.mark(good, bad, 0.6)


def opened(chart, targeted):
    row, dice, snap = chart.row, chart.dice, chart.snap
    where, seen = row.get("align"), family(chart)
    keys = ("open", seen, where, break_of(row["route"]))
    if targeted and "window" in snap:
        row["open"] = dice.pick(OPEN[snap["window"]])
    elif chart.good(0.0, *keys):
        row["open"] = dice.pick({"step": 5, "clear": 2.5})
    else:
        row["open"] = dice.pick({"arm": 5, "covered": 4})
    if where == "backfield":
        return
    free = row["open"] in ("step", "clear")
    weights = {"press": 4 if where == "wide" else 2, "off": 6, "bail": 1.2}
    if seen in ("man", None):
        weights["press"] *= 2.2
    row["cushion"] = chart.given(weights, lambda how: chart.odds(-0.2 if how == "press" else 0.2, how), free)
    row["leverage"] = dice.pick({"inside": 4, "outside": 4, "head-up": 1})
    if row["cushion"] == "press":
        release = {"clean": 6, "fought": 3, "stuck": 0.6} if free else {"clean": 2, "fought": 4, "stuck": 3}
        row["release"] = dice.pick(release)
    if break_of(row["route"]) == "vertical":
        row["stacked"] = "yes" if free and chart.good(0.4, "stack") else "no"


def caught(chart):
    row, dice, snap = chart.row, chart.dice, chart.snap
    why = snap.get("why")
    if chart.was == "complete":
        row["catch"], row["reachable"] = "caught", "yes"
    elif chart.was == "intercepted":
        row["catch"] = "intercepted"
        row["reachable"] = "yes" if dice.chance(0.3) else "no"
    elif why == "dropped":
        row["catch"], row["reachable"] = "dropped", "yes"
    elif why == "broken-up":
        row["catch"] = "broken-up"
        row["reachable"] = "yes" if dice.chance(0.7) else "no"
    else:
        row["catch"], row["reachable"] = "off", "no"
    if snap["result"] == "no-play":
        row["catch"] = row["catch"] if row["catch"] != "intercepted" else "off"
    tight = snap.get("window") in ("closed", "closing")
    held = row["catch"] == "caught"
    if row["catch"] == "broken-up":
        row["contested"] = "yes"
    else:
        weights = {"yes": 5 if tight else 0.4, "no": 2 if tight else 9}
        row["contested"] = chart.given(
            weights, lambda how: chart.odds(0.6, "contested" if how == "yes" else ""), held
        )
    if row["catch"] in ("caught", "dropped"):
        row["hands"] = dice.pick({"hands": 7, "body": 2.5, "one": 0.4})
    if held and "gain" in snap:
        row["after"] = snap["gain"] - snap["depth"]
        row["beat"] = 0
        while row["after"] >= 3 and row["beat"] < 3 and dice.chance(0.3):
            row["beat"] += 1
    row["track"] = dice.pick(
        {"easy": 8, "adjusted": 1}
        if snap.get("placement") == "on"
        else {"adjusted": 5, "easy": 2, "over-shoulder": 0.5}
    )
    if row["depth"] >= 18:
        row["track"] = dice.pick({"over-shoulder": 5, "adjusted": 2})


def run_by(chart, align, targeted):
    """The route he ran: the throw's own, or one that fits where he stood."""
    if targeted:
        return chart.snap["route"]
    who = {"wide": "WR", "slot": "slot", "inline": "TE", "wing": "TE"}[align]
    weights = {
        route.name: route.weight * (1.5 if route.low >= 10 else 1)
        for route in ROUTES
        if who in route.who and not (route.low > 12 and chart.snap.get("drop") in ("0", "1"))
    }
    return chart.dice.pick(weights)


def receiver(chart):
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    if snap["play"] in ("kneel", "spike"):
        return None
    receivers = 5 - int(snap["personnel"][0]) - int(snap["personnel"][1])
    if receivers <= 1 or not dice.chance(man.share):
        return None
    row["align"] = "slot" if receivers >= 3 and dice.chance(0.75 if man.spot == "slot" else 0.2) else "wide"
    if chart.is_run():
        strip_throw(row)
        if snap["_carrier"] == "WR" and man.spot == "slot" and dice.chance(0.6):
            row["job"] = "carry"
            return chart.mark(snap.get("gain", 0) >= 8, False)
        row["speed"] = dice.pick({"jogged": 3, "even": 4, "full": 3})
        run_block(
            chart, dice.pick({"stalk": 8, "cut-off": 1, "climb": 1}), dice.pick({"at": 1, "near": 2, "away": 4})
        )
        row.pop("moved", None)
        return row
    hit = snap.get("target") in ("WR", "slot") and chart.thrown() and dice.chance(0.5)
    row["job"] = "route"
    if hit:
        row["align"] = "slot" if snap["target"] == "slot" else "wide"
    finish_route(chart, run_by(chart, row["align"], hit), hit)
    if row["targeted"] == "no":
        row["speed"] = dice.pick({"jogged": 1 if chart.good(1.0, "speed") else 5, "even": 4, "full": 5})
    return row


def end(chart):
    """Tight end: routes, blocks on the line and away from it, and help in protection."""
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    if snap["play"] in ("kneel", "spike") or snap["personnel"][1] == "0" or not dice.chance(man.share):
        return None
    row["from"] = dice.pick({"inline": 5, "wing": 1.5, "slot": 3 if man.spot == "slot" else 1.5, "wide": 0.5})
    if chart.is_run():
        strip_throw(row)
        scheme = row["scheme"]
        jobs = {"down": 3, "base": 3, "climb": 2, "double": 2, "cut-off": 2}
        if scheme in ("split-zone", "power"):
            jobs["kick-out"] = 8
        if scheme == "counter":
            jobs["pull"] = 5
        if row["from"] in ("slot", "wide"):
            jobs = {"stalk": 4, "climb": 3, "cut-off": 1}
        return run_block(chart, dice.pick(jobs), dice.pick({"at": 3, "near": 3, "away": 3}))
    hit = snap.get("target") == "TE" and chart.thrown() and dice.chance(0.85)
    if not hit and snap.get("protectors", 5) > 5 and dice.chance(0.4):
        lost = chart.pressed() and snap.get("pressure-from") in ("left", "right") and dice.chance(0.2)
        pass_block(chart, lost, {"edge": 6, "backer": 3, "none": 1})
        strip_throw(row)
        return row
    row["job"] = "chip-release" if not hit and row["from"] == "inline" and dice.chance(0.08) else "route"
    if row["job"] == "chip-release":
        strip_throw(row)
        return chart.mark(False, False)
    align = "inline" if row["from"] == "inline" else row["from"]
    row["align"] = align
    finish_route(chart, run_by(chart, align, hit), hit)
    return row
