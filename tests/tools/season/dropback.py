"""One called pass: from the drop to the end of the play, charted field by field."""

import picture
from dice import logistic
from routes import OUTLETS, QUICK, ROUTES, SCREEN

END_ZONE = 8  # how far past the goal line a throw is aimed


class Dropback:
    """Builds the fields of one snap in the order in which things happen on the field."""

    def __init__(self, dice, state, opponent, passer, call):
        self.dice = dice
        self.state = state
        self.opponent = opponent
        self.passer = passer
        self.row = {"play": call}
        self.row.update(picture.offence(dice, state))
        if call == "play-action" and self.row["formation"] == "empty":
            self.row["play"] = "pass"
        self.row.update(picture.defence(dice, state, opponent, self.row["personnel"]))

    def run(self):
        self._drop()
        self._progression()
        self._rush()
        if not self._ends_without_throw():
            self._throw()
        self._judge()
        return self.row

    # The drop and the protection

    def _drop(self):
        row, dice, play = self.row, self.dice, self.row["play"]
        if play == "screen":
            drop = dice.pick({"1": 1, "3": 3})
        elif play == "rpo":
            drop = dice.pick({"0": 3, "1": 4})
        elif play == "play-action":
            drop = dice.pick(
                {"5": 5, "7": 1.5, "boot": 2.5} if row["backfield"] == "under" else {"3": 3, "5": 3, "boot": 1}
            )
        elif row["backfield"] == "under":
            drop = dice.pick({"3": 4, "5": 5, "7": 2})
        else:
            drop = dice.pick({"0": 1, "1": 5, "3": 9, "5": 3, "sprint": 0.6})
        row["drop"] = drop
        if play == "screen":
            row["protection"], row["protectors"] = "screen", dice.whole(5, 6)
        elif drop == "boot":
            row["protection"], row["protectors"] = "boot", dice.whole(5, 6)
        else:
            kept = dice.pick({5: 6, 6: 5, 7: 1.5 if play == "play-action" else 0.3})
            row["protection"] = "max" if kept >= 7 else dice.pick({"half-slide": 5, "man": 3, "full-slide": 2})
            row["protectors"] = kept
        self.moving = drop in ("boot", "sprint")

    # Which look he came to

    def _progression(self):
        drop, play, dice = self.row["drop"], self.row["play"], self.dice
        if play == "screen":
            read = 1
        elif drop == "0":
            read = dice.pick({0: 2, 1: 3})
        elif drop == "1" or play == "rpo":
            read = dice.pick({0: 2, 1: 6, 2: 1})
        elif self.moving:
            read = dice.pick({1: 5, 2: 3, 3: 1})
        else:
            read = dice.pick({0: 0.6, 1: 8, 2: 6, 3: 3.2, 4: 1.2})
        self.read = read
        steps = {"0": 1.1, "1": 1.6, "3": 2.4, "5": 2.9, "7": 3.2, "boot": 2.7, "sprint": 2.3}[drop]
        if self.row["backfield"] == "under" and drop in ("3", "5", "7"):
            steps = {"3": 1.7, "5": 2.4, "7": 2.9}[drop] + (0.4 if play == "play-action" else 0)
        self.time = steps + 0.42 * max(0, read - 1) + dice.normal(0, 0.12)

    # The rush

    def _rush(self):
        row, dice = self.row, self.dice
        spare = row["rushers"] - row["protectors"]
        odds = -1.35 + 0.35 * (row["rushers"] - 4) + 0.55 * max(0, spare) + 0.75 * (self.time - 2.5)
        if row["play"] == "screen":
            odds -= 0.6
        odds += self.opponent.rush
        if dice.chance(logistic(odds)):
            row["pressure"] = "hit" if dice.chance(0.27) else "hurry"
            free = 0.5 if spare > 0 else 0.06
            row["pressure-from"] = dice.pick({"left": 4, "right": 4, "middle": 3, "free": 11 * free})
        else:
            row["pressure"] = "none"
        pressed = row["pressure"] != "none"
        if self.moving:
            row["launch"] = "designed"
        elif pressed:
            row["launch"] = dice.pick({"pocket": 5, "slid": 4, "broke": 1.6})
        else:
            row["launch"] = dice.pick({"pocket": 12, "slid": 2, "broke": 0.25})
        row["eyes"] = self._eyes(pressed)

    def _eyes(self, pressed):
        weights = (
            {"moved": 3, "scanned": 2, "fixed": 4} if self.read <= 1 else {"moved": 4, "scanned": 6, "fixed": 0.4}
        )
        if pressed:
            weights["rush"] = 1.6
        return self.dice.pick(weights)

    # Sacks, scrambles, throwaways

    def _ends_without_throw(self):
        row, dice = self.row, self.dice
        pressed = row["pressure"] != "none"
        quick = row["drop"] in ("0", "1") or row["play"] == "screen"
        if dice.chance((0.17 if pressed else 0.012) * (0.3 if quick else 1)):
            self._sack(pressed)
        elif dice.chance((self.passer.runs if pressed else 0.02) * (0.3 if quick else 1)):
            row["result"] = "scramble"
            row["launch"] = "broke"
            row["gain"] = min(int(dice.exponential(6.0)), self.state.to_goal)
        elif not quick and dice.chance(0.08 if pressed else 0.012):
            self._throw_away()
        else:
            return False
        return True

    def _sack(self, pressed):
        row, dice = self.row, self.dice
        row["result"] = "sack"
        if not pressed or dice.chance(0.15):
            row["pressure-from"] = "held-it"
        row["gain"] = max(-dice.whole(3, 10), self.state.to_goal - 99)
        if dice.chance(0.14):
            row["fumble"] = dice.pick({"kept": 2, "lost": 1})

    def _throw_away(self):
        row, dice = self.row, self.dice
        row.update(result="incomplete", gain=0, why="thrown-away", read=max(2, self.read), timing="late")
        row["launch"] = dice.pick({"broke": 3, "slid": 1}) if not self.moving else "designed"
        row["base"] = "moving" if self.moving else dice.pick({"off": 3, "set": 1})
        self._clock_the_throw(self.time + 0.9)

    # The throw

    def _throw(self):
        row, dice = self.row, self.dice
        route = self._route()
        row["route"] = route.name
        row["target"] = self._target(route)
        row["depth"] = self._depth(route)
        row["side"] = self._side(route)
        row["read"] = self.read
        pressed = row["pressure"]
        if row["drop"] == "boot" or row["drop"] == "sprint":
            row["base"] = "moving"
        else:
            row["base"] = "off" if dice.chance(self.passer.base_lost[pressed]) else "set"
        row["timing"] = self._timing(route)
        shift = {"early": -0.2, "on": 0.0, "late": 0.35}[row["timing"]]
        self._clock_the_throw(self.time + shift + (0.25 if row["depth"] >= 18 else 0))
        if not self._spoiled():
            self._placed(route)

    def _clock_the_throw(self, seconds):
        self.row["throw-time"] = round(max(0.8, seconds), 1)

    def _route(self):
        row, state = self.row, self.state
        if row["play"] == "screen":
            return SCREEN
        backs, ends = int(row["personnel"][0]), int(row["personnel"][1])
        weights = {}
        for at, route in enumerate(ROUTES):
            weight = route.weight
            if route.low > state.to_goal + END_ZONE or not self._runners(route, backs, ends):
                continue
            if row["drop"] in ("0", "1"):
                weight = weight if route.name in QUICK else (0.3 if route.name in ("fade", "go") else 0)
            elif route.name in QUICK and row["drop"] in ("5", "7"):
                weight *= 0.3
            if row["play"] == "play-action":
                weight *= 2.0 if route.low >= 12 else 0.6
            if self.read >= 3:
                weight *= 4 if route.name in OUTLETS else (0.5 if route.low >= 16 else 1)
            if row["drop"] == "boot":
                weight = weight if route.name in ("flat", "over", "sail", "drag", "corner", "comeback") else 0
            if state.down >= 3 and route.high < state.distance:
                weight *= 0.35
            if self.time < 1.0 + 0.075 * min(route.low, state.to_goal):
                weight = 0  # the receiver is not there yet
            weights[at] = weight
        likely = {at: weight for at, weight in weights.items() if weight > 0}
        return ROUTES[self.dice.pick(likely or dict.fromkeys(weights, 1))]

    @staticmethod
    def _runners(route, backs, ends):
        receivers = 5 - backs - ends
        there = {"RB": backs, "TE": ends, "WR": receivers, "slot": receivers - 2}
        return [who for who in route.who if there[who] > 0]

    def _target(self, route):
        backs, ends = int(self.row["personnel"][0]), int(self.row["personnel"][1])
        who = self._runners(route, backs, ends)
        return self.dice.pick({name: len(who) - at for at, name in enumerate(who)})

    def _depth(self, route):
        soonest = int((self.time + 0.3 - 1.0) / 0.075)
        return min(
            self.dice.whole(route.low, max(route.low, min(route.high, soonest))), self.state.to_goal + END_ZONE
        )

    def _side(self, route):
        sides = dict(route.sides)
        near = {"L": ("wide-left", "left"), "R": ("wide-right", "right"), "M": ()}[self.state.hash]
        for side in near:  # the short side is nearer, and thrown to more
            if side in sides:
                sides[side] *= 1.4
        return self.dice.pick(sides)

    def _timing(self, route):
        row, dice = self.row, self.dice
        early = self.passer.anticipates if route.breaks and self.read <= 3 and row["base"] != "off" else 0
        if row["pressure"] == "hit":
            early *= 0.5
        late = self.passer.late * (1.6 if row["base"] == "off" else 1) * (1.3 if self.read >= 3 else 1)
        if row["drop"] == "0":
            late *= 0.4
        return dice.pick({"early": early, "late": late, "on": max(0.1, 1 - early - late)})

    def _spoiled(self):
        """Balls whose placement cannot be judged."""
        row, dice = self.row, self.dice
        if row["pressure"] == "hit" and dice.chance(0.08):
            why = "hit-as-thrown"
        elif 0 <= row["depth"] <= 13 and dice.chance(0.03):
            why = "batted"
        elif row["route"] in ("option", "glance", "curl", "seam") and dice.chance(0.06):
            why = "mixed-up"
        else:
            return False
        row.update(result="incomplete", gain=0, why=why)
        return True

    def fooled(self):
        highs = picture.HIGHS.get(self.row["coverage"])
        return highs is not None and self.row["shell"] != f"{highs}-high"

    def _on_target_odds(self):
        row, effects = self.row, self.passer.effects
        depth = row["depth"]
        odds = 2.1 if depth < 0 else 1.75 - 0.075 * depth if depth < 20 else 0.1 - 0.03 * (depth - 20)
        for key in (picture.family(row["coverage"]), row["timing"], row["base"], row["pressure"]):
            odds += effects.get(key, 0)
        if self.fooled():
            odds += effects.get("fooled", 0)
        if self.state.quarter == 4:
            odds += effects.get("fourth", 0)
        return odds

    def _placed(self, route):
        row, dice = self.row, self.dice
        window = {"closed": 1.6, "closing": 3.2, "open": 5.2}
        if row["depth"] >= 16:
            window = {"closed": 2.2, "closing": 3.8, "open": 4}
        if row["timing"] == "early":
            window["open"] *= 1.25
        if self.fooled():
            window["closed"] *= 2.2
        row["window"] = dice.pick(window)
        on = dice.chance(logistic(self._on_target_odds()))
        row["placement"] = "on" if on else dice.pick({"high": 4, "low": 3, "behind": 4, "ahead": 3, "away": 2.5})
        self._outcome(route, on)

    def _outcome(self, route, on):
        row, dice = self.row, self.dice
        caught = {"open": (0.95, 0.42), "closing": (0.84, 0.24), "closed": (0.62, 0.10)}[row["window"]]
        chance = caught[0] if on else 0 if row["placement"] == "away" else caught[1]
        if dice.chance(chance):
            self._complete(route)
            return
        row["result"] = "incomplete"
        row["gain"] = 0
        if on:
            row["why"] = "dropped" if row["window"] == "open" or dice.chance(0.3) else "broken-up"
        else:
            row["why"] = "broken-up" if row["window"] == "closed" and row["placement"] != "away" else "off"
        self._danger(on)

    def _danger(self, on):
        """Whether a defender could have had it, and whether he did."""
        row, dice = self.row, self.dice
        risk = {"open": 0.03, "closing": 0.12, "closed": 0.34}[row["window"]] * (0.5 if on else 1.3)
        if self.fooled():
            risk = max(risk, self.passer.risk_when_fooled * (0.7 if on else 1.3))
        if row["placement"] == "away":
            risk *= 0.15
        if dice.chance(risk):
            row["risk"] = "yes"
            if not on and dice.chance(0.38) or on and dice.chance(0.15):
                row["result"] = "intercepted"
                del row["gain"], row["why"]

    def _complete(self, route):
        row, dice, to_goal = self.row, self.dice, self.state.to_goal
        row["result"] = "complete"
        row["depth"] = min(row["depth"], to_goal)
        mean = (
            route.after
            * (1.25 if row["placement"] == "on" else 0.5)
            * {"open": 1.25, "closing": 0.8, "closed": 0.45}[row["window"]]
        )
        after = int(dice.exponential(mean)) if dice.chance(0.85) else 0
        if dice.chance(0.05) and row["placement"] == "on":
            after += dice.whole(8, 26)
        row["gain"] = max(min(row["depth"] + after, to_goal), to_goal - 99)
        if row["window"] == "closed" and dice.chance(0.12):
            row["risk"] = "yes"
        if row["gain"] < to_goal and dice.chance(0.007):
            row["fumble"] = "lost"

    # The scout's mark

    def _judge(self):
        row, dice = self.row, self.dice
        result = row["result"]
        if result == "intercepted" or row.get("risk") == "yes":
            mark = "-"
        elif row.get("placement") == "on":
            hard = (
                row["depth"] >= 15 or row["window"] != "open" or row["pressure"] != "none" or row["timing"] == "early"
            )
            mark = "+" if hard and dice.chance(0.75) else "0"
        elif "placement" in row:
            mark = "-" if row["pressure"] != "hit" or dice.chance(0.5) else "0"
        elif result == "sack":
            mark = "-" if row.get("pressure-from") == "held-it" or row.get("fumble") else "0"
        elif result == "scramble":
            mark = "+" if row["gain"] >= self.state.distance else "0"
        else:
            mark = "0"
        row["mark"] = mark
