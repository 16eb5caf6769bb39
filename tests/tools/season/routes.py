"""Routes as they are thrown: how deep, to whom, to which side, and what comes after the catch."""

from dataclasses import dataclass

OUTSIDE = {"wide-left": 5, "left": 1, "right": 1, "wide-right": 5}
BETWEEN = {"wide-left": 1, "left": 4, "middle": 1, "right": 4, "wide-right": 1}
INSIDE = {"left": 3, "middle": 4, "right": 3}


@dataclass(frozen=True)
class Route:
    name: str
    low: int  # yards past the line
    high: int
    who: tuple  # targets that run it
    sides: dict
    weight: float
    breaks: bool  # has a break that a throw can be ahead of
    after: float  # mean yards after the catch


ROUTES = [
    Route("slant", 4, 8, ("WR", "slot"), BETWEEN, 6, True, 4.5),
    Route("glance", 9, 14, ("WR", "slot"), INSIDE, 5, True, 5.0),
    Route("hitch", 4, 6, ("WR",), BETWEEN, 7, True, 2.2),
    Route("stick", 4, 6, ("TE", "slot"), INSIDE, 6, True, 2.6),
    Route("curl", 10, 12, ("WR",), BETWEEN, 5, True, 2.0),
    Route("comeback", 12, 15, ("WR",), OUTSIDE, 4, True, 0.8),
    Route("out", 5, 6, ("slot", "WR"), OUTSIDE, 5, True, 1.5),
    Route("deep-out", 10, 13, ("WR",), OUTSIDE, 5, True, 1.0),
    Route("in", 5, 7, ("WR", "slot"), INSIDE, 4, True, 3.2),
    Route("dig", 11, 15, ("WR", "slot"), INSIDE, 6, True, 3.5),
    Route("post", 20, 38, ("WR",), INSIDE, 3, True, 5.0),
    Route("skinny-post", 15, 25, ("WR", "slot"), INSIDE, 3, True, 4.0),
    Route("over", 12, 18, ("slot", "TE"), INSIDE, 5, False, 5.5),
    Route("drag", 5, 7, ("TE", "slot"), INSIDE, 4, False, 5.0),
    Route("shallow", 2, 5, ("slot", "WR"), INSIDE, 4, False, 5.5),
    Route("corner", 16, 22, ("slot", "TE"), OUTSIDE, 4, True, 1.5),
    Route("sail", 12, 18, ("slot", "TE"), OUTSIDE, 4, True, 2.0),
    Route("go", 22, 42, ("WR",), OUTSIDE, 5, False, 4.0),
    Route("fade", 15, 26, ("WR",), OUTSIDE, 2, False, 1.0),
    Route("seam", 14, 25, ("TE", "slot"), INSIDE, 4, False, 4.0),
    Route("wheel", 12, 22, ("RB",), OUTSIDE, 1.5, False, 5.0),
    Route("flat", 0, 3, ("RB", "TE"), OUTSIDE, 6, False, 4.0),
    Route("swing", -4, -1, ("RB",), OUTSIDE, 3, False, 5.5),
    Route("angle", 3, 6, ("RB",), INSIDE, 2, True, 4.5),
    Route("check", 1, 4, ("RB",), INSIDE, 6, False, 4.5),
    Route("pivot", 3, 5, ("slot",), INSIDE, 2, True, 3.0),
    Route("spot", 4, 6, ("slot", "WR"), INSIDE, 2, True, 2.5),
    Route("option", 5, 7, ("slot", "TE"), INSIDE, 3, True, 3.0),
    Route("double", 24, 38, ("WR",), OUTSIDE, 1, True, 5.0),
]
SCREEN = Route("screen", -6, -2, ("RB", "WR"), BETWEEN, 1, False, 8.5)

QUICK = {"slant", "hitch", "stick", "out", "flat", "spot", "in", "swing", "pivot", "shallow", "glance"}
OUTLETS = {"check", "flat", "swing", "shallow", "drag", "angle"}
