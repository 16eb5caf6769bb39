"""Measurements: drawn from where men of the position lie, written as the trade writes them."""

import xml.etree.ElementTree as ElementTree

from chart import TEMPLATES
from dice import Dice

SCALE_OF = {"returner": "cornerback"}
REACH = {  # arm and hand in inches at the middle of the position
    "quarterback": (32.0, 9.5),
    "running-back": (31.0, 9.25),
    "wide-receiver": (31.75, 9.4),
    "tight-end": (33.0, 9.75),
    "tackle": (34.25, 10.1),
    "interior-line": (33.1, 10.0),
    "interior-defensive-line": (33.3, 10.0),
    "edge": (33.4, 9.9),
    "linebacker": (32.0, 9.6),
    "cornerback": (31.3, 9.0),
    "safety": (31.6, 9.3),
    "long-snapper": (31.8, 9.4),
    "punter": (31.5, 9.3),
}
TIMED = ("forty", "ten", "cone", "shuttle")
SMALLER_BETTER = TIMED


def quantiles(profile):
    path = TEMPLATES / "scales" / f"{SCALE_OF.get(profile, profile)}.xml"
    root = ElementTree.parse(path).getroot()
    return {
        node.get("kind"): sorted((float(q.get("p")), float(q.get("value"))) for q in node.findall("q"))
        for node in root.findall("measurable")
    }


def value_at(points, p):
    low = points[0]
    for high in points:
        if p <= high[0]:
            if high[0] == low[0]:
                return high[1]
            return low[1] + (high[1] - low[1]) * (p - low[0]) / (high[0] - low[0])
        low = high
    return points[-1][1]


def eighths(inches):
    whole, part = divmod(round(inches * 8), 8)
    return whole, part


def written(kind, value):
    whole, part = eighths(value)
    if kind == "height":
        return f"{whole // 12}{whole % 12:02d}{part}"
    if kind == "hand":
        return f"{whole:02d}{part}8" if part else f"{whole} 0/8"
    if kind == "arm":
        return f"{whole}{part}8" if part else f"{whole} 0/8"
    if kind in TIMED:
        return f"{value:.2f}"
    return f"{round(value)}" if kind in ("weight", "bench", "broad") else f"{round(value * 2) / 2:g}"


QUICKNESS = ("speed", "burst", "range", "get-off", "recovery-speed", "mobility", "elusiveness", "mirror")


def drawn(man, body, traits):
    """Kind to notation: tall and heavy go together, and so do the times, which bear out what is graded."""
    dice = Dice(f"{man.id} measured")
    points = quantiles(man.profile)
    big, quick = dice.between(0.15, 0.85), dice.between(0.3, 0.7)
    quick += 0.22 * sum(traits.get(trait, 0) for trait in QUICKNESS)
    values = {}
    for kind in ("height", "weight", "forty", "ten", "vertical", "broad", "cone", "shuttle", "bench"):
        if kind not in points:
            continue
        place = big + body * 0.6 if kind in ("height", "weight", "bench") else quick - body * 0.2
        place = min(0.93, max(0.07, place + dice.between(-0.15, 0.15)))
        if kind in SMALLER_BETTER:
            place = 1 - place
        values[kind] = value_at(points[kind], place * 100)
    arm, hand = REACH.get(man.profile, (None, None))
    if arm:
        values["arm"] = arm + (big - 0.5) * 1.6 + dice.between(-0.5, 0.5)
        values["hand"] = hand + (big - 0.5) * 0.5 + dice.between(-0.25, 0.25)
    if "forty" in values and "ten" in values:
        values["ten"] = min(values["ten"], values["forty"] * 0.36)
    return {kind: written(kind, value) for kind, value in values.items()}, dice


ORDER = ("height", "weight", "arm", "hand", "forty", "ten", "vertical", "broad", "cone", "shuttle", "bench")
SPRING = ("2031-03-14", "2031-03-21", "2031-03-28", "2031-04-04")
PLACES = {"spring": "spring work-out, on grass", "hall": "spring work-out, in the hall"}


def lines(man, body, traits, how, kinds):
    """The elements. `how`: spring, tested; list, what the school prints; none."""
    values, dice = drawn(man, body, traits)
    day = dice.pick(dict.fromkeys(SPRING, 1))
    place = PLACES[dice.pick({"spring": 1, "hall": 1})]
    out = []
    for kind in ORDER:
        if kind not in values or kind not in kinds:
            continue
        if how == "list":
            if kind in ("height", "weight"):
                out.append(
                    f'<measurable kind="{kind}" value="{values[kind]}" status="unverified" where="school’s list"/>'
                )
            elif kind == "forty":
                out.append(
                    f'<measurable kind="{kind}" value="{values[kind]}" timing="hand" status="unverified" where="school’s word"/>'
                )
            continue
        if kind in ("bench", "cone", "hand") and dice.chance(0.25):
            continue  # did not do it, or nobody wrote it down
        timing = ""
        if kind in TIMED:
            timing = ' timing="hand"' if dice.chance(0.4) else ' timing="electronic"'
        out.append(
            f'<measurable kind="{kind}" value="{values[kind]}" status="verified" on="{day}" where="{place}"{timing}/>'
        )
    return out
