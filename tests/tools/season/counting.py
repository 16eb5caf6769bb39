"""Counts a dossier's snaps by its profile's own expressions: an independent reading of the rules, to hold the
compiler against.

States: a value is known, unknown (None) or not applicable (NA). A comparison with what does not apply is false; with
what is unknown it is unknown; and, or, not follow Kleene. In a calc a term that does not apply counts nothing."""

import copy
import math
import re
import xml.etree.ElementTree as ElementTree

NA = object()
TOKEN = re.compile(r"\s*(@[\w-]+|\$[\w-]+|\d+\.?\d*|\.\d+|'[^']*'|!=|<=|>=|[=<>+*()-]|[a-z]+)")


def tokens(text):
    at, found = 0, []
    text = text.strip()
    while at < len(text):
        match = TOKEN.match(text, at)
        if not match:
            raise ValueError(f"cannot read {text[at:]!r} of {text!r}")
        found.append(match.group(1))
        at = match.end()
    return found


class Expression:
    """Compiled to closures that take a function from names to values."""

    def __init__(self, text, calc=False):
        self.tokens, self.at, self.calc = tokens(text), 0, calc
        self.evaluate = self._either()
        if self.at != len(self.tokens):
            raise ValueError(f"left over in {text!r}")

    def _next(self, *wanted):
        if self.at < len(self.tokens) and self.tokens[self.at] in wanted:
            self.at += 1
            return self.tokens[self.at - 1]
        return None

    def _either(self):
        left = self._both()
        while self._next("or"):
            left = self._join(left, self._both(), True)
        return left

    def _both(self):
        left = self._compare()
        while self._next("and"):
            left = self._join(left, self._compare(), False)
        return left

    @staticmethod
    def _join(left, right, decides):
        def join(get):
            a, b = left(get), right(get)
            if a is decides or b is decides:
                return decides
            return None if a is None or b is None else not decides

        return join

    def _compare(self):
        left = self._sum()
        sign = self._next("=", "!=", "<", "<=", ">", ">=")
        return self._relation(sign, left, self._sum()) if sign else left

    @staticmethod
    def _relation(sign, left, right):
        test = {
            "=": lambda a, b: a == b,
            "!=": lambda a, b: a != b,
            "<": lambda a, b: a < b,
            "<=": lambda a, b: a <= b,
            ">": lambda a, b: a > b,
            ">=": lambda a, b: a >= b,
        }[sign]

        def relation(get):
            a, b = left(get), right(get)
            if a is NA or b is NA:
                return False
            return None if a is None or b is None else test(a, b)

        return relation

    def _sum(self):
        left = self._product()
        while sign := self._next("+", "-"):
            left = self._arithmetic(sign, left, self._product())
        return left

    def _product(self):
        left = self._unary()
        while sign := self._next("*", "div"):
            left = self._arithmetic(sign, left, self._unary())
        return left

    def _arithmetic(self, sign, left, right):
        act = {
            "+": lambda a, b: a + b,
            "-": lambda a, b: a - b,
            "*": lambda a, b: a * b,
            "div": lambda a, b: a / b if b else math.nan,
        }[sign]

        def arithmetic(get):
            a, b = left(get), right(get)
            if self.calc:
                a, b = 0 if a is NA else a, 0 if b is NA else b
            if a is NA or b is NA:
                return NA
            return None if a is None or b is None else act(a, b)

        return arithmetic

    def _unary(self):
        if self._next("-"):
            return self._arithmetic("-", lambda get: 0, self._unary())
        if self._next("not"):
            inner = self._parenthesis()

            def negate(get):
                value = inner(get)
                return None if value is None else not value

            return negate
        if self.tokens[self.at] == "(":
            return self._parenthesis()
        token = self.tokens[self.at]
        self.at += 1
        if token[0] in "@$":
            return lambda get: get(token[1:])
        value = token[1:-1] if token[0] == "'" else float(token)
        return lambda get: value

    def _parenthesis(self):
        if not self._next("("):
            raise ValueError("a parenthesis is missing")
        inner = self._either()
        if not self._next(")"):
            raise ValueError("a parenthesis is not closed")
        return inner


def spot_value(text):
    return 50.0 if text == "50" else 100 + float(text) if text[0] == "-" else float(text)


def seconds(text):
    total = 0.0
    for part in text.split(":"):
        total = total * 60 + float(part)
    return total


class Profile:
    def __init__(self, path, sets):
        root = ElementTree.parse(path).getroot()
        self.id = root.get("id")
        self.traits = {node.get("id"): float(node.get("weight")) for node in root.findall("trait")}
        self.fields, self.slices, self.totals, self.measures = {}, {}, {}, {}
        for part in self._parts(root, sets, set()):
            for node in part:
                if node.tag in ("field", "derived"):
                    self._add(self.fields, node)
                for kind, where in (("slice", self.slices), ("total", self.totals), ("measure", self.measures)):
                    if node.tag == kind:
                        self._add(where, node)
        self.counted = Expression(root.get("counted"))

    @classmethod
    def _parts(cls, root, sets, used):
        """The sets that it uses, and theirs, each once, and then itself."""
        parts = []
        for use in root.findall("use"):
            name = use.get("set")
            if name not in used:
                used.add(name)
                parts += cls._parts(ElementTree.parse(f"{sets}/{name}.xml").getroot(), sets, used)
        return parts + [root]

    @staticmethod
    def _add(where, node):
        known = where.get(node.get("id"))
        if known is None:
            where[node.get("id")] = Node(node)
        elif node.tag == "field" and known.tag == "field":
            known.join(node)  # of two sets: it applies where either has it apply
        else:
            raise ValueError(f"{node.get('id')} is there twice")


class Node:
    """An element with room for what was compiled from it."""

    def __init__(self, element):
        self.element = element
        self.tag = element.tag
        self.compiled = {}

    def get(self, name):
        return self.element.get(name)

    def join(self, other):
        joined = copy.deepcopy(self.element)
        if joined.get("when") and other.get("when"):
            joined.set("when", f"({joined.get('when')}) or ({other.get('when')})")
        elif joined.get("when"):
            del joined.attrib["when"]
        for name in ("required", "exception"):
            if other.get(name) == "yes":
                joined.set(name, "yes")
        self.element, self.compiled = joined, {}

    def expression(self, name, calc=False):
        if name not in self.compiled:
            text = self.get(name)
            self.compiled[name] = Expression(text, calc) if text else None
        return self.compiled[name]


class Snap:
    """Field values of one charted snap, made when asked for."""

    def __init__(self, profile, element, marks):
        self.profile, self.element, self.marks, self.known = profile, element, marks, {}

    def __call__(self, name):
        if name not in self.known:
            self.known[name] = self._value(name)
        return self.known[name]

    def _value(self, name):
        field = self.profile.fields[name]
        if field.tag == "derived":
            return self._derived(field)
        when = field.expression("when")
        if when:
            applies = when.evaluate(self)
            if applies is not True:
                return NA if applies is False else None
        text = self.element.get(name)
        if text is None:
            return self._blank(field)
        kind = field.get("type")
        if kind == "distance" and text == "goal":
            return self(field.get("of"))
        reader = {"number": float, "distance": float, "spot": spot_value, "clock": seconds, "time": seconds}.get(
            kind, str
        )
        return reader(text)

    def _blank(self, field):
        if field.get("exception") != "yes" or field.get("id") not in self.marks:
            return None
        return "no" if field.get("type") == "yes-no" else field.element.find("value").get("id")

    def _derived(self, field):
        if field.get("test"):
            truth = field.expression("test").evaluate(self)
            return None if truth is None else "yes" if truth else "no"
        if field.get("calc"):
            return field.expression("calc", calc=True).evaluate(self)
        value = self(field.get("map") or field.get("band") or field.get("read"))
        if value is None or value is NA or field.get("read"):
            return value
        for choice in field.element.findall("value"):
            if field.get("map") and value in choice.get("from").split():
                return choice.get("id")
            if field.get("band") and float(choice.get("low")) <= value <= float(choice.get("high")):
                return choice.get("id")
        return None


class Count:
    """The figures of one dossier."""

    def __init__(self, profile, snaps):
        self.profile = profile
        self.snaps = [snap for snap in snaps if profile.counted.evaluate(snap) is True]

    def total(self, name, snaps=None):
        total = self.profile.totals[name]
        where, what = total.expression("where"), total.expression("sum")
        amount = 0
        for snap in self.snaps if snaps is None else snaps:
            if where and where.evaluate(snap) is not True:
                continue
            value = what.evaluate(snap) if what else 1
            amount += value if value is not None and value is not NA else 0
        return amount

    def within(self, where):
        """Snaps of a slice or selection; those where it is unknown are left out and counted."""
        if where is None:
            return self.snaps, 0
        expression = self.profile.slices[where].expression("where") if isinstance(where, str) else where
        truths = [(snap, expression.evaluate(snap)) for snap in self.snaps]
        return [snap for snap, truth in truths if truth], sum(truth is None for _, truth in truths)

    def rate(self, name, where=None):
        """k, n and the snaps that cannot be answered."""
        measure = self.profile.measures[name]
        of, hit = measure.expression("of"), measure.expression("where")
        selection = (
            None
            if where is None
            else (self.profile.slices[where].expression("where") if isinstance(where, str) else where)
        )
        k = n = unknown = 0
        for snap in self.snaps:
            inside = of.evaluate(snap) if of else True
            sliced = selection.evaluate(snap) if selection else True
            if inside is False or sliced is False:
                continue
            answer = hit.evaluate(snap)
            if inside is None or sliced is None or answer is None:
                unknown += 1
            else:
                n += 1
                k += answer
        return k, n, unknown

    def mean(self, name, where=None):
        measure = self.profile.measures[name]
        of, x = measure.expression("of"), measure.expression("x")
        snaps, _ = self.within(where)
        values = [x.evaluate(snap) for snap in snaps if not of or of.evaluate(snap) is True]
        values = [value for value in values if value is not None and value is not NA]
        return (sum(values) / len(values) if values else math.nan), len(values)

    def ratio(self, name, where=None):
        measure = self.profile.measures[name]
        snaps, _ = self.within(where)
        over, under = self.total(measure.get("over"), snaps), self.total(measure.get("under"), snaps)
        return (over / under if under else math.nan), under

    def formula(self, name, where=None):
        measure = self.profile.measures[name]
        snaps, _ = self.within(where)
        value = 0.0
        for part in measure.element.findall("part"):
            got = Expression(part.get("formula")).evaluate(lambda total: self.total(total, snaps))
            low, high = float(part.get("low") or -math.inf), float(part.get("high") or math.inf)
            value += min(max(got, low), high)
        return value * float(measure.get("scale") or 1), self.total(measure.get("n"), snaps)


def read_snaps(profile, root):
    """All snaps of a dossier by name; of a game charted twice, those of the first chart."""
    snaps = {}
    for game in root.findall("game"):
        for chart in game.findall("chart")[:1]:
            for element in chart.findall("snap"):
                snaps[f"{game.get('id')}.{element.get('n')}"] = Snap(
                    profile, element, (chart.get("marks") or "").split()
                )
    return snaps


def fisher(k1, n1, k2, n2):
    """Two-sided exact test of two counts: the probability of every table no likelier than the one seen."""
    total, hits = n1 + n2, k1 + k2

    def chance(k):
        return math.comb(n1, k) * math.comb(n2, hits - k) / math.comb(total, hits)

    seen = chance(k1) * (1 + 1e-7)
    low, high = max(0, hits - n2), min(n1, hits)
    return min(1.0, sum(p for p in map(chance, range(low, high + 1)) if p <= seen))


def adjust(chances):
    """Benjamini and Hochberg's step-up; None stays None."""
    order = sorted((p, at) for at, p in enumerate(chances) if p is not None)
    adjusted, least = list(chances), 1.0
    for rank in range(len(order), 0, -1):
        p, at = order[rank - 1]
        least = min(least, p * len(order) / rank)
        adjusted[at] = least
    return adjusted
