#!/usr/bin/env python3
"""Counts a dossier by itself and prints every figure, for the test that holds the compiler's against them.

    expected.py DOSSIER > COUNTS

Lines: `total ID VALUE`; `rate ID SLICE K N`; `value ID SLICE VALUE N` (means, ratios and formulas; nan where there is
none); `claim ID K N K N P-ADJUSTED VERDICT`, for claims on rates."""

import math
import pathlib
import sys
import xml.etree.ElementTree as ElementTree

sys.dont_write_bytecode = True  # the modules beside this one leave no folder behind

from counting import Count, Profile, adjust, fisher, read_snaps

TEMPLATES = pathlib.Path(__file__).resolve().parents[3] / "templates"
FEW = 8


def figures(count):
    for total in count.profile.totals:
        yield f"total {total} {count.total(total):g}"
    for name, measure in count.profile.measures.items():
        for where in [None] + list(count.profile.slices):
            label = where or "all"
            if measure.get("kind") == "rate":
                k, n, _ = count.rate(name, where)
                yield f"rate {name} {label} {k} {n}"
            else:
                value, n = getattr(count, measure.get("kind"))(name, where)
                yield f"value {name} {label} {value:.10g} {n:g}"


def sides(count, claim):
    """k and n of both sides; what a claim is held against is another slice, or the rest of the measure's snaps."""
    k, n, _ = count.rate(claim.get("measure"), claim.get("slice"))
    if claim.get("against"):
        other_k, other_n, _ = count.rate(claim.get("measure"), claim.get("against"))
        return k, n, other_k, other_n
    measure = count.profile.measures[claim.get("measure")]
    inside = count.profile.slices[claim.get("slice")].expression("where")
    rest = [
        snap for snap in count.snaps if inside.evaluate(snap) is False and measure.expression("of").evaluate(snap)
    ]
    answers = [measure.expression("where").evaluate(snap) for snap in rest]
    answers = [answer for answer in answers if answer is not None]
    return k, n, sum(answers), len(answers)


def direction(count, claim):
    better = {"more": 1, "less": -1}[count.profile.measures[claim.get("measure")].get("better")]
    return better if claim.tag == "strength" else -better


def verdict(counts, sign, p):
    k, n, other_k, other_n = counts
    if min(n, other_n) < FEW:
        return "too-few"
    as_claimed = (k / n - other_k / other_n) * sign > 0
    if p <= 0.05:
        return "borne-out" if as_claimed else "contradicted"
    return "leaning" if as_claimed else "leaning-against"


def claims(count, root):
    told = [claim for claim in root if claim.tag in ("strength", "concern")]
    counts = [sides(count, claim) for claim in told]
    chances = adjust([None if min(n, m) < FEW else fisher(k, n, j, m) for k, n, j, m in counts])
    for claim, four, p in zip(told, counts, chances):
        numbers = " ".join(map(str, four))
        found = verdict(four, direction(count, claim), p)
        yield f"claim {claim.get('id')} {numbers} {math.nan if p is None else p:.6g} {found}"


def main():
    root = ElementTree.parse(sys.argv[1]).getroot()
    profile = Profile(TEMPLATES / "profiles" / f"{root.get('profile')}.xml", TEMPLATES / "sets")
    count = Count(profile, read_snaps(profile, root).values())
    for line in list(figures(count)) + list(claims(count, root)):
        print(line)


if __name__ == "__main__":
    main()
