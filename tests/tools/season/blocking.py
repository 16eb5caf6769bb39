"""Blocks: pass protection and run blocking, for the line, tight ends and backs."""

from charter import strip_throw

FACED = {
    "edge": {"speed": 5, "power": 3, "inside": 2, "spin": 1, "long": 2, "stunt": 1.2},
    "inside": {"power": 5, "long": 2, "speed": 1.5, "inside": 1, "spin": 0.7, "stunt": 2},
    "backer": {"power": 3, "speed": 3, "inside": 1},
    "back": {"speed": 4, "inside": 1},
}
MINE = {  # how likely a pressure from there is this man's
    ("tackle", "left"): {"left": 0.6, "free": 0.08, "middle": 0.05},
    ("tackle", "right"): {"right": 0.6, "free": 0.08, "middle": 0.05},
    ("interior-line", "left"): {"middle": 0.36, "left": 0.12, "free": 0.08},
    ("interior-line", "centre"): {"middle": 0.34, "free": 0.1},
    ("interior-line", "right"): {"middle": 0.36, "right": 0.12, "free": 0.08},
}
ASSIGN = {
    "zone": {"base": 3, "reach": 5, "double": 4, "climb": 3, "cut-off": 3},
    "gap": {"down": 5, "double": 5, "base": 3, "climb": 2, "cut-off": 1.5},
    "wide": {"reach": 6, "down": 2, "climb": 2, "cut-off": 2},
    "other": {"base": 6, "double": 3, "climb": 2},
}
PULLS = {"power": "guard", "counter": "both", "trap": "guard", "pin-pull": "both", "sweep": "both"}
TECHNIQUES = {"left": {"2": 2, "2i": 3, "3": 5, "4i": 2, "1": 1}, "centre": {"0": 4, "1": 4, "2i": 1}}
FRONTS = {"odd": 1, "tite": 1, "stack": 1, "bear": 1}


def pass_block(chart, mine, opponents):
    """The rep: `mine` is whether a pressure on this play was his to stop."""
    row, dice, snap = chart.row, chart.dice, chart.snap
    row["job"] = "pass-block"
    row["opponent"] = dice.pick(opponents)
    if row["opponent"] == "none":
        row["task"], row["faced"], row["allowed"] = dice.pick({"scan": 3, "slide": 4, "double": 2}), "none", "none"
        return chart.mark(False, False)
    lost = mine or not chart.good(3.1, "rep", "opp-" + row["opponent"])
    faced = FACED.get(row["opponent"], FACED["inside"])
    row["faced"] = chart.given(faced, lambda move: 1 - chart.odds(2.0, move), lost)
    tasks = {"man": 6, "slide": 3, "double": 1.6, "chip": 0.05}
    if row.get("protection") == "man":
        tasks["man"] = 12
    row["task"] = chart.given(tasks, lambda task: 1 - chart.odds(1.8 if task == "man" else 2.8, task), lost)
    if lost:
        row["rep"] = "lost"
        row["strike"] = dice.pick({"late": 5, "even": 3, "first": 1})
        ways = {"speed": "outside", "inside": "inside", "spin": "inside", "stunt": "inside"}
        likely = ways.get(row["faced"], "through")
        row["lost-to"] = likely if dice.chance(0.75) else dice.pick({"inside": 1, "outside": 1, "through": 1})
        row["allowed"] = _allowed(chart, mine)
        row["held"] = round(min(5.5, max(1.2, snap.get("throw-time", 2.9) - dice.between(0, 0.7))), 1)
    else:
        row["rep"] = "won" if chart.good(-0.5, "rep", row["faced"]) else "even"
        row["strike"] = dice.pick({"late": 1, "even": 4, "first": 4})
        row["allowed"] = "none"
    return chart.mark(row["rep"] == "won", row["allowed"] in ("hit", "sack") or lost and dice.chance(0.6), 0.45)


def _allowed(chart, mine):
    if not mine:
        return "none"
    if chart.was == "sack":
        return "sack" if chart.snap["result"] == "sack" and chart.dice.chance(0.85) else "hurry"
    return chart.snap.get("pressure", "hurry")


def run_block(chart, assign, point):
    row, dice, snap = chart.row, chart.dice, chart.snap
    row.update({"job": "run-block", "assign": assign, "point": point})
    moving = assign in ("pull", "climb", "kick-out")
    row["landed"] = "yes" if chart.good(1.5 if moving else 2.4, "landed", "moving" if moving else "") else "no"
    if row["landed"] == "no":
        row["run-rep"] = "lost" if dice.chance(0.7) else "even"
        return chart.mark(False, row["run-rep"] == "lost", 0.5)
    won = -0.75 + (0.7 if snap.get("lane") != "shut" else -0.4) * (1 if point == "at" else 0.4)
    if chart.good(won, "run", "moving" if moving else "", point, "nose" if row.get("over") in ("0", "1") else ""):
        row["run-rep"] = "won"
        row["moved"] = dice.pick({"displaced": 6, "finished": 1.5, "stalemate": 2})
        row["sustain"] = dice.pick({"through": 7, "brief": 2})
    else:
        row["run-rep"] = "lost" if chart.dice.chance(0.3) else "even"
        row["moved"] = dice.pick({"stalemate": 6, "back": 3 if row["run-rep"] == "lost" else 0.5, "displaced": 1})
        row["sustain"] = dice.pick({"through": 3, "brief": 4, "off": 4 if row["run-rep"] == "lost" else 1})
    row["strike"] = dice.pick({"late": 2, "even": 4, "first": 4 if row["run-rep"] == "won" else 1.5})
    return chart.mark(row["run-rep"] == "won" and row.get("moved") != "stalemate", row["run-rep"] == "lost", 0.6)


def family(scheme):
    from run import FAMILY

    return FAMILY.get(scheme, "other")


def line(chart):
    """Tackle, guard and centre: on nearly every snap."""
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    if snap["play"] in ("kneel", "spike") or not dice.chance(man.share):
        return None
    row["where"] = man.spot or man.side
    tackle = man.profile == "tackle"
    pressure = snap.get("pressure-from")
    if not tackle:
        interior(chart)
    if chart.is_run():
        strip_throw(row)
        assign, point = line_assignment(chart, tackle)
        run_block(chart, assign, point)
        if not tackle:
            row["pads"] = dice.pick({"high": 2, "even": 4, "low": 4 if row["run-rep"] == "won" else 2})
    elif snap["play"] == "screen":
        row["job"] = "screen"
        chart.mark(False, False)
    else:
        line_protects(chart, tackle, pressure)
    strip_throw(row)
    flag(chart)
    return row


def line_protects(chart, tackle, pressure):
    man, row, dice = chart.man, chart.row, chart.dice
    share = MINE[(man.profile, row["where"])].get(pressure, 0) if chart.pressed() else 0
    mine = dice.chance(share * (1.6 - chart.odds(0.4, "rep")))
    opponents = (
        {"edge": 12, "inside": 1.5, "backer": 1, "none": 0.8} if tackle else {"inside": 9, "backer": 2.2, "none": 2}
    )
    pass_block(chart, mine, opponents)
    if not tackle:
        return
    row["kick"] = dice.pick({"vertical": 5, "angle": 5, "jump": 1.6, "slide": 1})
    bad = row.get("rep") == "lost"
    row["feet"] = dice.pick(
        {"crossed": 3, "heavy": 3, "clean": 2} if bad else {"crossed": 0.6, "heavy": 2, "clean": 7}
    )
    if row.get("rep") in ("lost", "even"):
        row["recover"] = "yes" if row["rep"] == "even" and dice.chance(0.35) else "no"


def interior(chart):
    row, dice, man = chart.row, chart.dice, chart.man
    techniques = dict(TECHNIQUES["centre" if row["where"] == "centre" else "left"])
    odd = row.get("front") in FRONTS
    if row["where"] == "centre":
        techniques["0"] = 9 if odd else 1
        techniques["off"] = 1 if odd else 3
    else:
        techniques["off"] = 5 if odd else 1.5
    row["over"] = dice.pick(techniques)
    if row["where"] == "centre":
        row["shotgun-snap"] = "off" if dice.chance(0.025) else "good"
        row["calls"] = "right" if chart.good(3.0, "calls") else "wrong"


def line_assignment(chart, tackle):
    row, dice = chart.row, chart.dice
    scheme = row["scheme"]
    pulls = PULLS.get(scheme)
    backside = row["to"] != row["where"] and row["where"] != "centre"
    assign = dice.pick(ASSIGN[family(scheme)])
    if pulls and backside and (pulls == "both" or not tackle) and dice.chance(0.85):
        assign = dice.pick({"pull": 3, "kick-out": 1})
    if assign == "pull" or assign == "kick-out":
        return assign, "at"
    if row["where"] == "centre":
        return assign, dice.pick({"at": 4, "near": 4, "away": 1})
    wide = row["gap"] in ("C", "D")
    if backside:
        return assign, dice.pick({"away": 6, "near": 2 if row["gap"] == "A" else 0.4})
    close = wide if tackle else not wide
    return assign, dice.pick({"at": 6, "near": 2}) if close else dice.pick({"near": 5, "at": 1.5})


def flag(chart):
    """The team's flag is his now and then; he is flagged for nothing that the play does not show."""
    row, dice = chart.row, chart.dice
    if row.get("penalty") == "offence" and row["result"] == "no-play" and dice.chance(0.22):
        row["flag"] = "holding"
        row["mark"] = "-"
