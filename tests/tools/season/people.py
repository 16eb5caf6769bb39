"""Invented passers and opponents: what the simulation believes about them. Weights are relative, effects in log odds."""

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Passer:
    """How a passer plays. `effects` move the log odds of a throw on target; the rest are chances."""

    effects: dict = field(default_factory=dict)
    anticipates: float = 0.25  # of throws on which the route has a break to throw ahead of
    late: float = 0.20
    base_lost: dict = field(default_factory=lambda: {"none": 0.10, "hurry": 0.40, "hit": 0.55})
    runs: float = 0.08  # scrambles, of dropbacks under pressure
    risk_when_fooled: float = 0.30


@dataclass(frozen=True)
class Opponent:
    name: str
    coverages: dict
    blitzes: float  # five rushers or more, of snaps in coverages that can spare them
    turns: float  # the shell shown is not the one played
    scores: float  # strength of its own offence: chance of a touchdown in a drive
    rush: float = 0.0  # log odds that a dropback is pressed


MAN_FIRST = {
    "1": 16,
    "1-robber": 8,
    "1-hole": 4,
    "0": 4,
    "2-man": 8,
    "bracket": 1,
    "3": 14,
    "3-match": 10,
    "3-fire": 5,
    "4": 6,
    "4-match": 6,
    "2": 5,
    "6": 5,
}
ZONE_FIRST = {
    "1": 9,
    "1-robber": 4,
    "1-hole": 2,
    "0": 2,
    "2-man": 3,
    "3": 18,
    "3-match": 10,
    "3-cloud": 5,
    "3-fire": 6,
    "4": 11,
    "4-match": 10,
    "2": 8,
    "2-middle": 5,
    "2-read": 6,
    "6": 9,
    "other": 1,
}
BALANCED = {
    "1": 14,
    "1-robber": 6,
    "1-hole": 3,
    "0": 3,
    "2-man": 6,
    "bracket": 1,
    "3": 15,
    "3-match": 9,
    "3-cloud": 3,
    "3-fire": 5,
    "4": 9,
    "4-match": 8,
    "2": 6,
    "2-middle": 3,
    "2-read": 4,
    "6": 6,
}

VASHTI = Passer(
    effects={
        "man": 0.60,
        "zone": -0.30,
        "early": 0.65,
        "late": -0.45,
        "off": -1.25,
        "moving": -0.35,
        "hurry": -0.10,
        "hit": -0.25,
        "fooled": -0.45,
        "fourth": 0.85,
    },
    anticipates=0.34,
    late=0.17,
    risk_when_fooled=0.34,
)

OHASHI = Passer(
    effects={
        "man": -0.20,
        "zone": 0.20,
        "early": 0.10,
        "late": -0.30,
        "off": -0.30,
        "moving": 0.35,
        "hurry": 0.05,
        "hit": -0.2,
        "fooled": -0.1,
        "fourth": 0.0,
    },
    anticipates=0.12,
    late=0.30,
    base_lost={"none": 0.16, "hurry": 0.50, "hit": 0.60},
    runs=0.26,
    risk_when_fooled=0.12,
)
