"""A whole dossier: its charts, its claims with the snaps that show them, its grades and its words."""

import re
from dataclasses import replace

import chart
import grading
import league
import measured
import phrases
import second
from counting import Count, adjust, fisher
from describe import describe
from dice import Dice
from expected import direction, sides, verdict
from write import attribute, escape

FEW = 8
WIDTH = 118
# Games of the flagship: it tells their score, and no other dossier does.
TOLD = {"2031-09-06", "2031-09-20", "2031-09-27", "2031-10-18", "2031-11-08"}


def games_of(entry):
    """The meetings that are charted, spread over those before the filing: day, visitor, host."""
    free = [
        meeting
        for meeting in league.meetings(entry.man.school)
        if meeting[0] < entry.on and not ("Harrow Valley" in meeting[1:] and meeting[0] in TOLD)
    ]
    if entry.games >= len(free):
        return free
    return [free[round(at * (len(free) - 1) / max(1, entry.games - 1))] for at in range(entry.games)]


class Claimed:
    """A claim as counted, for `expected`, which reads elements."""

    def __init__(self, claim):
        self.claim, self.tag = claim, claim.kind

    def get(self, name):
        return getattr(self.claim, name, None) or None


class Report:
    def __init__(self, entry, meetings=None):
        self.entry, self.man = entry, entry.man
        self.profile = chart.profile(self.man.profile)
        self.dice = Dice(f"{self.man.id} words")
        self.meetings = games_of(entry) if meetings is None else meetings
        self.charted = {f"g{at}": chart.rows(self.man, *meeting) for at, meeting in enumerate(self.meetings, 1)}
        self._blank()
        self.snaps = chart.snaps_of(self.profile, self.charted)
        self.rows = {f"{game}.{row['n']}": row for game, rows in self.charted.items() for row in rows}
        self.count = Count(self.profile, self.snaps.values())
        self.cited = set()
        self.used = set()
        self.noted = set()  # traits with a word beside their grade

    def _blank(self):
        """What could not be seen on film."""
        dice = Dice(f"{self.man.id} blanks")
        for name, count in sorted(self.entry.blanks.items()):
            rows = [row for rows in self.charted.values() for row in rows if name in row]
            for _ in range(min(count, len(rows))):
                del rows.pop(dice.whole(0, len(rows) - 1))[name]

    # Claims

    def judged(self):
        """Each claim with its counts and what the chart says of it."""
        told = [Claimed(claim) for claim in self.entry.claims]
        counts = [sides(self.count, claim) for claim in told]
        chances = adjust([None if min(n, m) < FEW else fisher(k, n, j, m) for k, n, j, m in counts])
        return [
            (claim.claim, four, verdict(four, direction(self.count, claim), p))
            for claim, four, p in zip(told, counts, chances)
        ]

    def _fresh(self, bank):
        """One of the bank that this dossier has not used."""
        left = [text for text in bank if text not in self.used] or list(bank)
        text = self.dice.pick(dict.fromkeys(left, 1))
        self.used.add(text)
        return text

    def figure(self, claim):
        slices = self.profile.slices
        pa = slices[claim.slice].get("phrase")
        pb = slices[claim.against].get("phrase") if claim.against else "otherwise"
        a = stat(claim.measure, claim.slice)
        b = stat(claim.measure, claim.against) if claim.against else None
        text = self._fresh(phrases.FIGURES[claim.measure])
        if b is None:
            return f"{_first(text, pa, a)} " + self._fresh(phrases.OVER_ALL).format(s=stat(claim.measure))
        return text.format(a=a, b=b, pa=pa, pb=pb, Pa=pa[0].upper() + pa[1:])

    def cites(self, claim):
        """Snaps that show it and one that speaks against it, none of them cited before."""
        measure = self.profile.measures[claim.measure]
        of, hit = measure.expression("of"), measure.expression("where")
        inside = self.profile.slices[claim.slice].expression("where")
        sign = direction(self.count, Claimed(claim)) > 0
        wanted, against = [], []
        for name, snap in self.snaps.items():
            if name in self.cited or not self.profile.counted.evaluate(snap) or inside.evaluate(snap) is not True:
                continue
            if of and of.evaluate(snap) is not True:
                continue
            answer = hit.evaluate(snap)
            if answer is None:
                continue
            (wanted if answer is sign else against).append(name)
        shown = self._pick(wanted, 3 if len(wanted) > 2 else len(wanted))
        other = self._pick(against, 1 if len(against) else 0)
        if not shown:
            shown, other = other, []
        self.cited.update(shown + other)
        return shown, other

    def _most(self, claim):
        """The opponent against whom the claim showed most often."""
        hit = self.profile.measures[claim.measure].expression("where")
        inside = self.profile.slices[claim.slice].expression("where")
        sign = direction(self.count, Claimed(claim)) > 0
        seen = dict.fromkeys(self.charted, 0)
        for name, snap in self.snaps.items():
            seen[name.split(".")[0]] += inside.evaluate(snap) is True and hit.evaluate(snap) is sign
        game = max(seen, key=seen.get)
        _, visitor, host = self.meetings[int(game[1:]) - 1]
        return visitor if host == self.man.school else host

    def _pick(self, names, count):
        """The telling ones first: marked, late, or far from what usually comes of a snap."""

        def weight(name):
            row = self.rows[name]
            marked = 2.5 if row.get("mark") in ("+", "-") else 1
            return marked * (1.5 if row.get("down", 0) >= 3 else 1) * (1.4 if row.get("touchdown") else 1)

        left, chosen = {name: weight(name) for name in names}, []
        for _ in range(count):
            name = self.dice.pick(left)
            del left[name]
            chosen.append(name)
        return sorted(chosen, key=list(self.rows).index)

    def claim(self, claim, four, found):
        shown, other = self.cites(claim)
        parts = [claim.says, self.figure(claim), self._fresh(phrases.VERDICTS[found])]
        pointer = self._fresh(phrases.POINTERS)
        if self.dice.chance(0.65) and shown and ("{x}" not in pointer or other):
            words = {"c": f'<cite snap="{shown[0]}"/>', "x": f'<cite snap="{other[0]}"/>' if other else ""}
            parts.insert(2 if self.dice.chance(0.5) else 3, pointer.format(**words))
        if self.dice.chance(0.6) and found in ("borne-out", "leaning"):
            parts.insert(1, self._fresh(phrases.WHERE).format(o=escape(self._most(claim))))
        against = f' against="{claim.against}"' if claim.against else ""
        lines = [
            f'  <{claim.kind} id="{claim.id}" title="{escape(claim.title)}" slice="{claim.slice}"{against} measure="{claim.measure}">\n',
            paragraph(" ".join(parts), 4),
        ]
        for name in shown:
            lines.append(f'    <cite snap="{name}">{escape(self.shorthand(name))}</cite>\n')
        for name in other:
            text = self.shorthand(name)
            lines.append(f'    <cite snap="{name}" against="yes">{escape(text[0].lower() + text[1:])}</cite>\n')
        return "".join(lines) + f"  </{claim.kind}>\n\n"

    def shorthand(self, name):
        return describe(self.man.profile, self.rows[name], self.dice)

    # Games

    def game(self, at, meeting):
        entry, (day, visitor, host) = self.entry, meeting
        name = f"g{at + 1}"
        week = f"wk{(list(league.SCHEDULE).index(day)) + 1}"
        home = host == self.man.school
        opponent = visitor if home else host
        lines = [
            f'  <game id="{name}" on="{day}" opponent="{escape(opponent)}" site="{"home" if home else "away"}" '
            f'result="{chart.result(self.man, *meeting)}">\n',
            self.official(name, entry.corrections.get(at, {})),
            *self.chart_lines(self.charter(at), self.charted[name], week),
        ]
        if at in entry.second:
            again = second.chart_of(self.profile, self.charted[name], f"{self.man.id} {day}")
            lines += self.chart_lines(self.second_charter(at), again)
        return "".join(lines) + "  </game>\n"

    def games_xml(self):
        return "".join(self.game(at, meeting) for at, meeting in enumerate(self.meetings))

    def charter(self, at):
        """Mostly who files; a game on the way is another's."""
        other = {"rk": "dm", "dm": "rk"}[self.entry.by]
        return other if at % 4 == 3 and self.entry.games > 3 else self.entry.by

    def second_charter(self, at):
        return "tw" if self.charter(at) == "dm" and at % 2 else {"rk": "dm", "dm": "rk"}[self.charter(at)]

    def official(self, game, corrections):
        names = [name for name, total in self.profile.totals.items() if total.get("official") == "yes"]
        snaps = [snap for name, snap in self.snaps.items() if name.startswith(game + ".")]
        snaps = [snap for snap in snaps if self.profile.counted.evaluate(snap) is True]
        totals = {name: int(self.count.total(name, snaps)) + corrections.get(name, 0) for name in names}
        words = " ".join(f'{name}="{value}"' for name, value in totals.items())
        return f"    <official {words}/>\n" if words else ""

    def chart_lines(self, by, rows, media=""):
        film = f' media="{media}"' if media else ""
        known = chart.marks(self.profile)
        marked = f' marks="{known}"' if known else ""
        yield f'    <chart by="{by}"{film}{marked}>\n'
        for row in rows:
            yield snap_line(row)
        yield "    </chart>\n"

    # Grades

    def grades(self):
        entry = self.entry
        return "".join(self._grades_by(by, at) for at, by in enumerate((entry.by, *entry.graders)))

    def _grades_by(self, by, at):
        entry = self.entry
        dice = Dice(f"{self.man.id} {by} grades")
        day = entry.on if at == 0 else f"{entry.on[:8]}{max(1, int(entry.on[8:]) - 1 - at):02d}"
        lean = 0 if at == 0 else dice.pick({-0.25: 1, 0: 2, 0.25: 1})
        values = {
            trait: half(entry.level + entry.traits.get(trait, 0) + lean + dice.between(-0.45, 0.45))
            for trait in self.profile.traits
        }
        weights = self.profile.traits
        composite = sum(weights[t] * v for t, v in values.items()) / sum(weights.values())
        overall = round(
            composite + (0.2 if entry.says and at == 0 and entry.level > 6 else 0) + dice.between(-0.12, 0.12), 1
        )
        lines = [f'  <grades by="{by}" on="{day}">\n']
        for trait, value in values.items():
            # A grade under the bar is never left without a word: the page would print what the trait is at the bar.
            share = 0.2 if at else 0.7 if value >= 6 else 1
            wanted = dice.chance(share) and trait not in self.noted
            says = grading.note(self.man.profile, trait, value) if wanted else ""
            if says:
                self.noted.add(trait)
            end = f">{escape(says)}</grade>" if says else "/>"
            lines.append(f'    <grade trait="{trait}" value="{value:g}"{end}\n')
        fit = f' fit="{escape(entry.fit)}"' if entry.fit else ""
        role = f' role="{escape(entry.role)}"' if entry.role else ""
        end = f">{escape(entry.says)}</overall>" if entry.says and at == 0 else "/>"
        when = f' when="{entry.when}"' if entry.when else ""
        lines.append(
            f'    <overall value="{overall:.1f}"{when}{fit if at == 0 else ""}{role if at == 0 else ""}{end}\n'
        )
        return "".join(lines) + "  </grades>\n"

    # All of it

    def xml(self):
        entry, man = self.entry, self.man
        kinds = measurable_kinds(man.profile)
        lines = [
            '<?xml version="1.0" encoding="UTF-8"?>\n',
            "<!-- A demonstration. The league, the schools and everybody in them are invented. -->\n",
            f'<dossier format="1" id="{man.id}" profile="{man.profile}">\n',
            f'  <player position="{entry.position}" class="{entry.standing}" jersey="{entry.jersey}" born="{entry.born}">\n',
            f"    <name><given>{entry.given}</given><family>{entry.family}</family></name>\n",
            f"    <school>{escape(man.school)}</school>\n  </player>\n",
            f'  <filing by="{entry.by}" on="{entry.on}" revision="{entry.revision}">{escape(entry.note)}</filing>\n\n',
        ]
        if entry.measured != "none":
            lines.append("  <measurables>\n")
            lines += [
                f"    {line}\n" for line in measured.lines(man, entry.body, entry.traits, entry.measured, kinds)
            ]
            lines.append("  </measurables>\n\n")
        for day, _, _ in self.meetings:
            week = list(league.SCHEDULE).index(day) + 1
            lines.append(
                f'  <media id="wk{week}" href="film/wk{week}-{"side" if week % 3 else "end"}.mp4" fps="59.94"/>\n'
            )
        lines += ["\n"] if self.meetings else []
        lines.append(self.games_xml())
        lines += ["\n"] if self.meetings else []
        lines += [self.claim(*judged) for judged in self.judged()]
        if self.meetings or entry.graders:
            lines.append(self.grades())
        for tag in ("bottom", "background", "medical", "personal"):
            told = getattr(entry, tag)
            if told:
                name = "bottom-line" if tag == "bottom" else tag
                lines.append(
                    f"\n  <{name}>\n" + "".join(paragraph(figures(text), 4) for text in told) + f"  </{name}>\n"
                )
        return "".join(lines) + "</dossier>\n"


def measurable_kinds(name):
    import xml.etree.ElementTree as ElementTree

    root = ElementTree.parse(chart.TEMPLATES / "profiles" / f"{name}.xml").getroot()
    return {node.get("kind") for node in root.findall("measurable")}


def half(value):
    return min(9.5, max(1, round(value * 2) / 2))


def _first(text, pa, a):
    """The part of a figure sentence that tells of one side only."""
    one = re.split(r"[,;:]?\s*(?:and\s+)?(?:on\s+|of\s+)?\{p?b\}", text)[0]
    return one.format(a=a, pa=pa, Pa=pa[0].upper() + pa[1:]).rstrip(" ,;:") + "."


def stat(measure, where="", how="k-of-n"):
    inside = f' slice="{where}"' if where else ""
    return f'<stat measure="{measure}"{inside} as="{how}"/>'


def figures(text):
    """{measure}, {measure|slice}, {measure|slice|as} and {#total} as elements."""

    def one(found):
        words = found.group(1)
        if words[0] == "#":
            return f'<stat total="{words[1:]}"/>'
        measure, where, how = (words.split("|") + ["", ""])[:3]
        inside = f' slice="{where}"' if where else ""
        value = measure.endswith(("-time", "-mean", "-distance", "-net"))
        return f'<stat measure="{measure}"{inside} as="{how or ("value" if value else "k-of-n")}"/>'

    return re.sub(r"\{([^}]+)\}", one, escape_text(text))


def escape_text(text):
    return text.replace("&", "&amp;") if "<" not in text else text


def paragraph(text, indent):
    """Broken between words, and never inside an element."""
    words = re.findall(r"(?:<[^>]*>|[^\s<])+", text)
    lines, line = [], " " * indent + "<p>"
    for word in words:
        if len(line) + len(word) > WIDTH and line.strip() != "<p>":
            lines.append(line.rstrip())
            line = " " * (indent + 2)
        line += word + " "
    return "\n".join([*lines, line.rstrip() + "</p>"]) + "\n"


def snap_line(row):
    lines = ["      <snap"]
    for name, value in row.items():
        word = " " + attribute(name, value)
        if len(lines[-1]) + len(word) > WIDTH:
            lines.append("           ")
        lines[-1] += word
    return "\n".join(lines) + "/>\n"


def earlier(entry):
    """The same report as it stood then."""
    before = entry.earlier
    return Report(
        replace(
            entry,
            on=before.on,
            revision=entry.revision - 1,
            note=before.note,
            claims=tuple(claim for claim in entry.claims if claim.id in before.claims),
            level=entry.level + before.level,
            bottom=(before.bottom,),
            graders=(),
            says="",
            personal=(),
            second=(),
        ),
        games_of(entry)[: before.games],
    )
