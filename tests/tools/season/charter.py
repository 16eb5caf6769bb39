"""What is common to the charts of all positions: a man, his chances, and the snap in front of him."""

from dataclasses import dataclass, field

from dice import logistic


@dataclass(frozen=True)
class Man:
    """A player as the simulation knows him. `tilts` are log odds by the name of what they are about."""

    id: str
    profile: str
    school: str
    skill: float = 0.0  # log odds of everything he does
    tilts: dict = field(default_factory=dict)
    share: float = 0.9  # of his side's snaps that he plays
    side: str = "right"  # as the offence looks
    spot: str = ""  # the profile's own word for where he lines up, when he has one place


class Chart:
    """One snap charted for one man. `row` starts with what the play shows to everybody."""

    def __init__(self, man, dice, snap):
        self.man, self.dice, self.snap = man, dice, snap
        self.row = {name: value for name, value in snap.items() if name[0] != "_"}
        self.was = snap.get("_was", snap["result"])

    def odds(self, base, *keys):
        return logistic(base + 0.4 * self.man.skill + sum(self.man.tilts.get(key, 0) for key in keys if key))

    def good(self, base, *keys):
        return self.dice.chance(self.odds(base, *keys))

    def given(self, weights, chance, happened):
        """A cause, once it is known what came of it: `chance` gives the odds of that under each cause."""
        return self.dice.pick(
            {
                cause: weight * max(0.001, chance(cause) if happened else 1 - chance(cause))
                for cause, weight in weights.items()
            }
        )

    def is_run(self):
        return self.was == "run"

    def is_pass(self):
        return self.was in ("complete", "incomplete", "intercepted", "sack", "scramble")

    def thrown(self):
        return self.was in ("complete", "incomplete", "intercepted")

    def pressed(self):
        return self.snap.get("pressure") in ("hurry", "hit") or self.was == "sack"

    def mark(self, good, bad, share=0.6):
        """The scout's mark: not every good snap is more than the position asks."""
        if bad:
            self.row["mark"] = "-" if self.dice.chance(0.85) else "0"
        else:
            self.row["mark"] = "+" if good and self.dice.chance(share) else "0"
        return self.row


PASSER_ONLY = (
    "read",
    "eyes",
    "base",
    "timing",
    "throw-time",
    "placement",
    "window",
    "why",
    "risk",
    "launch",
    "pressure",
    "pressure-from",
    "target",
)


def strip_throw(row):
    """Takes the passer's own fields, and his throw's route, out of a row of somebody else."""
    for name in (*PASSER_ONLY, "route", "depth", "side"):
        row.pop(name, None)
