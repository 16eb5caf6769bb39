"""One called run: the picture, the lane that the blocks make, and the yards before and after the first touch."""

import picture
from dice import logistic

FAMILY = {
    "inside-zone": "zone",
    "split-zone": "zone",
    "outside-zone": "zone",
    "power": "gap",
    "counter": "gap",
    "duo": "gap",
    "trap": "gap",
    "iso": "gap",
    "sneak": "gap",
    "pin-pull": "wide",
    "sweep": "wide",
    "jet": "wide",
}
GAPS = {
    "inside-zone": {"A": 5, "B": 5, "C": 1},
    "split-zone": {"A": 4, "B": 5, "C": 2},
    "outside-zone": {"B": 2, "C": 5, "D": 4},
    "power": {"B": 5, "C": 5},
    "counter": {"B": 4, "C": 5, "D": 1},
    "duo": {"A": 6, "B": 4},
    "trap": {"A": 1},
    "iso": {"A": 3, "B": 3},
    "pin-pull": {"C": 2, "D": 6},
    "sweep": {"D": 1},
    "jet": {"D": 1},
    "draw": {"A": 4, "B": 2},
    "read": {"B": 2, "C": 3, "D": 2},
    "sneak": {"A": 1},
}


class Run:
    """The fields of the snap are in `row`; of the carrier `_carrier` tells only what he is."""

    def __init__(self, dice, state, school, defence):
        self.dice, self.state, self.school, self.other = dice, state, school, defence
        self.row = {"play": "run", "result": "run"}
        self.row.update(picture.offence(dice, state))
        if self.row["formation"] == "empty":
            self.row["formation"], self.row["personnel"] = "2x2", "11"
        seen = picture.defence(dice, state, defence, self.row["personnel"])
        for name in ("coverage", "rushers", "pressure-call"):
            seen.pop(name)
        self.row.update(seen)
        self._call()
        self._lane()
        self._carry()

    def _call(self):
        state, dice, row = self.state, self.dice, self.row
        if state.distance <= 1 and dice.chance(0.4):
            scheme = "sneak"
        elif state.down >= 3 and state.distance >= 7:
            scheme = dice.pick({"draw": 5, "inside-zone": 2, "counter": 1})
        else:
            scheme = dice.pick({**self.school.schemes, "read": 1.5})
        row["scheme"] = scheme
        row["_carrier"] = {"sneak": "QB", "jet": "WR"}.get(scheme, "RB")
        if scheme == "read":
            row["play"] = "option"
            row["_carrier"] = dice.pick({"RB": 3, "QB": 2})
        if scheme == "jet":
            row["motion"] = "jet"
        row["to"] = dice.pick({"left": 1, "right": 1.1})
        row["gap"] = dice.pick(GAPS[scheme])

    def _lane(self):
        row, school = self.row, self.school
        odds = 0.35 + school.offence - self.other.defence - 0.32 * (row["box"] - 6)
        family = FAMILY.get(row["scheme"], "other")
        if family == "gap":
            odds += school.gap
        if row["motion"] not in ("none", "shift"):
            odds += 0.12
        opened = self.dice.chance(logistic(odds))
        row["lane"] = self.dice.pick({"crease": 3, "clear": 1.3}) if opened else "shut"

    def _carry(self):
        row, dice, to_goal = self.row, self.dice, self.state.to_goal
        low, high = {"shut": (-3, 1), "crease": (1, 4), "clear": (3, 9)}[row["lane"]]
        contact = dice.whole(low, high)
        beaten = 0
        while beaten < 4 and dice.chance(0.2 if row["lane"] != "clear" else 0.26):
            beaten += 1
        after = dice.whole(0, 3) + sum(dice.whole(1, 7) for _ in range(beaten))
        if row["lane"] == "clear" and dice.chance(0.10):
            after += dice.whole(10, 30)
        if self.state.distance <= 2 and row["lane"] != "shut" and contact + after < self.state.distance:
            after = self.state.distance - contact
        gain = max(to_goal - 98, min(contact + after, to_goal))
        row["contact"], row["beat"], row["gain"] = min(contact, gain), beaten, gain
        if gain < to_goal and dice.chance(0.011):
            row["fumble"] = dice.pick({"kept": 1, "lost": 1})
