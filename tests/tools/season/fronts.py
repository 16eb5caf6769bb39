"""Defenders in front: the inside line, the edge and linebackers; and how any defender tackles and fits a run."""

from backs import family
from charter import strip_throw

POWER = ("bull", "long", "push-pull")
OUTSIDE = ("bend", "club", "rip")
MOVES = {
    "edge": {
        "bend": 5,
        "bull": 3,
        "long": 2,
        "rip": 3,
        "club": 2,
        "swim": 1.5,
        "spin": 1,
        "stunt": 1.2,
        "push-pull": 1,
    },
    "interior-defensive-line": {
        "bull": 4,
        "rip": 2,
        "swim": 2.5,
        "club": 2.5,
        "long": 1,
        "spin": 0.6,
        "push-pull": 1.5,
        "stunt": 2,
    },
    "linebacker": {"bull": 2, "rip": 3, "swim": 2, "bend": 2, "stunt": 2},
}
MET = {
    "edge": {"single": 6, "none": 2, "double": 1, "down": 1, "puller": 1.2},
    "interior-defensive-line": {"single": 5, "double": 4.5, "down": 1.5, "puller": 0.2},
    "linebacker": {"single": 5, "none": 4, "puller": 1.3, "lead": 0.8, "double": 0.3},
    "cornerback": {"single": 4, "none": 5, "lead": 0.5, "puller": 0.4},
    "safety": {"none": 6, "single": 3, "lead": 0.7, "puller": 0.4},
}


def kind_of(move):
    return "power" if move in POWER else "outside" if move in OUTSIDE else "inside"


def run_to(chart):
    """Whether the run came at his side; an inside run comes at everybody in the middle."""
    snap, man = chart.snap, chart.man
    if snap.get("gap") == "A":
        return chart.dice.pick(
            {"at": 3, "toward": 2} if man.profile == "interior-defensive-line" else {"toward": 3, "away": 1}
        )
    return chart.dice.pick({"at": 5, "toward": 1} if snap.get("to") == man.side else {"away": 5, "toward": 1})


def fit(chart):
    """The run: key, block, gap."""
    row, dice, snap, man = chart.row, chart.dice, chart.snap, chart.man
    row["job"] = "fit"
    row["run-to"] = run_to(chart)
    stopped = snap.get("gain", 4) <= 3
    right = chart.good(1.5, "key", "key-fake" if snap.get("motion") != "none" else "")
    row["key"] = "right" if right else dice.pick({"late": 4, "wrong": 1.5})
    kept = chart.good(1.9 + (0.4 if stopped else -0.5) + (0 if right else -1.2), "gap", "gap-" + row["run-to"])
    row["gap-kept"] = "yes" if kept else "no"
    held = chart.good(1.2 + (0.3 if kept else -0.6), "held")
    row["met"] = chart.given(
        MET[man.profile], lambda how: chart.odds({"double": 0.2, "puller": 0.5}.get(how, 1.3), "met-" + how), held
    )
    if row["met"] != "none":
        if held:
            row["take-on"] = dice.pick({"held": 6, "reset": 2})
            row["shed"] = dice.pick({"no": 3, "late": 3, "yes": 4})
        else:
            row["take-on"] = "washed"
            row["shed"] = dice.pick({"no": 6, "late": 2})


NEAR = {
    "interior-defensive-line": (0.25, 5),
    "edge": (0.19, 6),
    "linebacker": (0.24, 9),
    "cornerback": (0.06, 20),
    "safety": (0.16, 40),
}


def tackle(chart, chance=None, mine=False):
    """Whether he got to the carrier, and what came of it."""
    row, dice, snap, man = chart.row, chart.dice, chart.snap, chart.man
    row["tackle"] = "none"
    gain = snap.get("gain")
    if gain is None or snap.get("touchdown") == "yes" and dice.chance(0.5):
        return
    chance, reach = (chance, 99) if chance is not None else NEAR[man.profile]
    if row.get("run-to") == "at":
        chance *= 1.5
    elif row.get("run-to") == "away":
        chance *= 0.45 + 0.3 * man.tilts.get("chase", 0)
    if row.get("take-on") == "washed" or row.get("shed") == "no" or row.get("blocked") == "double":
        chance *= 0.3
    if gain > reach + 8 or not dice.chance(min(0.95, chance)):
        return
    beaten = snap.get("touchdown") == "yes" or snap.get("beat", 0) > 0 and dice.chance(0.4)
    open_field = gain >= 5
    if beaten or not chart.good(2.0 - (0.5 if open_field else 0), "tackle", "open" if open_field else "near"):
        low = snap.get("contact", min(gain, max(0, snap.get("depth", 0))))
        row["tackle"], row["at"] = "missed", max(-8, min(gain, max(low, -8)))
        row["miss"] = dice.pick({"over": 3, "low": 2, "arm": 5, "dragged": 1.5})
        return
    row["tackle"] = "solo" if mine or dice.chance(0.6) else "assist"
    row["at"] = gain if dice.chance(0.8) else gain - 1


def _finish(chart, good, bad):
    row = chart.row
    good = good or row.get("tackle") == "solo" and row.get("at", 9) <= 2
    return chart.mark(good, bad or row.get("tackle") == "missed", 0.65)


def chase(chart):
    full = chart.good(0.6, "effort")
    chart.row["chase"] = "full" if full else chart.dice.pick({"ran": 5, "loafed": 1})


def rush(chart, profile):
    row, dice, snap, man = chart.row, chart.dice, chart.snap, chart.man
    row["job"] = "rush"
    origin = snap.get("pressure-from")
    share = {man.side: 0.5, "middle": 0.06, "free": 0.1, "held-it": 0.18}.get(origin, 0)
    if profile != "edge":
        share = {"middle": 0.4, man.side: 0.12, "free": 0.05, "held-it": 0.15}.get(origin, 0)
    share *= 0.95 + chart.odds(0.0, "rush", "rush-third" if snap["down"] == 3 else "", "tech-" + row.get("tech", ""))
    mine = chart.pressed() and dice.chance(share)
    won = (
        mine
        and dice.chance(0.85)
        or not mine
        and chart.good(-2.3, "rush", "tired" if row.get("played-on", 1) >= 6 else "", "tech-" + row.get("tech", ""))
    )
    over = {"tackle": 10, "end": 1.5, "back": 0.8, "guard": 0.7}
    if profile != "edge":
        over = {"guard": 6, "centre": 3 if row.get("tech") in ("0", "1") else 1, "tackle": 0.6}
    row["over"] = chart.given(over, lambda who: chart.odds(-1.4, "over-" + who), won)
    blocked = {"single": 8, "double": 2 if profile == "edge" else 6, "chip": 1.5 if profile == "edge" else 0.1}
    if mine and origin == "free":
        blocked = {"free": 1}
    row["blocked"] = chart.given(blocked, lambda how: chart.odds({"double": -2.4}.get(how, -1.3)), won)
    moves = MOVES[profile]
    row["move"] = chart.given(moves, lambda move: chart.odds(-1.4, kind_of(move), move), won)
    row["get-off"] = dice.pick({"late": 1, "with": 5, "first": 3 + 5 * won + 2 * max(0, man.tilts.get("get-off", 0))})
    row["second"] = "yes" if won and dice.chance(0.35) or dice.chance(0.12) else "no"
    row["lane"] = "no" if dice.chance(0.10) else "yes"
    if row["blocked"] != "free":
        row["rep"] = "won" if won else dice.pick({"even": 5, "lost": 4})
    row["effect"] = effect(chart) if mine else "none"
    if won and "rep" in row:
        row["won-at"] = round(min(5, max(1.4, snap.get("throw-time", 3.0) - dice.between(0.1, 0.8))), 1)


def effect(chart):
    if chart.was == "sack":
        return "sack" if chart.snap["result"] == "sack" else "hit"
    return chart.snap.get("pressure", "hurry")


def _drops(chart):
    """A rusher in the flat or the hook for once."""
    row, dice, snap = chart.row, chart.dice, chart.snap
    row["duty"] = dice.pick({"flat": 4, "under": 3})
    row["phase"] = dice.pick({"trailing": 2, "even": 5})
    row["targeted"] = "no"
    row["opponent"] = dice.pick({"RB": 2, "TE": 1})
    strip_throw(row)
    row["route"] = dice.pick({"flat": 3, "check": 2, "hitch": 2})
    row["effect"] = None


def front(chart):
    """Inside line and edge."""
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    if snap["play"] in ("kneel", "spike") or not dice.chance(man.share):
        return None
    profile = man.profile
    row["played-on"] = chart.played_on
    edge = profile == "edge"
    if edge:
        row["stance"] = dice.pick({"two": 4, "three": 6} if man.spot != "two" else {"two": 7, "three": 2})
        row["tech"] = dice.pick({"5": 5, "7": 1, "9": 2, "wide": 2, "6": 0.6, "4": 0.4})
    else:
        nose = man.spot == "nose"
        row["tech"] = dice.pick(
            {"0": 4, "1": 4, "2i": 2, "3": 2} if nose else {"3": 5, "2i": 2, "1": 2, "4i": 2, "5": 1}
        )
        row["pads"] = dice.pick({"high": 2, "even": 5, "low": 4})
    if chart.is_run():
        strip_throw(row)
        fit(chart)
        if edge:
            row["edge"] = (
                "set" if row["gap-kept"] == "yes" and dice.chance(0.9) else dice.pick({"soft": 3, "lost": 1})
            )
        chase(chart)
        tackle(chart)
        return _finish(chart, row.get("take-on") == "reset", row["gap-kept"] == "no" and dice.chance(0.7))
    chase(chart)
    if edge and snap["play"] != "screen" and snap["rushers"] <= 4 and dice.chance(0.07):
        row["job"] = "cover"
        _drops(chart)
        row.pop("effect")
        tackle(chart, 0.05 if snap.get("gain", 99) < 9 else 0)
        return _finish(chart, False, False)
    rush(chart, profile)
    if edge and (snap["play"] in ("rpo", "option") or snap.get("drop") == "boot"):
        row["read-play"] = "right" if chart.good(1.0, "read-play") else "fooled"
    sack = row["effect"] == "sack"
    row["tackle"] = "none"
    if sack:
        row["tackle"], row["at"] = "solo", snap["gain"]
    elif snap.get("gain", 99) <= 2 and chart.was in ("scramble", "complete"):
        tackle(chart, 0.15)
    strip_throw(row)
    won = row.get("rep") == "won"
    return _finish(chart, row["effect"] != "none" or won, row["lane"] == "no" and row["effect"] == "none")


def coverage_phase(chart, base, *keys):
    return chart.dice.pick({"even": 6, "over": 2} if chart.good(base, *keys) else {"trailing": 5, "beaten": 2})


def thrown_at(chart, his):
    """The throw against him: what became of it, by what the play shows."""
    row, dice, snap = chart.row, chart.dice, chart.snap
    depth, side, why = snap.get("depth"), snap.get("side"), snap.get("why")
    gone = why in ("batted", "hit-as-thrown", "thrown-away") or "window" not in snap
    row["targeted"] = "yes" if his and not gone else "no"
    if row["targeted"] == "no":
        return False
    row["depth"], row["side"] = depth, side
    if chart.was == "complete":
        row["ball"] = "caught"
        if "gain" in snap:
            row["after"] = snap["gain"] - depth
    elif chart.was == "intercepted":
        row["ball"] = "intercepted" if snap["result"] == "intercepted" and chart.good(0.2, "ball") else "off"
    else:
        row["ball"] = {"dropped": "dropped", "broken-up": "broken-up"}.get(why, "off")
        if row["ball"] == "off" and snap.get("risk") == "yes":
            row["ball"] = "missed-pick"
    return True


def backer(chart):
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    if snap["play"] in ("kneel", "spike") or not dice.chance(man.share if snap["sub"] != "dime" else man.share * 0.6):
        return None
    row["spot-on"] = dice.pick({"inside": 8, "outside": 2, "overhang": 1.5, "edge": 0.5})
    row["calls"] = "right" if chart.good(3.0, "calls") else "wrong"
    if chart.is_run():
        strip_throw(row)
        fit(chart)
        row["step"] = {"right": "right", "late": "late", "wrong": "wrong"}[row["key"]]
        if row["key"] == "right" and dice.chance(0.12):
            row["step"] = "late"
        quick = row["step"] == "right" and chart.good(0.0, "trigger")
        row["trigger"] = "fast" if quick else dice.pick({"even": 5, "slow": 1 if row["step"] == "right" else 4})
        tackle(chart)
        return _finish(
            chart, row["trigger"] == "fast" and row.get("shed") == "yes", row["gap-kept"] == "no" and dice.chance(0.7)
        )
    if snap["play"] != "screen" and dice.chance(0.35 if snap["rushers"] >= 5 else 0.03):
        rush(chart, "linebacker")
        row["tackle"] = "none"
        if row["effect"] == "sack":
            row["tackle"], row["at"] = "solo", snap["gain"]
        strip_throw(row)
        return _finish(chart, row["effect"] != "none", False)
    if snap["rushers"] <= 4 and dice.chance(0.02):
        strip_throw(row)
        row["job"], row["tackle"] = "spy", "none"
        return chart.mark(False, False)
    return backer_covers(chart)


def backer_covers(chart):
    man, dice, snap, row = chart.man, chart.dice, chart.snap, chart.row
    row["job"] = "cover"
    seen = family(chart)
    fake = "fake" if snap["play"] in ("play-action", "rpo") else ""
    if seen == "man":
        row["duty"] = "man" if dice.chance(0.85) else "robber"
        row["opponent"] = dice.pick({"RB": 6, "TE": 4})
    else:
        row["duty"] = "match" if seen == "match" and dice.chance(0.6) else dice.pick({"under": 8, "flat": 2})
        row["opponent"] = dice.pick({"RB": 4, "TE": 4, "slot": 3})
    if snap.get("coverage") == "2-middle" and row["spot-on"] == "inside":
        row["duty"] = "deep"
    his = chart.thrown() and snap.get("target") == row["opponent"] and snap.get("depth", 0) < 18 and dice.chance(0.5)
    run = (
        snap.get("route")
        if his
        else dice.pick({"check": 3, "flat": 3, "stick": 2, "drag": 2, "seam": 1, "option": 1, "angle": 1})
    )
    base = 0.7 + {"closed": 0.8, "closing": 0.3, "open": -0.8}.get(snap.get("window") if his else None, 0)
    row["phase"] = coverage_phase(
        chart, base, "cover", fake, "in-man" if row["duty"] in ("man", "match") else "in-zone"
    )
    hit = thrown_at(chart, his)
    if row["duty"] == "under":
        row["drop-to"] = "right" if chart.good(0.8, "drop") else dice.pick({"short": 4, "even": 3})
    if hit and row["ball"] == "caught":
        tackle(chart, 0.75, True)
    else:
        tackle(chart, 0.10 if chart.was in ("complete", "scramble") else 0)
    depth, side = row.get("depth"), row.get("side")
    strip_throw(row)
    row["route"] = run
    if hit:
        row["depth"], row["side"] = depth, side
    made = row.get("ball") in ("broken-up", "intercepted")
    return _finish(chart, made, row["phase"] == "beaten" and dice.chance(0.8))
