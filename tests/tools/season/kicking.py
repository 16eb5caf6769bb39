"""Kicks as they end: how far, where, and what the other side makes of them."""

from dice import logistic


class Kick:
    def __init__(self, dice, state, school, wind, weather):
        self.dice, self.state, self.wind, self.weather = dice, state, wind, weather
        self.kicking = school.kicking
        self.row = {}
        self.make()

    def windy(self):
        return self.wind in ("against", "cross")


class Kickoff(Kick):
    def make(self):
        dice = self.dice
        reach = dice.normal(2.5 - self.kicking.leg * 0.8, 5) + {"against": 8, "with": -4, "cross": 2}.get(
            self.wind, 0
        )
        lands = max(-8, min(30, round(reach)))
        hang = round(min(4.6, max(3.1, dice.normal(3.95, 0.2))), 2)
        touchback = lands <= 0 and dice.chance(0.85)
        self.row = {"play": "kickoff", "kick": "kickoff", "lands": lands, "hang": hang}
        self.row["side"] = dice.pick({"left": 3, "middle": 3, "right": 3})
        if touchback:
            self.row.update({"result": "touchback", "back-to": 25})
        elif dice.chance(0.18):
            self.row.update({"result": "fair-catch", "back-to": max(25, lands)})
        else:
            back = int(dice.normal(22, 5)) + (dice.whole(10, 40) if dice.chance(0.06) else 0)
            self.row.update({"result": "returned", "back-to": max(8, min(75, max(0, lands) + back))})


class Placed(Kick):
    def try_it(self, yards, odds):
        dice, row = self.dice, self.row
        kicking = self.kicking
        if self.state.hash == "L":
            odds += kicking.left
        if self.windy() and yards > 25:
            odds += kicking.wind
        if self.state.quarter == 4 and -3 <= self.state.margin <= 0:
            odds += kicking.decides
        bad = dice.chance(0.05 if self.weather in ("dry", "dome") else 0.10)
        row["yards"], row["_bad"] = yards, bad
        if dice.chance(logistic(odds - (1.0 if bad else 0))):
            row["result"] = "good"
        elif dice.chance(0.10):
            row["result"] = "blocked"
        elif yards >= 50 and dice.chance(0.35):
            row["result"] = "short"
        else:
            left = 3 if self.state.hash == "L" and kicking.left < 0 else 1
            row["result"] = dice.pick({"wide-left": left, "wide-right": 1.3, "hit-post": 0.3})


class FieldGoal(Placed):
    def make(self):
        self.row = {"play": "field-goal", "kick": "field-goal"}
        yards = self.state.to_goal + 17 + (self.dice.chance(0.3))
        self.try_it(yards, 6.2 - 0.115 * (yards - self.kicking.leg))


class Try(Placed):
    def make(self):
        self.row = {"play": "try", "kick": "try"}
        self.try_it(20, 4.0)


class Punt(Kick):
    def make(self):
        dice, kicking, to_goal = self.dice, self.kicking, self.state.to_goal
        self.row = {"play": "punt", "kick": "punt"}
        near = dice.pick({"none": 70, "near": 22, "forced": 8})
        if dice.chance(0.008):
            self.row.update({"result": "blocked", "rush-near": "forced"})
            return
        mean = kicking.punt + (kicking.punt_wind if self.windy() else 2.5 if self.wind == "with" else 0)
        mean -= {"none": 0, "near": 0.5, "forced": 3}[near]
        self.row["rush-near"] = near
        if to_goal <= 60:
            self._short_field(to_goal, min(mean, to_goal - 8))
        else:
            self._land(round(min(dice.normal(mean, 5.5), to_goal + 8)), to_goal)

    def _short_field(self, to_goal, mean):
        dice = self.dice
        if dice.chance(self.kicking.corner - 0.05):
            dead = dice.whole(3, 17)
            gross = min(to_goal - dead, round(mean) + 8)
        else:
            gross = round(dice.normal(mean - 3, 9))
        self._land(max(18, gross), to_goal, 0.3)

    def _land(self, gross, to_goal, returned=0.47):
        dice, row = self.dice, self.row
        if gross >= to_goal - 1:
            row.update({"gross": to_goal, "result": "touchback"})
            return
        row["gross"] = gross
        odds = (returned - 0.5) * 4 + self.kicking.coverage + 0.07 * (gross - 42)
        if dice.chance(logistic(odds)) and to_goal - gross > 4:
            back = max(-3, int(dice.exponential(7.5)) - 1)
            row.update({"result": "returned", "return": min(back, 60 if gross < 60 else 40)})
        else:
            row["result"] = dice.pick({"fair-catch": 6, "downed": 4, "out": 2.5, "muffed": 0.25})
