"""One game, possession by possession. His team's snaps are played one by one and numbered; those on which he drops
back, spikes or kneels are charted, the others only move the ball. The other team's possessions are played as a whole."""

from dataclasses import dataclass, field

from dropback import Dropback

QUARTER = 15 * 60
LAST_QUARTER = 4


@dataclass
class State:
    quarter: int = 1
    seconds: int = QUARTER
    margin: int = 0
    to_goal: int = 75
    down: int = 1
    distance: int = 10
    hash: str = "M"
    tempo: str = "huddle"  # of the drive
    running: bool = False  # the clock, before the snap
    film: float = 0.0  # seconds into the film

    def half_left(self):
        return self.seconds + (QUARTER if self.quarter in (1, 3) else 0)

    def game_left(self):
        return self.seconds + (LAST_QUARTER - self.quarter) * QUARTER

    def hurrying(self):
        if self.quarter == 4:
            return self.margin <= 0 and self.seconds <= (240 if self.margin < 0 else 110)
        return self.quarter == 2 and self.seconds <= 110 and self.margin < 14


@dataclass
class Game:
    dice: object
    opponent: object
    passer: object
    try_for_two: bool = False
    state: State = field(default_factory=State)
    rows: list = field(default_factory=list)  # charted snaps
    points: list = field(default_factory=lambda: [0, 0])
    number: int = 0
    drive: int = 0
    timeouts: int = 3

    def play(self, receives):
        """`receives`: his team takes the opening kickoff."""
        self.state.film = self.dice.between(250, 420)
        ours = receives
        for half in (1, 2):
            self._start_half(half)
            ours = receives if half == 1 else not receives
            start = self._kickoff()
            while not self._half_over():
                start, kicked = self._ours(start) if ours else self._theirs(start)
                ours = not ours
                if kicked:
                    start = self._kickoff()
        return self

    # The clock

    def _start_half(self, half):
        self.state.quarter = 1 if half == 1 else 3
        self.state.seconds = QUARTER
        self.state.running = False
        self.timeouts = 3
        if half == 2:
            self.state.film += self.dice.between(240, 420)

    def _half_over(self):
        return self.state.half_left() <= 0

    def _run_clock(self, seconds):
        """Takes time off. A quarter that runs out hands a whole possession's time on to the next, but not the rest of a
        wait or a play: the next snap comes at 15:00. False when the half ends."""
        state = self.state
        seconds = int(seconds)
        if seconds >= state.seconds and state.quarter in (1, 3):
            rest = seconds - state.seconds if seconds > 45 else 0
            state.quarter += 1
            state.seconds = QUARTER - rest
            state.running = False
            return True
        state.seconds = max(0, state.seconds - seconds)
        return state.seconds > 0

    # Between possessions

    def _kickoff(self):
        self._run_clock(self.dice.pick({0: 6, 5: 2}))
        self.state.film += self.dice.between(40, 90)
        return self.dice.pick({75: 7, 80: 1, 72: 1, 68: 1, 61: 0.5})

    def _score(self, ours, points):
        self.points[0 if ours else 1] += points
        self.state.margin = self.points[0] - self.points[1]

    def _theirs(self, start):
        """The other team's possession from `start` yards to its goal. Gives where ours starts, and if by a kickoff."""
        state, dice = self.state, self.dice
        plays = dice.whole(3, 11)
        state.film += plays * dice.between(16, 26)
        if not self._run_clock(plays * dice.between(20, 31)):
            return 75, True
        state.running = False
        how = dice.pick(
            {
                "touchdown": self.opponent.scores,
                "field-goal": 0.13,
                "punt": 0.5,
                "turnover": 0.11,
                "missed": 0.04,
                "downs": 0.06,
            }
        )
        if how == "touchdown":
            self._score(False, 7)
            return 75, True
        if how == "field-goal":
            self._score(False, 3)
            return 75, True
        spot = {"punt": (60, 92), "turnover": (35, 80), "missed": (64, 75), "downs": (45, 70)}[how]
        return dice.whole(*spot), False

    # His team's possession

    def _ours(self, start):
        state = self.state
        self.drive += 1
        state.to_goal, state.running = start, False
        state.hash = self.dice.pick({"L": 1, "M": 2, "R": 1})
        state.tempo = self.dice.pick({"huddle": 3, "no-huddle": 4})
        self._first_down()
        while True:
            end = self._fourth_down() if state.down == 4 else self._last_kick()
            if end is None:
                end = self._snap()
            if end is not None:
                state.running = False
                return end
            if self._half_over():
                return 75, True

    def _first_down(self):
        self.state.down = 1
        self.state.distance = min(10, self.state.to_goal)

    def _fourth_down(self):
        """A kick instead of a fourth try, or None to go for it."""
        state, dice = self.state, self.dice
        desperate = state.quarter == 4 and state.game_left() < 300 and state.margin < -3
        short = state.distance <= 2 and state.to_goal <= 45 and dice.chance(0.45)
        if desperate or short:
            return None
        if state.to_goal <= 34:
            return self._field_goal()
        self._run_clock(6 + (dice.whole(14, 26) if state.running else 0))
        state.film += dice.between(30, 50)
        landed = max(8, state.to_goal - dice.whole(36, 50))
        return 100 - landed, False

    def _last_kick(self):
        """A field goal as a half runs out, when three points are worth it."""
        state = self.state
        wanted = state.quarter == 2 or (state.quarter == 4 and -3 <= state.margin <= 0)
        return self._field_goal() if wanted and state.seconds <= 9 and state.to_goal <= 34 else None

    def _field_goal(self):
        state, dice = self.state, self.dice
        self._run_clock(6 + (dice.whole(14, 26) if state.running else 0))
        state.film += dice.between(30, 50)
        if dice.chance(0.95 - 0.012 * state.to_goal):
            self._score(True, 3)
            return 75, True
        return 100 - min(80, state.to_goal + 7), False

    def _wait(self):
        """Time between the last play and this snap."""
        state, dice = self.state, self.dice
        state.film += dice.between(22, 38)
        if not state.running:
            return True
        if state.hurrying():
            if self.timeouts and state.seconds <= 75 and dice.chance(0.4):
                self.timeouts -= 1
                return True
            return self._run_clock(dice.whole(11, 18))
        ahead_late = state.quarter == 4 and state.margin > 0 and state.seconds < 360
        return self._run_clock(dice.whole(31, 37) if ahead_late else dice.whole(20, 33))

    def _snap(self):
        """One snap. None while the drive goes on, else where the other side starts and whether by a kickoff."""
        if not self._wait():
            return 75, True
        self.number += 1
        call = self._call()
        if call == "run":
            return self._after_run()
        before = dict(vars(self.state))
        row = self._charted(call)
        self._place(row, before)
        return self._apply(row)

    # Calls

    def _call(self):
        state, dice = self.state, self.dice
        if self._can_kneel_out():
            return "kneel"
        stop = state.running and state.hurrying() and state.seconds <= 60 and state.down <= 2 and state.to_goal > 3
        if stop and state.margin >= -8 and dice.chance(0.7 if not self.timeouts else 0.3):
            return "spike"
        if not dice.chance(self._pass_chance()):
            return "run"
        if state.hurrying():
            return dice.pick({"pass": 12, "screen": 1})
        if state.down >= 3:
            return dice.pick({"pass": 12, "screen": 1, "play-action": 0.7, "rpo": 0.3})
        return dice.pick({"pass": 9, "play-action": 6.2, "screen": 1.6, "rpo": 1.8})

    def _can_kneel_out(self):
        state = self.state
        if state.quarter == 2 and state.seconds <= 12 and state.to_goal > 60:
            return True
        return state.quarter == 4 and state.margin > 0 and state.game_left() <= 38 * (4 - state.down) + 4

    def _pass_chance(self):
        state = self.state
        if state.hurrying():
            return 0.88
        if state.down >= 3:
            chance = 0.93 if state.distance >= 7 else 0.84 if state.distance >= 3 else 0.45
        elif state.down == 2:
            chance = 0.58 if state.distance >= 8 else 0.48 if state.distance >= 4 else 0.34
        else:
            chance = 0.44
        if state.quarter == 4 and state.margin >= 9:
            chance *= 0.6
        if state.quarter == 4 and state.margin <= -9:
            chance = min(0.92, chance * 1.5)
        return chance

    # What is charted

    def _charted(self, call):
        state = self.state
        if call == "kneel":
            return {"play": "kneel", "result": "kneel", "gain": -1 if state.to_goal < 98 else 0, "mark": "0"}
        if call == "spike":
            return {"play": "spike", "result": "spike", "gain": 0, "tempo": "hurry", "mark": "0"}
        row = Dropback(self.dice, state, self.opponent, self.passer, call).run()
        flag = self._flag(row)
        return self._wiped_out(row, flag) if flag else row

    def _flag(self, row):
        """A penalty: what, against whom, yards; None mostly."""
        state, dice = self.state, self.dice
        if dice.chance(0.032) and state.to_goal <= 80:
            return "offence", 10, False
        if (
            dice.chance(0.012)
            and state.to_goal > 30
            and row["result"] == "incomplete"
            and row.get("why") == "broken-up"
        ):
            return "defence", 15, True
        if dice.chance(0.017) and state.to_goal > 12 and row["result"] in ("incomplete", "sack"):
            return "defence", 5, False
        if dice.chance(0.02) and row["result"] == "complete" and not row.get("fumble"):
            row["penalty"] = "declined"
        return None

    @staticmethod
    def _wiped_out(row, flag):
        side, yards, automatic = flag
        kept = ("play", "personnel", "backfield", "formation", "motion", "tempo", "shell", "front", "sub", "box")
        wiped = {key: row[key] for key in kept}
        wiped.update({"result": "no-play", "penalty": side, "penalty-yards": yards, "mark": row["mark"]})
        wiped["_automatic"] = automatic
        return wiped

    def _place(self, row, before):
        """The situation before the snap, and the clip."""
        state, dice = self.state, self.dice
        spot = before["to_goal"]
        row["n"], row["drive"], row["quarter"] = self.number, self.drive, before["quarter"]
        row["clock"] = "%d:%02d" % divmod(before["seconds"], 60)
        row["down"] = before["down"]
        goal = before["distance"] == spot and spot <= 10
        row["distance"] = "goal" if goal else before["distance"]
        row["spot"] = "50" if spot == 50 else "+%d" % spot if spot < 50 else "-%d" % (100 - spot)
        row["hash"], row["margin"] = before["hash"], before["margin"]
        start = state.film
        state.film = start + row.get("throw-time", 2.5) + dice.between(4.0, 6.5)
        row["in"], row["out"] = round(start, 1), round(state.film, 1)
        self.rows.append(row)

    # What becomes of the ball

    def _after_run(self):
        state, dice = self.state, self.dice
        gain = int(dice.normal(3.6, 3.2)) + (int(dice.exponential(9)) if dice.chance(0.1) else 0)
        if state.distance <= 2 and dice.chance(0.5):
            gain = max(gain, state.distance)
        gain = max(-4, min(gain, state.to_goal), state.to_goal - 99)
        state.film += dice.between(5, 8)
        if dice.chance(0.009):
            self._run_clock(6)
            return 100 - (state.to_goal - gain) if gain < state.to_goal else 80, False
        return self._advance(gain, dice.pick({"L": 1, "M": 1.4, "R": 1}), dice.chance(0.86))

    def _apply(self, row):
        state, dice, result = self.state, self.dice, row["result"]
        if result == "no-play":
            return self._enforce(row)
        if result == "intercepted":
            self._run_clock(7)
            return self._interception(row)
        if row.get("fumble") == "lost":
            self._run_clock(7)
            return 100 - max(1, min(99, state.to_goal - row["gain"])), False
        if result in ("incomplete", "spike"):
            return self._advance(0, state.hash, False, seconds=4 if result == "incomplete" else 1)
        stays_in = True
        where = state.hash
        if result == "complete":
            where = {"wide-left": "L", "left": "L", "middle": "M"}.get(row["side"], "R")
            stays_in = not (row["side"].startswith("wide") and dice.chance(0.5 if state.hurrying() else 0.3))
        elif result == "scramble":
            where, stays_in = dice.pick({"L": 1, "R": 1}), not dice.chance(0.4)
        if result != "kneel" and row["gain"] == state.to_goal:
            row["touchdown"] = "yes"
        return self._advance(row["gain"], where, stays_in, seconds=2 if result == "kneel" else None)

    def _interception(self, row):
        state = self.state
        caught = state.to_goal - row["depth"]
        if caught <= 0:
            return 80, False
        spot = 100 - caught - self.dice.whole(0, 15)
        return max(5, min(97, spot)), False

    def _advance(self, gain, where, running, seconds=None):
        state = self.state
        self._run_clock(seconds if seconds is not None else self.dice.whole(5, 7))
        state.running = running
        if gain >= state.to_goal:
            return self._touchdown()
        state.to_goal -= gain
        state.hash = where
        if gain >= state.distance:
            self._first_down()
            return None
        state.down += 1
        state.distance -= gain
        if state.down > 4:
            return 100 - state.to_goal, False
        return None

    def _enforce(self, row):
        state = self.state
        yards = row["penalty-yards"]
        self._run_clock(5)
        state.running = False
        if row["penalty"] == "offence":
            state.to_goal += yards
            state.distance += yards
        elif row.pop("_automatic", False) or yards >= state.distance:
            state.to_goal -= yards
            self._first_down()
        else:
            state.to_goal -= yards
            state.distance -= yards
        row.pop("_automatic", None)
        return None

    def _touchdown(self):
        state = self.state
        self._score(True, 6)
        if self.try_for_two and state.quarter == 4 and state.margin in (-2, 1, 5, 12):
            self._try_for_two()
        elif self.dice.chance(0.96):
            self._score(True, 1)
        return 75, True

    def _try_for_two(self):
        """Charted, though no measure counts it. The ball lies at the three."""
        state = self.state
        before = dict(vars(state))
        state.to_goal, state.down, state.distance, state.hash = 3, 1, 3, "M"
        self.number += 1
        state.film += self.dice.between(30, 45)
        row = Dropback(self.dice, state, self.opponent, self.passer, "pass").run()
        row["play"] = "try"
        row.pop("risk", None)
        before["hash"] = "M"
        self._place(row, before)
        for key in ("down", "distance", "spot"):
            row.pop(key)
        if row["result"] in ("complete", "scramble") and row["gain"] >= 3:
            self._score(True, 2)
