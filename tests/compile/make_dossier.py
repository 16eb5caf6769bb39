#!/usr/bin/env python3
"""Writes an invented dossier of a given shape on standard output, and what its PDF must say to a file.

    make_dossier.py SAYS [--games N] [--snaps N] [--claims N] [--measurables] [--long] [--odd]

SAYS gets one line for each text that the PDF must hold.
"""
import argparse
from xml.sax.saxutils import escape, quoteattr

CLAIMS = [  # slice, against, measure: all can be tested on the snaps below
    ("set-base", "off-base", "on-target"), ("man", "zone", "on-target"), ("first-read", "late-read", "on-target"),
    ("unhurried", "pressured", "on-target"), ("four-rush", "blitzed", "on-target"), ("early-down", "last-downs", "on-target"),
    ("man", "zone", "pass-success"), ("unhurried", "pressured", "pass-success"), ("early-down", "last-downs", "pass-success"),
    ("four-rush", "blitzed", "pass-success"), ("set-base", "off-base", "risk-rate"), ("man", None, "risk-rate"),
]
COVERAGES = [("1-high", "1"), ("1-high", "3"), ("2-high", "4"), ("2-high", "2-man")]
MEASURABLES = [("height", "6023"), ("weight", "221"), ("hand", "0948"), ("forty", "4.74"), ("cone", "7.02")]
LONG = "Ka‘anapaliokeanuenuemakakehau"  # a name that is longer than a column is wide
ODD = "é ñ ʻ – ⅜ ≥"


def snap(number, drive):
    """Snap `number` of a game: one first down after the other, so that the chain of a drive never breaks."""
    shell, coverage = COVERAGES[number % 4]
    good = number % 3 != 0
    minute, second = divmod(max(0, 900 - 12 * (number % 70)), 60)
    values = dict(n=number, drive=drive, quarter=1 + number // 70 % 4, clock=f"{minute}:{second:02d}", down=1 + number % 4,
                  distance=10, spot="-25", personnel="11", shell=shell, coverage=coverage, rushers=4 + number % 2, play="pass",
                  drop="5", pressure="none" if number % 5 else "hurry", read=1 + number % 2,
                  base="set" if number % 4 else "off", timing="on", target="WR", route="dig", depth=11, side="middle",
                  placement="on" if good else "high", result="complete" if good else "incomplete", gain=12 if good else 0)
    if not good:
        values["why"] = "off"
    return values


def attributes(values):
    return " ".join(f"{name}={quoteattr(str(value))}" for name, value in values.items())


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("says")
    parser.add_argument("--games", type=int, default=0)
    parser.add_argument("--snaps", type=int, default=0, help="a game")
    parser.add_argument("--claims", type=int, default=0)
    parser.add_argument("--measurables", action="store_true")
    parser.add_argument("--long", action="store_true", help="names of hundreds of letters")
    parser.add_argument("--odd", action="store_true", help="letters and signs beyond ASCII")
    asked = parser.parse_args()
    says = []

    def said(text):
        says.append(text)
        return escape(text)

    given = " ".join([LONG] * 3) if asked.long else "Lowri"
    family = "-".join([LONG] * 4) if asked.long else "Penhallow"
    school = " ".join(["University of the Upper Dunmere Valley"] * 4) if asked.long else "Dunmere"
    print('<?xml version="1.0" encoding="UTF-8"?>')
    print('<dossier format="1" id="qb-made" profile="quarterback">')
    print(f'  <player position="QB"><name><given>{said(given)}</given><family>{said(family)}</family></name>')
    print(f'    <school>{said(school)}</school></player>')
    print('  <filing by="lo" on="2031-12-01">Made for a test.</filing>')
    if asked.measurables:
        print("  <measurables>")
        for kind, value in MEASURABLES:
            says.append(value)
            print(f'    <measurable kind="{kind}" value="{value}" status="verified" on="2031-03-02"/>')
        print("  </measurables>")
    for game in range(1, asked.games + 1):
        opponent = f"{'Saint ' * (30 if asked.long else 1)}Askerby {game}"
        says.append(opponent)
        print(f'  <game id="g{game}" on="2031-10-{game:02d}" opponent={quoteattr(opponent)} site="away">')
        print('    <chart by="lo" marks="touchdown fumble risk">')
        for number in range(1, asked.snaps + 1):
            says.append(f"g{game}.{number}")
            print(f"      <snap {attributes(snap(number, 1 + number // 12))}/>")
        print("    </chart>\n  </game>")
    for index in range(asked.claims):
        about, against, measure = CLAIMS[index % len(CLAIMS)]
        kind = "concern" if index % 3 == 2 else "strength"
        versus = f' against="{against}"' if against else ""
        title = f"Claim number {index + 1}" + (f" {LONG * 2}" if asked.long else "")
        print(f'  <{kind} id="c{index + 1}" title={quoteattr(title)} slice="{about}"{versus} measure="{measure}">')
        says.append(title)
        print(f'    <p>{said(f"The prose of claim {index + 1} says so on")} <stat measure="{measure}" slice="{about}" as="k-of-n"/>.</p>')
        for cite in range(1, 5):
            print(f'    <cite snap="g1.{cite}">{said(f"clip {cite} of claim {index + 1}")}</cite>')
        print(f"  </{kind}>")
    print("  <bottom-line>")
    print(f"    <p>{said('Made for a test, and worth no choice.')}</p>")
    if asked.odd:
        print(f"    <p>{said('Said in letters: ' + ODD)}</p>")
    if asked.long:
        print(f"    <p>{said('Nowhereendingword' * 3)}</p>")
    print("  </bottom-line>\n</dossier>")
    with open(asked.says, "w", encoding="utf-8") as file:
        file.write("\n".join(says) + "\n")


main()
