"""Charted rows and box scores as XML."""

ORDER = [
    "n",
    "drive",
    "quarter",
    "clock",
    "down",
    "distance",
    "spot",
    "hash",
    "margin",
    "tempo",
    "personnel",
    "backfield",
    "formation",
    "motion",
    "shell",
    "coverage",
    "front",
    "sub",
    "box",
    "rushers",
    "pressure-call",
    "play",
    "drop",
    "protection",
    "protectors",
    "launch",
    "pressure",
    "pressure-from",
    "eyes",
    "read",
    "base",
    "timing",
    "throw-time",
    "target",
    "route",
    "depth",
    "side",
    "window",
    "placement",
    "result",
    "why",
    "gain",
    "touchdown",
    "fumble",
    "penalty",
    "penalty-yards",
    "risk",
    "check",
    "mark",
    "in",
    "out",
    "note",
]
WIDTH = 118
MARKS = "touchdown fumble penalty risk check"


def escape(text):
    return str(text).replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;")


def film_time(seconds):
    tenths = round(seconds * 10)
    return "%d:%02d:%02d.%d" % (tenths // 36000, tenths // 600 % 60, tenths // 10 % 60, tenths % 10)


def attribute(name, value):
    return f'{name}="{film_time(value) if name in ("in", "out") else escape(value)}"'


def snap(row):
    unknown = [name for name in row if name not in ORDER]
    if unknown:
        raise ValueError(f"fields without a place in the chart: {unknown}")
    lines = ["      <snap"]
    for name in ORDER:
        if name not in row:
            continue
        word = " " + attribute(name, row[name])
        if len(lines[-1]) + len(word) > WIDTH:
            lines.append("           ")
        lines[-1] += word
    return "\n".join(lines) + "/>\n"


def official(rows, corrections):
    """The box score that the rows make, with what the official scorer saw otherwise."""
    counted = [row for row in rows if row["result"] != "no-play" and row["play"] != "try"]

    def all_of(*results):
        return [row for row in counted if row["result"] in results]

    complete = all_of("complete")
    box = {
        "attempts": len(all_of("complete", "incomplete", "intercepted", "spike")),
        "completions": len(complete),
        "yards": sum(row["gain"] for row in complete),
        "touchdowns": sum(row.get("touchdown") == "yes" for row in complete),
        "interceptions": len(all_of("intercepted")),
        "sacks": len(all_of("sack")),
        "sack-yards": -sum(row["gain"] for row in all_of("sack")),
    }
    for name, more in corrections.items():
        box[name] += more
    return box


def chart(by, rows, media=""):
    film = f' media="{media}"' if media else ""
    return [f'    <chart by="{by}"{film} marks="{MARKS}">\n', *map(snap, rows), "    </chart>\n"]


def game(plan, rows, result, again=()):
    """`again`: the rows of a second chart, by plan.second."""
    box = official(rows, plan.corrections)
    lines = [
        f'  <game id="{plan.id}" on="{plan.on}" opponent="{escape(plan.opponent.name)}" site="{plan.site}" '
        f'result="{result}">\n',
        "    <official " + " ".join(attribute(name, value) for name, value in box.items()) + "/>\n",
    ]
    lines += chart(plan.by, rows, plan.media)
    if again:
        lines += chart(plan.second, again)
    return "".join(lines) + "  </game>\n"
