"""Kickers, punters, long snappers and returners: every kick, charted for one man."""


def kicker(chart):
    row, dice, snap = chart.row, chart.dice, chart.snap
    if snap["kick"] == "punt":
        return None
    placed = snap["kick"] != "kickoff"
    made = snap["result"] == "good"
    if placed:
        row["snap-ok"] = "no" if snap["_bad"] and dice.chance(0.5) else "yes"
        bad_hold = {"late": 2, "laces": 3} if snap["_bad"] else {"clean": 1}
        row["hold"] = "clean" if row["snap-ok"] == "no" and dice.chance(0.4) else dice.pick(bad_hold)
        row["operation"] = round(max(1.15, dice.normal(1.31, 0.05) + (0.12 if snap["_bad"] else 0)), 2)
        row["strike"] = dice.pick(
            {"pure": 7, "thin": 1.5, "fat": 0.8} if made else {"pure": 2, "thin": 4, "fat": 2.5}
        )
        row["lift"] = "low" if snap["result"] == "blocked" else dice.pick({"low": 0.5, "even": 4, "high": 4})
        if snap["result"] in ("wide-left", "wide-right"):
            row["miss-at"] = dice.pick({"start": 5, "drift": 4 if row["wind"] != "calm" else 1})
        if snap["quarter"] == 4 and abs(snap["margin"]) <= 3 and dice.chance(0.5):
            row["iced"] = "yes"
    return chart.mark(
        made
        and (snap.get("yards", 0) >= 42 or snap.get("wind") in ("against", "cross") and placed)
        or snap["result"] == "touchback"
        or snap.get("hang", 0) >= 4.1,
        placed and not made and snap["result"] != "blocked" or snap.get("back-to", 0) >= 38,
        0.7,
    )


def punter(chart):
    row, dice, snap, man = chart.row, chart.dice, chart.snap, chart.man
    if snap["kick"] != "punt":
        return None
    near = snap["rush-near"]
    short = snap["spot"][0] == "+" or snap["spot"] == "50" or int(snap["spot"][1:]) >= 40
    row["style"] = dice.pick(
        {"end-over": 5, "spiral": 3, "pooch": 1} if short else {"spiral": 9, "rugby": 1, "end-over": 0.6}
    )
    row["snap-ok"] = "no" if dice.chance(0.04) else "yes"
    row["operation"] = round(max(1.75, dice.normal(2.07, 0.07) - (0.06 if near != "none" else 0)), 2)
    row["foot-time"] = round(max(0.95, row["operation"] - dice.normal(0.78, 0.03)), 2)
    row["aim"] = dice.pick({"left": 4, "right": 4, "middle": 3})
    row["steps"] = dice.pick({"2": 7, "3": 2})
    row["drop-ok"] = "yes" if chart.good(1.6, "drop", "rushed" if near != "none" else "") else "no"
    if snap["result"] == "blocked":
        return chart.mark(False, False)
    denied = snap["result"] != "returned"
    row["aim"] = chart.given(
        {"left": 4, "right": 4, "middle": 4},
        lambda side: chart.odds(0.2, "called" if side != "middle" else "middle"),
        denied,
    )
    row["hit-aim"] = "yes" if chart.good(1.0, "aim", "rushed-aim" if near != "none" else "") else "no"
    hang = 4.25 + 0.012 * (snap["gross"] - 42) + 0.08 * man.skill + (0.12 if denied else -0.12)
    hang += (
        man.tilts.get("rushed", 0) * (near != "none")
        - (0.25 if short else 0)
        - (0.5 if row["style"] == "rugby" else 0)
    )
    row["hang"] = round(min(5.3, max(2.9, dice.normal(hang, 0.22))), 2)
    net = snap["gross"] - snap.get("return", 0) - (20 if snap["result"] == "touchback" else 0)
    pinned = short and snap["result"] in ("downed", "out", "fair-catch")
    return chart.mark(pinned or net >= 44, net < 33 and not short or snap["result"] == "touchback" and short, 0.75)


def snapper(chart):
    row, dice, snap = chart.row, chart.dice, chart.snap
    if snap["kick"] == "kickoff":
        return None
    punt = snap["kick"] == "punt"
    wet = "wet" if snap["weather"] in ("rain", "damp", "snow") else ""
    row["vs"] = dice.pick({"none": 6, "one": 3, "two": 1} if punt else {"none": 5, "one": 2, "two": 2})
    crowd = "crowded" if row["vs"] != "none" else ""
    row["where"] = "on" if chart.good(2.1, "snap", wet, crowd) else dice.pick({"off": 8, "poor": 0.7})
    row["snap-time"] = round(max(0.3, dice.normal(0.745, 0.025) if punt else dice.normal(0.385, 0.015)), 2)
    row["spin"] = "tight" if chart.good(2.2, "spin", wet) else "loose"
    if row["where"] != "on":
        row["miss"] = dice.pick({"high": 4, "low": 2, "left": 1.5, "right": 2})
    if row["vs"] != "none":
        row["block"] = "lost" if not chart.good(2.4, "block") else dice.pick({"even": 6, "won": 3})
    if punt:
        row["release"] = dice.pick(
            {"clean": 7, "late": 2, "held": 0.6} if row["vs"] == "none" else {"clean": 3, "late": 4, "held": 1.5}
        )
        row["cover"] = dice.pick({"lane": 8, "out-of-it": 1.3, "tackle": 1.2 if snap["result"] == "returned" else 0})
    else:
        row["laces"] = "right" if chart.good(2.2, "laces") else "turned"
    row["result"] = "blocked" if snap["result"] == "blocked" else "bobbled" if row["where"] == "poor" else "away"
    for name in ("lands", "hang", "side", "yards", "gross", "return", "rush-near", "back-to", "gain"):
        row.pop(name, None)
    return chart.mark(row.get("cover") == "tackle", row["where"] != "on", 0.8)


def returner(chart):
    """A kick of the other side. `margin` is turned by the caller."""
    row, dice, snap, man = chart.row, chart.dice, chart.snap, chart.man
    if snap["kick"] not in ("punt", "kickoff") or snap["result"] == "blocked" or not dice.chance(man.share):
        return None
    punt = snap["kick"] == "punt"
    to_goal = _to_goal(snap) if punt else 0
    start = to_goal - snap["gross"] if punt else snap["lands"]
    row["start"] = max(-9, min(60, start))
    row["hang"] = snap.get("hang") or round(dice.normal(4.3, 0.25), 2)
    if snap["result"] in ("out", "downed") or not punt and snap["result"] == "touchback" and dice.chance(0.5):
        row["caught"] = "none" if snap["result"] != "downed" else "bounced"
        row["choice"] = "let-go"
    else:
        row["choice"] = {"returned": "return", "fair-catch": "fair-catch", "touchback": "kneel"}.get(
            snap["result"], "fair-catch"
        )
        row["caught"] = "clean"
    returned = row["choice"] == "return"
    row["near"] = dice.pick({0: 3, 1: 3, 2: 2.5, 3: 1.2} if punt else {0: 6, 1: 3, 2: 1})
    if row["caught"] == "clean":
        clean = chart.good(2.9, "hands", "crowded" if row["near"] >= 2 else "")
        row["caught"] = "clean" if clean else "bobbled"
        row["near"] = row["near"]
    if snap["result"] == "muffed":
        row["caught"], row["choice"], returned = "muffed", "fair-catch", False
    risky = punt and row["choice"] == "return" and (row["start"] <= 8 or row["near"] >= 3)
    row["right"] = (
        "yes" if chart.good(1.9 - (1.6 if risky else 0), "choice", "deep" if row["start"] <= 10 else "") else "no"
    )
    row["result"] = {"return": "returned", "fair-catch": "fair-catch", "let-go": "downed", "kneel": "touchback"}[
        row["choice"]
    ]
    if snap["result"] in ("touchback",):
        row["result"] = "touchback"
    if row["caught"] == "muffed":
        row["result"] = "muff-lost"
    if returned:
        _brings_back(chart, punt, snap)
    for name in ("lands", "gross", "return", "back-to", "gain", "rush-near", "yards", "side", "strike"):
        row.pop(name, None)
    far = row.get("ret", 0) >= (12 if punt else 27)
    return chart.mark(
        far or row.get("first-man") == "beat", row["right"] == "no" or row["caught"] in ("muffed", "bobbled"), 0.6
    )


def _brings_back(chart, punt, snap):
    row, dice = chart.row, chart.dice
    row["ret"] = snap.get("return", 0) if punt else snap["back-to"] - max(0, snap["lands"]) - min(0, snap["lands"])
    far = row["ret"] >= (9 if punt else 23)
    row["seam"] = chart.given(
        {"none": 5, "crease": 4, "clear": 1}, lambda how: {"none": 0.3, "crease": 0.55, "clear": 0.8}[how], far
    )
    beat = chart.good(0.1 + (0.8 if far else -0.7), "elude", "seam-" + row["seam"])
    row["first-man"] = "beat" if beat else dice.pick({"stopped": 5, "none": 1.5 if far else 0.3})
    row["first-cut"] = dice.pick({"north": 7 if chart.odds(0, "north") > 0.4 else 4, "across": 3, "back": 0.7})
    row["hold-ball"] = "yes" if chart.good(1.7, "secure") else "no"


def _to_goal(snap):
    spot = snap["spot"]
    return 50 if spot == "50" else 100 - int(spot[1:]) if spot[0] == "-" else int(spot[1:])
