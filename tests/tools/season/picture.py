"""What both sides show before the snap."""

HIGHS = {
    "0": 0,
    "1": 1,
    "1-robber": 1,
    "1-hole": 1,
    "3": 1,
    "3-match": 1,
    "3-cloud": 1,
    "3-fire": 1,
    "2": 2,
    "2-middle": 2,
    "2-man": 2,
    "2-read": 2,
    "4": 2,
    "4-match": 2,
    "6": 2,
    "prevent": 3,
}
FAMILY = {"0": "man", "1": "man", "1-robber": "man", "1-hole": "man", "2-man": "man", "bracket": "man", "other": None}

FORMATIONS = {
    "11": {"2x2": 5, "3x1": 5, "trips": 2, "bunch": 2, "stack": 1},
    "12": {"2x2": 3, "3x1": 2, "wing": 3, "tight": 1},
    "21": {"i": 2, "split": 1, "2x1": 2},
    "13": {"heavy": 3, "tight": 1},
    "10": {"2x2": 3, "trips": 2, "3x1": 2, "stack": 1},
    "20": {"2x1": 3, "split": 2},
    "01": {"empty": 1},
    "00": {"empty": 1},
}


def family(coverage):
    return FAMILY.get(coverage, "zone")


def long_yardage(state):
    return state.down >= 3 and state.distance >= 7


def offence(dice, state):
    if state.hurrying() or long_yardage(state):
        personnel = dice.pick({"11": 14, "10": 5, "01": 3, "00": 0.6})
    elif state.to_goal <= 4 or (state.down >= 3 and state.distance <= 2):
        personnel = dice.pick({"11": 5, "12": 5, "21": 2, "13": 3})
    else:
        personnel = dice.pick({"11": 30, "12": 12, "21": 4, "10": 4, "20": 2, "01": 1.5})
    formation = dice.pick(FORMATIONS[personnel])
    if formation in ("i", "heavy"):
        backfield = "under"
    elif formation == "empty":
        backfield = "gun"
    else:
        backfield = dice.pick({"gun": 7, "under": 2 if state.down < 3 else 0.3, "pistol": 1})
    motion = dice.pick(
        {"none": 50, "jet": 9, "orbit": 4, "return": 6, "ghost": 4, "across": 11, "in": 7, "out": 5, "shift": 4}
    )
    tempo = "hurry" if state.hurrying() else state.tempo
    return {"personnel": personnel, "backfield": backfield, "formation": formation, "motion": motion, "tempo": tempo}


def coverage(dice, state, opponent):
    if state.quarter in (2, 4) and state.seconds <= 25 and state.to_goal >= 45:
        return dice.pick({"prevent": 5, "4": 2, "2-man": 1})
    weights = dict(opponent.coverages)
    if state.to_goal <= 12:
        for deep in ("2-man", "2-middle", "6", "3-cloud"):
            weights.pop(deep, None)
        weights["0"] = weights.get("0", 0) + 4
    if long_yardage(state):
        weights["2-man"] = weights.get("2-man", 0) + 5
        weights["4"] = weights.get("4", 0) + 4
    return dice.pick(weights)


def shown_shell(dice, played, opponent, state):
    """The shell before the snap: mostly the one that will be played."""
    highs = HIGHS.get(played)
    if highs is None:
        return dice.pick({"1-high": 1, "2-high": 2})
    if highs == 3:
        return "3-high"
    if state.to_goal > 12 and dice.chance(opponent.turns):
        return {0: "1-high", 1: "2-high", 2: "1-high"}[highs]
    return f"{highs}-high"


def rush(dice, played, opponent):
    """How many rush, and by what kind of call."""
    if played == "0":
        return dice.pick({5: 2, 6: 6, 7: 1}), dice.pick({"blitz": 4, "overload": 1})
    if played == "3-fire":
        return 5, "fire"
    if played in ("prevent", "2-man", "bracket"):
        return dice.pick({3: 2, 4: 3}), "none"
    if dice.chance(opponent.blitzes):
        return dice.pick({5: 6, 6: 1}), dice.pick({"blitz": 5, "overload": 1})
    rushers = dice.pick({4: 11, 3: 1.2})
    call = dice.pick({"none": 20, "simulated": 2, "creeper": 1.4}) if rushers == 4 else "none"
    return rushers, call


def defence(dice, state, opponent, personnel):
    played = coverage(dice, state, opponent)
    shell = shown_shell(dice, played, opponent, state)
    rushers, call = rush(dice, played, opponent)
    backs_and_ends = int(personnel[0]) + int(personnel[1])
    if backs_and_ends >= 4 or (state.to_goal <= 2 and backs_and_ends >= 3):
        sub = dice.pick({"base": 2, "goal-line": 1})
    elif backs_and_ends == 3:
        sub = dice.pick({"base": 4, "nickel": 2})
    elif backs_and_ends == 2:
        sub = dice.pick({"nickel": 8, "dime": 3 if long_yardage(state) else 0.5})
    else:
        sub = dice.pick({"nickel": 3, "dime": 4, "quarter": 0.5})
    front = (
        dice.pick({"goal-line": 1})
        if sub == "goal-line"
        else dice.pick({"even": 5, "over": 4, "under": 3, "odd": 3, "tite": 2, "stack": 1.5, "bear": 0.8})
    )
    box = {"goal-line": 8, "base": 7, "nickel": 6, "dime": 6, "quarter": 5}[sub] + (
        1 if shell in ("0-high", "1-high") else 0
    )
    if sub in ("dime", "quarter"):
        box = min(box, 6)
    return {
        "shell": shell,
        "coverage": played,
        "front": front,
        "sub": sub,
        "box": box,
        "rushers": rushers,
        "pressure-call": call,
    }
