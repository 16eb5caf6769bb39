"""One game of two schools of the league, snap by snap for both, with its kicks.

A snap is a dict of charted fields as a charter of everything would fill them; what only the simulation knows stands
under names that begin with an underscore. Each side's snaps are numbered by themselves, kicks among all plays."""

from dataclasses import dataclass, field

from dropback import Dropback
from kicking import FieldGoal, Kickoff, Punt, Try
from run import Run

QUARTER = 15 * 60


@dataclass
class Side:
    """One team in the game."""

    school: object
    points: int = 0
    number: int = 0
    drive: int = 0
    timeouts: int = 3
    snaps: list = field(default_factory=list)
    kicks: list = field(default_factory=list)


@dataclass
class State:
    """The situation, of the team with the ball."""

    quarter: int = 1
    seconds: int = QUARTER
    margin: int = 0
    to_goal: int = 75
    down: int = 1
    distance: int = 10
    hash: str = "M"
    tempo: str = "huddle"
    running: bool = False
    film: float = 0.0

    def half_left(self):
        return self.seconds + (QUARTER if self.quarter in (1, 3) else 0)

    def game_left(self):
        return self.seconds + (4 - self.quarter) * QUARTER

    def hurrying(self):
        if self.quarter == 4:
            return self.margin <= 0 and self.seconds <= (240 if self.margin < 0 else 110)
        return self.quarter == 2 and self.seconds <= 110 and self.margin < 14

    def first_down(self):
        self.down, self.distance = 1, min(10, self.to_goal)

    def situation(self):
        """As it is charted."""
        spot = self.to_goal
        return {
            "quarter": self.quarter,
            "clock": "%d:%02d" % divmod(self.seconds, 60),
            "down": self.down,
            "distance": "goal" if self.distance == spot and spot <= 10 else self.distance,
            "spot": "50" if spot == 50 else f"+{spot}" if spot < 50 else f"-{100 - spot}",
            "hash": self.hash,
            "margin": self.margin,
        }


class Match:
    def __init__(self, dice, visitor, host):
        self.dice = dice
        self.sides = [Side(visitor), Side(host)]
        self.state = State(film=dice.between(250, 420))
        self.weather = dice.pick({"dry": 14, "damp": 3, "rain": 3, "dome": 1})
        self.wind = "calm" if self.weather == "dome" else dice.pick({"calm": 6, "along": 4, "cross": 3})
        self.windward = dice.whole(0, 1)  # who has it at his back in the first quarter
        self.receiver = dice.whole(0, 1)
        self.plays = 0
        self._play()

    # The course of the game

    def _play(self):
        for half in (1, 2):
            self._start_half(half)
            offence = self.receiver if half == 1 else 1 - self.receiver
            start = self._kickoff(1 - offence)
            while self.state.half_left() > 0:
                start, kicked = self._possession(offence, start)
                if kicked is None:
                    break
                if kicked >= 0 and self.state.half_left() > 0:
                    start = self._kickoff(kicked)
                    offence = 1 - kicked
                elif kicked < 0:
                    offence = 1 - offence
        if self.sides[0].points == self.sides[1].points:  # the league breaks ties by a kick that nobody charts
            self.sides[self.dice.whole(0, 1)].points += 3

    def _start_half(self, half):
        state = self.state
        state.quarter, state.seconds, state.running = (1 if half == 1 else 3), QUARTER, False
        for side in self.sides:
            side.timeouts = 3
        if half == 2:
            state.film += self.dice.between(240, 420)

    def _run_clock(self, seconds):
        state, seconds = self.state, int(seconds)
        if seconds >= state.seconds and state.quarter in (1, 3):
            state.quarter += 1
            state.seconds = QUARTER
            state.running = False
            return True
        state.seconds = max(0, state.seconds - seconds)
        return state.seconds > 0

    def wind_for(self, offence):
        """The wind as the ball goes when this side has it: ends change with each quarter."""
        if self.wind != "along":
            return self.wind
        return "with" if (offence == self.windward) == (self.state.quarter in (1, 4)) else "against"

    # Kicks

    def _kick(self, offence, row, seconds):
        side, state = self.sides[offence], self.state
        self.plays += 1
        row["n"] = self.plays  # kicks are numbered among all plays of the game
        row["weather"], row["wind"] = self.weather, self.wind_for(offence)
        start = state.film
        state.film += self.dice.between(6, 10)
        row["in"], row["out"] = round(start, 1), round(state.film, 1)
        state.film += self.dice.between(30, 60)
        side.kicks.append(row)
        self._run_clock(seconds)
        state.running = False

    def _kick_row(self, offence, maker, **more):
        state, side = self.state, self.sides[offence]
        row = state.situation()
        row["margin"] = side.points - self.sides[1 - offence].points
        row.update(maker(self.dice, state, side.school, self.wind_for(offence), self.weather, **more).row)
        row["surface"] = self.sides[1].school.surface
        return row

    def _kickoff(self, kicker):
        state = self.state
        state.to_goal, state.down, state.distance, state.hash = 65, 1, 10, "M"
        row = self._kick_row(kicker, Kickoff)
        for name in ("down", "distance", "spot", "hash"):
            del row[name]
        self._kick(kicker, row, 0 if row["result"] == "touchback" else 5)
        return 100 - row["back-to"]

    def _field_goal(self, offence):
        """Where the other side starts and who kicks off, if anybody."""
        state = self.state
        if state.running:
            self._run_clock(self.dice.whole(14, 26))
        row = self._kick_row(offence, FieldGoal)
        row["drive"] = self.sides[offence].drive
        self._kick(offence, row, 5)
        if row["result"] == "good":
            self.sides[offence].points += 3
            return 75, offence
        return 100 - min(80, state.to_goal + 7), -1

    def _punt(self, offence):
        state = self.state
        if state.running:
            self._run_clock(self.dice.whole(14, 26))
        row = self._kick_row(offence, Punt)
        row["drive"] = self.sides[offence].drive
        self._kick(offence, row, 8)
        if row["result"] == "touchback":
            return 80, -1
        if row["result"] == "blocked":
            return max(5, 100 - state.to_goal - 5), -1
        dead = state.to_goal - row["gross"]
        return max(1, min(99, 100 - dead - row.get("return", 0))), -1

    # A possession

    def _possession(self, offence, start):
        """Where the other side starts, and who kicks off (-1: nobody, None: the half is over)."""
        state, side = self.state, self.sides[offence]
        side.drive += 1
        state.to_goal, state.running = start, False
        state.hash = self.dice.pick({"L": 1, "M": 2, "R": 1})
        state.tempo = self.dice.pick({"huddle": 3, "no-huddle": 4})
        state.first_down()
        while True:
            state.margin = side.points - self.sides[1 - offence].points
            end = self._instead_of_a_snap(offence)
            if end is None:
                end = self._snap(offence)
            if end is not None:
                state.running = False
                return end
            if state.half_left() <= 0:
                return 75, None

    def _instead_of_a_snap(self, offence):
        state, dice = self.state, self.dice
        last = state.quarter == 2 or (state.quarter == 4 and -3 <= state.margin <= 0)
        reach = 33 + int(self.sides[offence].school.kicking.leg)
        if state.down < 4:
            return self._field_goal(offence) if last and state.seconds <= 9 and state.to_goal <= reach else None
        desperate = state.quarter == 4 and state.game_left() < 300 and state.margin < -3
        short = state.distance <= 2 and state.to_goal <= 45 and dice.chance(0.45)
        if desperate or short:
            return None
        return self._field_goal(offence) if state.to_goal <= reach else self._punt(offence)

    def _wait(self, side):
        state, dice = self.state, self.dice
        state.film += dice.between(22, 38)
        if not state.running:
            return True
        if state.hurrying():
            if side.timeouts and state.seconds <= 75 and dice.chance(0.4):
                side.timeouts -= 1
                return True
            return self._run_clock(dice.whole(11, 18))
        ahead_late = state.quarter == 4 and state.margin > 0 and state.seconds < 360
        return self._run_clock(dice.whole(31, 37) if ahead_late else dice.whole(20, 33))

    def _snap(self, offence):
        state, side = self.state, self.sides[offence]
        other = self.sides[1 - offence]
        if not self._wait(side):
            return 75, None
        side.number += 1
        self.plays += 1
        row = {"n": side.number, "drive": side.drive, **state.situation()}
        row["weather"], row["wind"] = self.weather, self.wind_for(offence)
        row.update(self._called(side.school, other.school))
        self._flag(row)
        start = state.film
        state.film = start + row.get("throw-time", 2.5) + self.dice.between(4.0, 6.5)
        row["in"], row["out"] = round(start, 1), round(state.film, 1)
        side.snaps.append(row)
        return self._apply(row, offence)

    def _called(self, school, defence):
        call = self._call(school)
        state = self.state
        if call == "kneel":
            return {"play": "kneel", "result": "kneel", "gain": -1 if state.to_goal < 98 else 0}
        if call == "spike":
            return {"play": "spike", "result": "spike", "gain": 0, "tempo": "hurry"}
        if call == "run":
            return Run(self.dice, state, school, defence).row
        row = Dropback(self.dice, state, defence, school.passer, call).run()
        if row["play"] == "rpo":
            row["scheme"] = self.dice.pick({"inside-zone": 4, "split-zone": 1, "power": 1, "outside-zone": 1})
        return row

    def _call(self, school):
        state, dice = self.state, self.dice
        if state.quarter == 2 and state.seconds <= 12 and state.to_goal > 60:
            return "kneel"
        if state.quarter == 4 and state.margin > 0 and state.game_left() <= 38 * (4 - state.down) + 4:
            return "kneel"
        stop = state.running and state.hurrying() and state.seconds <= 60 and state.down <= 2 and state.to_goal > 3
        if stop and state.margin >= -8 and dice.chance(0.3):
            return "spike"
        if not dice.chance(self._pass_chance(school)):
            return "run"
        if state.hurrying():
            return dice.pick({"pass": 12, "screen": 1})
        if state.down >= 3:
            return dice.pick({"pass": 12, "screen": 1, "play-action": 0.7, "rpo": 0.3})
        return dice.pick({"pass": 9, "play-action": 6.2, "screen": 1.6, "rpo": 1.8})

    def _pass_chance(self, school):
        state = self.state
        if state.hurrying():
            return 0.88
        if state.down >= 3:
            chance = 0.93 if state.distance >= 7 else 0.80 if state.distance >= 3 else 0.40
        elif state.down == 2:
            chance = 0.58 if state.distance >= 8 else 0.46 if state.distance >= 4 else 0.32
        else:
            chance = 0.43
        if state.quarter == 4 and abs(state.margin) >= 9:
            chance *= 0.6 if state.margin > 0 else 1.45
        return min(0.94, chance * school.passes)

    # Flags, and what becomes of the ball

    def _flag(self, row):
        dice, state = self.dice, self.state
        if row["play"] in ("kneel", "spike"):
            return
        if dice.chance(0.03) and state.to_goal <= 80:
            self._wipe_out(row, "offence", 10)
        elif dice.chance(0.016) and state.to_goal > 12 and row["result"] in ("incomplete", "sack"):
            self._wipe_out(row, "defence", 5)
        elif dice.chance(0.02) and row["result"] == "complete" and not row.get("fumble"):
            row["penalty"] = "declined"

    @staticmethod
    def _wipe_out(row, side, yards):
        for name in ("gain", "fumble", "touchdown", "risk"):
            row.pop(name, None)
        row["_was"] = row["result"]
        row.update({"result": "no-play", "penalty": side, "penalty-yards": yards})

    def _apply(self, row, offence):
        state, dice, result = self.state, self.dice, row["result"]
        if result == "no-play":
            return self._enforce(row)
        if result == "intercepted":
            self._run_clock(7)
            caught = state.to_goal - row["depth"]
            return (80 if caught <= 0 else max(5, min(97, 100 - caught - dice.whole(0, 15)))), -1
        if row.get("fumble") == "lost":
            self._run_clock(7)
            return 100 - max(1, min(99, state.to_goal - row["gain"])), -1
        where, stays_in = self._ends_where(row)
        if row["gain"] == state.to_goal and result != "kneel":
            row["touchdown"] = "yes"
        if result in ("incomplete", "spike"):
            self._run_clock(4 if result == "incomplete" else 1)
            return self._advance(0, state.hash, False, offence)
        self._run_clock(2 if result == "kneel" else dice.whole(5, 7))
        return self._advance(row["gain"], where, stays_in, offence)

    def _ends_where(self, row):
        dice, state = self.dice, self.state
        if row["result"] == "complete":
            where = {"wide-left": "L", "left": "L", "middle": "M"}.get(row["side"], "R")
            wide = row["side"].startswith("wide")
            return where, not (wide and dice.chance(0.5 if state.hurrying() else 0.3))
        if row["result"] == "run":
            return {"left": "L", "right": "R"}[row["to"]] if dice.chance(0.5) else "M", dice.chance(0.88)
        if row["result"] == "scramble":
            return dice.pick({"L": 1, "R": 1}), not dice.chance(0.4)
        return state.hash, True

    def _advance(self, gain, where, running, offence):
        state = self.state
        state.running = running
        if gain >= state.to_goal:
            return self._touchdown(offence)
        state.to_goal -= gain
        state.hash = where
        if state.to_goal >= 100:
            state.to_goal = 99
        if gain >= state.distance:
            state.first_down()
            return None
        state.down += 1
        state.distance -= gain
        return (100 - state.to_goal, -1) if state.down > 4 else None

    def _enforce(self, row):
        state, yards = self.state, row["penalty-yards"]
        self._run_clock(5)
        state.running = False
        if row["penalty"] == "offence":
            state.to_goal += yards
            state.distance += yards
        elif yards >= state.distance:
            state.to_goal -= yards
            state.first_down()
        else:
            state.to_goal -= yards
            state.distance -= yards
        return None

    def _touchdown(self, offence):
        state, side = self.state, self.sides[offence]
        side.points += 6
        state.hash = "M"
        row = self._kick_row(offence, Try)
        for name in ("down", "distance", "spot"):
            del row[name]
        row["drive"] = side.drive
        self._kick(offence, row, 0)
        side.points += row["result"] == "good"
        return 75, offence
