"""A seeded source of chance, used in one order only, so that the same seed gives the same season anywhere."""

import math
import random


class Dice:
    def __init__(self, seed):
        self._random = random.Random(seed)

    def chance(self, probability):
        return self._random.random() < probability

    def between(self, low, high):
        return low + (high - low) * self._random.random()

    def whole(self, low, high):
        return low + int(self._random.random() * (high - low + 1))

    def pick(self, weights):
        """One key of a dict of weights."""
        total = sum(weights.values())
        at = self._random.random() * total
        for key, weight in weights.items():
            at -= weight
            if at < 0:
                return key
        return key

    def exponential(self, mean):
        return -mean * math.log(1 - self._random.random())

    def normal(self, mean, spread):
        """By the polar form on two uniforms, so that no library version changes it."""
        radius = math.sqrt(-2 * math.log(1 - self._random.random()))
        return mean + spread * radius * math.cos(2 * math.pi * self._random.random())


def logistic(odds):
    return 1 / (1 + math.exp(-odds))
