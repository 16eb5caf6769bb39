"""Players whose words are written by hand, in NAME_prose.xml around the chart that their games give: a change here or of
the league makes other snaps, and then the words must be looked at again."""

from charter import Man
from entry import Entry


def by_hand(man, games, by, on, second=(), corrections=None, blanks=None):
    return Entry(
        man,
        "",
        "",
        "",
        "",
        0,
        "",
        by,
        on,
        0,
        "",
        games,
        0,
        "",
        "",
        "",
        "",
        (),
        (),
        (),
        second=second,
        corrections=corrections or {},
        blanks=blanks or {},
    )


HAND = (
    by_hand(
        Man(
            "rb-tessaly",
            "running-back",
            "Nantmoor",
            0.3,
            {"own": 0.9, "choice": 0.3, "opp-edge": -2.2, "opp-backer": -0.4},
            share=0.72,
        ),
        6,
        "rk",
        "2031-11-16",
        second=(2,),
    ),
    by_hand(
        Man(
            "t-aldersey",
            "tackle",
            "Cadder Ridge",
            0.35,
            {"speed": 0.6, "power": 0.3, "long": -0.2, "stunt": -1.6, "inside": -0.5, "moving": 0.3, "at": 0.2},
            share=0.99,
            spot="left",
        ),
        6,
        "dm",
        "2031-11-17",
        second=(1,),
    ),
    by_hand(
        Man(
            "ed-penhallow",
            "edge",
            "Bellgarth",
            0.45,
            {
                "rush": 0.35,
                "power": 0.6,
                "outside": -0.5,
                "bull": 0.3,
                "gap-at": 0.4,
                "held": 0.3,
                "rush-third": -0.6,
                "read-play": -0.6,
            },
            share=0.85,
            side="left",
        ),
        6,
        "rk",
        "2031-11-18",
        second=(0, 3),
        blanks={"get-off": 7, "stance": 4},
    ),
    by_hand(
        Man(
            "cb-aldous",
            "cornerback",
            "Ostrey Tech",
            0.35,
            {
                "in-zone": 0.5,
                "in-man": -0.2,
                "vs-vertical": 0.6,
                "vs-in": -0.5,
                "find": 0.6,
                "ball": 1.0,
                "open": -0.6,
                "press": -0.4,
                "off": 0.2,
            },
            share=0.97,
            side="left",
        ),
        6,
        "dm",
        "2031-11-17",
        second=(2,),
        corrections={2: {"passes-broken-up": -1}},
    ),
    by_hand(
        Man(
            "p-lysaght",
            "punter",
            "Lowmoor State",
            0.3,
            {"rushed": 0.05, "called": 0.8, "middle": -0.3, "aim": 0.3, "drop": 0.5},
        ),
        9,
        "rk",
        "2031-11-16",
    ),
)
