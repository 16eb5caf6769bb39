"""What is known of one player of the season besides what his games show."""

from dataclasses import dataclass, field

from charter import Man


@dataclass(frozen=True)
class Claim:
    kind: str  # strength or concern
    id: str
    title: str
    slice: str
    against: str  # "" for all the rest
    measure: str
    says: str  # the scout's own words, before the figure


def plus(*parts):
    return Claim("strength", *parts)


def minus(*parts):
    return Claim("concern", *parts)


@dataclass(frozen=True)
class Earlier:
    """An older filing of the same report: its first games only."""

    on: str
    note: str
    games: int
    claims: tuple
    level: float = 0.0  # added to every grade
    bottom: str = ""


@dataclass(frozen=True)
class Entry:
    man: Man
    given: str
    family: str
    position: str
    standing: str  # senior, junior …
    jersey: int
    born: str
    by: str
    on: str
    revision: int
    note: str
    games: int
    level: float
    fit: str
    role: str
    when: str
    says: str
    claims: tuple
    bottom: tuple
    background: tuple
    medical: tuple = ()
    personal: tuple = ()
    traits: dict = field(default_factory=dict)  # grade against his level
    graders: tuple = ("tw",)
    body: float = 0.0  # where he lies among his position, in tenths of the way: 0 is the middle
    measured: str = "spring"  # spring, list or none
    second: tuple = ()  # games charted again by another man
    corrections: dict = field(default_factory=dict)  # by game: what the official scorer saw otherwise
    blanks: dict = field(default_factory=dict)  # fields not made out on film: how many
    earlier: Earlier = None
    file: str = ""
