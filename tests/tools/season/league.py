"""An invented league: its schools, how each plays, and who met whom when.

What is told of a school belongs to the team, not to one man of it: the charts of its players are drawn out of games
that do not depend on who is written about, so that two dossiers of one game tell of the same plays."""

from dataclasses import dataclass, field

import people


@dataclass(frozen=True)
class Kicking:
    leg: float = 0.0  # yards of field goal more than usual
    left: float = 0.0  # log odds of a field goal from the left hash
    wind: float = -0.5  # the same with the wind against or across
    decides: float = 0.0  # the same when it decides
    punt: float = 44.0  # mean gross from far out
    punt_wind: float = -4.0
    corner: float = 0.55  # of punts past midfield, dead inside the twenty
    coverage: float = 0.0  # log odds that a punt is returned


@dataclass(frozen=True)
class School:
    name: str
    coverages: dict
    offence: float = 0.0  # log odds of an open lane or a good throw
    defence: float = 0.0
    blitzes: float = 0.18
    turns: float = 0.07
    passes: float = 1.0  # times the usual share of passes
    schemes: dict = field(default_factory=dict)
    gap: float = 0.0  # log odds of an open lane in gap schemes over zone schemes
    passer: people.Passer = people.Passer()
    kicking: Kicking = Kicking()
    surface: str = "grass"
    rush: float = 0.75  # log odds that a dropback against it is pressed


ZONE_RUN = {
    "inside-zone": 9,
    "outside-zone": 6,
    "split-zone": 4,
    "power": 2,
    "counter": 2,
    "duo": 2,
    "draw": 1,
    "jet": 1,
}
GAP_RUN = {
    "power": 6,
    "counter": 6,
    "duo": 5,
    "iso": 2,
    "trap": 2,
    "inside-zone": 4,
    "pin-pull": 2,
    "sweep": 1,
    "draw": 1,
}
WIDE_RUN = {"outside-zone": 7, "pin-pull": 5, "sweep": 3, "jet": 2, "inside-zone": 5, "counter": 2, "split-zone": 2}
MIXED_RUN = {
    "inside-zone": 6,
    "outside-zone": 4,
    "split-zone": 2,
    "power": 3,
    "counter": 3,
    "duo": 3,
    "trap": 1,
    "pin-pull": 2,
    "draw": 1,
    "jet": 1,
}

QUICK = people.Passer({"man": 0.2, "early": 0.4, "off": -0.8, "hit": -0.3}, anticipates=0.3, late=0.15)
SLOW = people.Passer({"man": -0.2, "late": -0.5, "off": -0.9, "fooled": -0.6}, anticipates=0.12, late=0.28)
MERRIN = people.Passer(
    {
        "man": -0.35,
        "zone": 0.45,
        "early": 0.3,
        "late": -0.35,
        "off": -0.3,
        "moving": 0.2,
        "hurry": 0.2,
        "fooled": -0.3,
    },
    anticipates=0.22,
    late=0.18,
    base_lost={"none": 0.14, "hurry": 0.45, "hit": 0.55},
    runs=0.2,
)

SCHOOLS = {
    school.name: school
    for school in (
        School(
            "Harrow Valley",
            people.BALANCED,
            0.25,
            0.0,
            passes=1.12,
            schemes=GAP_RUN,
            passer=people.VASHTI,
            surface="turf",
        ),
        School(
            "Nantmoor", people.ZONE_FIRST, 0.2, 0.15, passes=0.86, schemes=GAP_RUN, gap=0.35, kicking=Kicking(punt=43)
        ),
        School(
            "Ostrey Tech",
            people.BALANCED,
            0.1,
            -0.1,
            0.22,
            passes=1.15,
            schemes=MIXED_RUN,
            passer=MERRIN,
            surface="turf",
        ),
        School("Corrie State", people.MAN_FIRST, 0.15, 0.2, 0.2, schemes=WIDE_RUN, passer=QUICK),
        School("Bellgarth", people.ZONE_FIRST, 0.0, 0.3, 0.14, schemes=MIXED_RUN, surface="turf"),
        School("Sallow Creek", people.BALANCED, -0.15, -0.1, schemes=ZONE_RUN, passer=SLOW),
        School(
            "Tarn County",
            people.BALANCED,
            0.05,
            0.05,
            0.17,
            schemes=MIXED_RUN,
            passer=QUICK,
            kicking=Kicking(leg=2, left=-0.9, wind=-0.4),
        ),
        School("Brackwater", people.ZONE_FIRST, -0.1, 0.1, 0.16, passes=1.05, schemes=WIDE_RUN),
        School(
            "Windle A&M",
            people.MAN_FIRST,
            0.2,
            0.1,
            0.24,
            0.05,
            passes=0.9,
            schemes=GAP_RUN,
            gap=0.7,
            kicking=Kicking(leg=5, wind=-0.2, decides=0.4),
            surface="turf",
        ),
        School(
            "Lowmoor State",
            people.ZONE_FIRST,
            -0.2,
            0.25,
            0.14,
            0.1,
            schemes=MIXED_RUN,
            passer=SLOW,
            kicking=Kicking(punt=46, punt_wind=-2, corner=0.68, coverage=-0.5),
        ),
        School("Cadder Ridge", people.MAN_FIRST, 0.15, 0.0, 0.22, 0.06, schemes=ZONE_RUN, gap=-0.3, passer=QUICK),
        School("Mirefield", people.BALANCED, -0.25, -0.25, 0.2, schemes=WIDE_RUN),
        School(
            "Skerry Point",
            people.ZONE_FIRST,
            0.1,
            0.0,
            0.15,
            0.09,
            passes=1.1,
            schemes=MIXED_RUN,
            kicking=Kicking(punt=43, punt_wind=-7, corner=0.45),
            surface="turf",
        ),
    )
}

# By Saturday: visitor, host. Games of Harrow Valley that its passer's dossier charts are played there and not here.
SCHEDULE = {
    "2031-09-06": (
        ("Tarn County", "Harrow Valley"),
        ("Lowmoor State", "Corrie State"),
        ("Windle A&M", "Sallow Creek"),
        ("Skerry Point", "Nantmoor"),
        ("Cadder Ridge", "Mirefield"),
        ("Ostrey Tech", "Brackwater"),
    ),
    "2031-09-13": (
        ("Brackwater", "Tarn County"),
        ("Nantmoor", "Ostrey Tech"),
        ("Bellgarth", "Lowmoor State"),
        ("Corrie State", "Skerry Point"),
        ("Mirefield", "Windle A&M"),
    ),
    "2031-09-20": (
        ("Harrow Valley", "Windle A&M"),
        ("Nantmoor", "Brackwater"),
        ("Skerry Point", "Mirefield"),
        ("Corrie State", "Ostrey Tech"),
        ("Bellgarth", "Cadder Ridge"),
        ("Sallow Creek", "Lowmoor State"),
    ),
    "2031-09-27": (
        ("Harrow Valley", "Lowmoor State"),
        ("Cadder Ridge", "Corrie State"),
        ("Mirefield", "Sallow Creek"),
        ("Tarn County", "Nantmoor"),
        ("Brackwater", "Windle A&M"),
        ("Ostrey Tech", "Bellgarth"),
    ),
    "2031-10-04": (
        ("Tarn County", "Skerry Point"),
        ("Nantmoor", "Mirefield"),
        ("Lowmoor State", "Cadder Ridge"),
        ("Brackwater", "Bellgarth"),
        ("Windle A&M", "Ostrey Tech"),
        ("Harrow Valley", "Corrie State"),
    ),
    "2031-10-11": (
        ("Nantmoor", "Harrow Valley"),
        ("Skerry Point", "Lowmoor State"),
        ("Ostrey Tech", "Mirefield"),
        ("Corrie State", "Bellgarth"),
        ("Sallow Creek", "Tarn County"),
        ("Cadder Ridge", "Brackwater"),
    ),
    "2031-10-18": (
        ("Cadder Ridge", "Harrow Valley"),
        ("Tarn County", "Ostrey Tech"),
        ("Mirefield", "Brackwater"),
        ("Bellgarth", "Windle A&M"),
        ("Sallow Creek", "Skerry Point"),
        ("Corrie State", "Nantmoor"),
    ),
    "2031-10-25": (
        ("Skerry Point", "Cadder Ridge"),
        ("Mirefield", "Corrie State"),
        ("Harrow Valley", "Sallow Creek"),
        ("Windle A&M", "Tarn County"),
        ("Bellgarth", "Nantmoor"),
        ("Lowmoor State", "Brackwater"),
    ),
    "2031-11-01": (
        ("Windle A&M", "Lowmoor State"),
        ("Mirefield", "Bellgarth"),
        ("Ostrey Tech", "Skerry Point"),
        ("Cadder Ridge", "Tarn County"),
        ("Brackwater", "Harrow Valley"),
        ("Corrie State", "Sallow Creek"),
    ),
    "2031-11-08": (
        ("Harrow Valley", "Skerry Point"),
        ("Ostrey Tech", "Cadder Ridge"),
        ("Brackwater", "Sallow Creek"),
        ("Lowmoor State", "Mirefield"),
        ("Nantmoor", "Windle A&M"),
        ("Tarn County", "Bellgarth"),
    ),
    "2031-11-15": (
        ("Harrow Valley", "Ostrey Tech"),
        ("Cadder Ridge", "Windle A&M"),
        ("Brackwater", "Skerry Point"),
        ("Tarn County", "Corrie State"),
        ("Lowmoor State", "Nantmoor"),
        ("Sallow Creek", "Bellgarth"),
    ),
}


def meetings(school):
    """Every game of a school in order: the day, visitor, host."""
    for day, games in SCHEDULE.items():
        for visitor, host in games:
            if school in (visitor, host):
                yield day, visitor, host
