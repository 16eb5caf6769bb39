"""A cited snap in a line, in a charter's shorthand. Nothing is said that the snap does not say."""

from counting import spot_value

ORDINAL = {1: "1st", 2: "2nd", 3: "3rd", 4: "4th"}
NUMBERS = "no one two three four five six seven eight nine ten".split()
MOVE = {
    "bull": "bull rush",
    "long": "long arm",
    "rip": "rip",
    "swim": "swim over the top",
    "club": "club",
    "spin": "spin",
    "bend": "speed round the corner",
    "stunt": "loops on the stunt",
    "push-pull": "push and pull",
}
FACED = {
    "speed": "speed to the corner",
    "power": "power",
    "inside": "an inside move",
    "spin": "a spin",
    "long": "a long arm",
    "stunt": "a stunt",
    "free": "a free man",
}
OPPONENT = {"edge": "the edge", "inside": "an inside man", "backer": "a linebacker", "back": "a back off the edge"}
ASSIGN = {
    "base": "base block",
    "reach": "reach",
    "down": "down block",
    "double": "double team",
    "climb": "climbs",
    "pull": "pulls",
    "kick-out": "kicks out",
    "cut-off": "cuts off the back side",
    "stalk": "stalks the corner",
}
MET = {
    "none": "unblocked",
    "single": "one on him",
    "double": "two on him",
    "down": "a down block on him",
    "puller": "a puller at him",
    "lead": "the lead back at him",
}


def words(value):
    return str(value).replace("-", " ")


def yards(gain):
    if gain == 0:
        return "no gain"
    if gain < 0:
        return f"loss of {-gain}"
    return "a yard" if gain == 1 else f"{gain} yards"


def ended(row):
    result, gain = row.get("result"), row.get("gain")
    if row.get("touchdown") == "yes":
        return f"touchdown, {yards(gain)}"
    if result == "no-play":
        return "wiped out by the flag"
    if result in ("incomplete", "intercepted"):
        return result
    if result == "sack":
        return f"sack, {yards(gain)}"
    return yards(gain) if gain is not None else words(result)


def situation(row):
    """As "3rd and 7 at the +32"; nothing for a kick that is no down."""
    if "down" not in row:
        return ""
    distance = row["distance"]
    spot = row["spot"].replace("-", "−")
    return f"{ORDINAL[row['down']]} and {distance} at the {spot}"


def opening(row, dice):
    late = row["down"] >= 3 or row["distance"] == "goal" if "down" in row else False
    if late and dice.chance(0.75) or dice.chance(0.2):
        return situation(row)
    return ""


def join(*parts):
    parts = [part for part in parts if part]
    text = parts[0].lstrip("; ")
    for part in parts[1:]:
        text += ("; " if part[0] == ";" else ", ") + part.lstrip("; ")
    return text[0].upper() + text[1:] if text[0].islower() else text


# Offence


def carry(row, dice):
    where = {"A": "inside", "B": "off the guard", "C": "off tackle", "D": "outside"}[row["gap"]]
    lane = {"shut": "nothing there", "crease": "a crease", "clear": "a clear lane"}[row["lane"]]
    cut = {"bend": "bends it", "cutback": "cuts it back", "bounce": "bounces it", "as-blocked": ""}[row["cut"]]
    past = row["gain"] - row["contact"] if "gain" in row else 0
    touched = "" if past <= 0 else f"touched at {row['contact']}".replace("-", "−")
    if past > 0 and row["contact"] <= 0:
        touched = "hit behind the line" if row["contact"] < 0 else "hit at the line"
    lost = {"lost": "loses the ball", "kept": "drops it and gets it back"}.get(row.get("fumble"), "")
    beaten = f"{NUMBERS[row['beat']]} missed" if row.get("beat", 0) >= 1 else ""
    call = f"{words(row['scheme'])} {row['to']}, {where}"
    return join(opening(row, dice), f";{call}", lane, cut, touched, beaten, lost, f";{ended(row)}")


def own_route(row, dice):
    route = words(row["route"])
    where = {
        "slot": "from the slot",
        "inline": "from beside the tackle",
        "wing": "from the wing",
        "wide": "",
        "backfield": "",
    }
    cushion = {"press": "pressed", "bail": "the corner bails"}.get(row.get("cushion"), "")
    release = {"clean": "clean off the line", "fought": "fights through it", "stuck": "stuck at the line"}.get(
        row.get("release"), ""
    )
    how = {"covered": "covered", "arm": "a man at arm’s length", "step": "a step", "clear": "clear"}[row["open"]]
    if row["targeted"] == "no":
        return join(
            opening(row, dice), f";{route} {where[row['align']]}".strip(), cushion, release, how, ";not thrown to"
        )
    depth = f"at {row['depth']}".replace("-", "−")
    hand = "a hand in" if row.get("contested") == "yes" else ""
    came = {
        "caught": f"caught, {ended(row)}",
        "dropped": "dropped",
        "broken-up": "knocked away",
        "off": "the ball is off him",
        "intercepted": "intercepted",
    }[row["catch"]]
    return join(opening(row, dice), f";{route} {where[row['align']]}".strip(), cushion, how, depth, hand, f";{came}")


def protects(row, dice):
    if row["opponent"] == "none":
        return join(opening(row, dice), ";nobody comes his way")
    task = {"man": "alone", "slide": "in the slide", "double": "with help", "scan": "scans", "chip": "chips"}[
        row["task"]
    ]
    first = {"first": "lands first", "late": "hands late", "even": ""}[row.get("strike", "even")]
    if row["rep"] == "lost":
        how = {"inside": "beaten inside", "outside": "beaten outside", "through": "run over"}[row["lost-to"]]
        cost = {"none": "the ball is gone", "hurry": "a hurry", "hit": "a hit", "sack": "the sack"}[row["allowed"]]
        return join(
            opening(row, dice),
            f";{FACED[row['faced']]} from {OPPONENT[row['opponent']]}",
            task,
            first,
            f";{how} at {row['held']} s",
            cost,
        )
    how = {"won": "stops him dead", "even": "gives ground and keeps him"}[row["rep"]]
    return join(
        opening(row, dice), f";{FACED[row['faced']]} from {OPPONENT[row['opponent']]}", task, first, f";{how}"
    )


def blocks(row, dice):
    scheme = f"{words(row['scheme'])} {row['to']}" if "to" in row else words(row["scheme"])
    moved = {"back": "driven back", "stalemate": "a stand-off", "displaced": "moves him", "finished": "puts him down"}
    stay = {"off": "falls off", "brief": "", "through": "stays on"}.get(row.get("sustain"), "")
    if row["landed"] == "no":
        did = "finds nobody"
    else:
        did = moved.get(row.get("moved"), {"won": "wins it", "even": "even", "lost": "loses it"}[row["run-rep"]])
    return join(opening(row, dice), f";{scheme}", ASSIGN[row["assign"]], f";{did}", stay, f";{ended(row)}")


def blocker(row, dice):
    job = row.get("job")
    if job == "pass-block":
        return protects(row, dice)
    if job == "run-block":
        return blocks(row, dice)
    if job == "route":
        return own_route(row, dice)
    if job == "carry" and "gap" in row:
        return carry(row, dice)
    return join(situation(row), f";{words(job)}", f";{ended(row)}")


def passer(row, dice):
    if "route" not in row:
        return join(
            situation(row), f";{row.get('pressure', 'no')} pressure" if row.get("pressure") else "", f";{ended(row)}"
        )
    look = {0: "settled before the snap", 1: "first look", 2: "second look", 3: "third look"}.get(
        row["read"], "the outlet"
    )
    rush = {"hurry": "hurried", "hit": "hit as he throws", "none": ""}[row["pressure"]]
    base = {"off": "base off", "moving": "on the move", "set": ""}.get(row.get("base"), "")
    timing = {"early": "before the break", "late": "late", "on": ""}[row["timing"]]
    put = {
        "on": "on target",
        "high": "high",
        "low": "low",
        "behind": "behind him",
        "ahead": "led too far",
        "away": "out of reach",
    }.get(row.get("placement"), words(row.get("why", "")))
    where = f"{words(row['route'])} at {row['depth']}".replace("-", "−")
    return join(opening(row, dice), f";{look}", rush, base, f";{where}", timing, put, f";{ended(row)}")


# Defence


def met(row):
    reset = {"washed": "washed", "held": "stands", "reset": "pushes it back"}.get(row.get("take-on"), "")
    shed = {"yes": "sheds", "late": "off him late", "no": "stays blocked"}.get(row.get("shed"), "")
    return join(MET[row["met"]], reset, shed)


def tackled(row):
    kind = row.get("tackle")
    if kind in (None, "none"):
        return ""
    at = f"at {row['at']}".replace("-", "−")
    if kind == "missed":
        return {
            "over": "overruns it",
            "low": "dives and misses",
            "arm": "arm tackle, broken",
            "dragged": "dragged along",
        }[row["miss"]] + f" {at}"
    return f"{'makes' if kind == 'solo' else 'shares'} the tackle {at}"


def fits(row, dice):
    scheme = f"{words(row['scheme'])}" if "scheme" in row else "run"
    to = {"at": "at him", "toward": "his way", "away": "away from him"}[row["run-to"]]
    key = {"late": "late to see it", "wrong": "fooled", "right": ""}[row["key"]]
    kept = "" if row["gap-kept"] == "yes" else "out of his gap"
    edge = {"soft": "gives the edge", "lost": "loses the edge", "set": "sets the edge"}.get(row.get("edge"), "")
    if edge and row["gap-kept"] == "no":
        kept = ""
    return join(
        opening(row, dice), f";{scheme} {to}", key, f";{met(row).lower()}", edge, kept, tackled(row), f";{ended(row)}"
    )


def rushes(row, dice):
    over = {
        "tackle": "on the tackle",
        "end": "on the tight end",
        "back": "on the back",
        "guard": "on the guard",
        "centre": "on the centre",
    }
    who = "free" if row["blocked"] == "free" else over.get(row["over"], "")
    how = {"double": "two on him", "chip": "chipped", "single": "", "free": ""}[row["blocked"]]
    off = {"first": "first off the ball", "late": "late off", "with": ""}.get(row.get("get-off"), "")
    won = (
        f"wins at {row['won-at']} s"
        if "won-at" in row
        else {"even": "even", "lost": "stopped", "won": "wins"}.get(row.get("rep"), "")
    )
    did = {
        "hurry": "a hurry",
        "hit": "a hit",
        "sack": f"sack, {yards(row['gain'])}" if "gain" in row else "",
        "none": "",
    }[row["effect"]]
    return join(
        opening(row, dice),
        off if off else "",
        f";{MOVE[row['move']]} {who}".rstrip(),
        how,
        f";{won}" if won else "",
        did or f";{ended(row)}",
    )


def covers(row, dice):
    duty = {
        "man": "man",
        "match": "match",
        "deep": "deep",
        "under": "underneath",
        "flat": "flat",
        "robber": "robber",
    }[row["duty"]]
    how = {"press": "press", "off": "off", "bail": "bails"}.get(row.get("cushion"), "")
    who = {"WR": "the wide man", "slot": "the slot", "TE": "the tight end", "RB": "the back"}.get(
        row.get("opponent"), ""
    )
    phase = {"beaten": "beaten", "trailing": "a step behind", "even": "in phase", "over": "on top of it"}[
        row["phase"]
    ]
    run = f"{words(row['route'])} by {who}" if "route" in row and who else ""
    if row["targeted"] == "no":
        return join(
            opening(row, dice),
            f";{duty}",
            how,
            run,
            f";{phase}",
            tackled(row),
            ";thrown elsewhere" if not tackled(row) else "",
        )
    ball = {
        "caught": f"caught at {row['depth']}".replace("-", "−"),
        "broken-up": "breaks it up",
        "intercepted": "takes it away",
        "missed-pick": "has it in his hands and drops it",
        "dropped": "dropped by the receiver",
        "off": "thrown off the man",
    }[row["ball"]]
    end = ended(row) if row["ball"] == "caught" else ""
    return join(opening(row, dice), f";{duty}", how, run, f";{phase}", ball, tackled(row), f";{end}" if end else "")


def defender(row, dice):
    job = row.get("job")
    if job == "fit":
        return fits(row, dice)
    if job == "rush" and "move" in row:
        return rushes(row, dice)
    if job == "cover":
        return covers(row, dice)
    return join(situation(row), f";{words(job)}", tackled(row), f";{ended(row)}")


# Kicks

WIND = {"calm": "still air", "with": "with the wind", "against": "into the wind", "cross": "across the wind"}
WEATHER = {"rain": "rain", "damp": "wet ball", "snow": "snow"}


def kick(row, dice):
    wind = WIND.get(row.get("wind"), "") if row.get("wind") != "calm" or dice.chance(0.3) else ""
    if row["kick"] == "kickoff":
        return join(
            f"kickoff to the {row['lands']}".replace("-", "−") if row["lands"] > 0 else "kickoff into the end zone",
            f"{row['hang']} s",
            wind,
            f";{words(row['result'])}",
        )
    hash_word = {"L": "from the left hash", "R": "from the right hash", "M": "from the middle"}.get(
        row.get("hash"), ""
    )
    what = f"{row['yards']} yards" if row["kick"] == "field-goal" else "the try"
    hold = {"late": "hold late", "laces": "laces toward him", "clean": ""}.get(row.get("hold"), "")
    strike = {"pure": "struck clean", "thin": "struck thin", "fat": "struck fat"}.get(row.get("strike"), "")
    return join(what, hash_word, wind, hold, strike, f";{words(row['result'])}")


def punt(row, dice):
    spot = row["spot"].replace("-", "−")
    wind = WIND[row["wind"]] if row["wind"] != "calm" else ""
    near = {"near": "a man near", "forced": "hurried by the rush", "none": ""}[row["rush-near"]]
    if row["result"] == "blocked":
        return join(f"from the {spot}", near, ";blocked")
    aim = f"to the {row['aim']}" if row.get("aim") != "middle" else "down the middle"
    missed = "misses the side" if row.get("hit-aim") == "no" and row["aim"] != "middle" else ""
    end = f"returned {row['return']}".replace("-", "−") if row["result"] == "returned" else words(row["result"])
    if row["result"] in ("downed", "out", "fair-catch"):
        end += f" at the {max(1, int(spot_value(row['spot'])) - row['gross'])}"
    return join(f"from the {spot}", wind, near, f";{row['gross']} yards {aim}, {row['hang']} s", missed, f";{end}")


def long_snap(row, dice):
    what = {"punt": "punt", "field-goal": "field goal", "try": "try"}[row["kick"]]
    wet = WEATHER.get(row.get("weather"), "")
    over = {"one": "a man over him", "two": "two over him", "none": ""}[row.get("vs", "none")]
    put = {"on": "on the hands", "off": "off the hands", "poor": "out of reach"}[row["where"]]
    miss = row.get("miss", "")
    held = {"lost": "loses the block", "even": "", "won": "wins the block"}.get(row.get("block"), "")
    down = {"tackle": "and the tackle", "out-of-it": "out of his lane", "lane": ""}.get(row.get("cover"), "")
    return join(what, wet, over, f";{row['snap-time']} s, {put}", miss, held, down)


def bring_back(row, dice):
    where = f"at his {row['start']}" if row["start"] > 0 else "in the end zone"
    near = f"{NUMBERS[row['near']]} near" if row.get("near", 0) >= 1 else ""
    hands = {"clean": "", "bobbled": "bobbles it", "muffed": "muffs it", "bounced": "lets it bounce"}.get(
        row.get("caught"), ""
    )
    what = {"fair-catch": "fair catch", "let-go": "lets it go", "kneel": "kneels"}.get(row.get("choice"), "")
    if row.get("choice") == "return":
        man = {"beat": "beats the first man", "stopped": "the first man has him", "none": ""}[row["first-man"]]
        seam = {"none": "no seam", "crease": "a crease", "clear": "a clear seam"}[row["seam"]]
        return join(f"{words(row['kick'])} {where}", near, hands, f";{seam}", man, f";{yards(row['ret'])}")
    wrong = "the wrong choice" if row.get("right") == "no" else ""
    return join(f"{words(row['kick'])} {where}", near, hands, f";{what or words(row['result'])}", wrong)


DESCRIBERS = {
    "quarterback": passer,
    "running-back": blocker,
    "wide-receiver": blocker,
    "tight-end": blocker,
    "tackle": blocker,
    "interior-line": blocker,
    "interior-defensive-line": defender,
    "edge": defender,
    "linebacker": defender,
    "cornerback": defender,
    "safety": defender,
    "kicker": kick,
    "punter": punt,
    "long-snapper": long_snap,
    "returner": bring_back,
}


def describe(profile, row, dice):
    return DESCRIBERS[profile](row, dice)
