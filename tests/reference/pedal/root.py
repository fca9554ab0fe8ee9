"""The root of a rising function between two bounds."""

from __future__ import annotations

from typing import Callable

MOST_STEPS = 300


def rising_root(function: Callable[[float], tuple[float, float]], low: float, high: float, start: float) -> float:
    """Where `function`, which gives value and slope, passes zero; a bound where it does not.

    Newton's method, with a halving of the bracket wherever a step would leave it or the steps stop shrinking. It goes
    on to the last bit, which `scipy.optimize.brentq` with its four units of it does not. A bound is looked at only when
    a step leads there.
    """
    is_low_seen = is_high_seen = False
    at, step = min(max(start, low), high), high - low
    for _ in range(MOST_STEPS):
        value, slope = function(at)
        if value == 0:
            return at
        if value < 0:
            if at >= high:
                return high
            low, is_low_seen = at, True
        else:
            if at <= low:
                return low
            high, is_high_seen = at, True
        before, step = step, value / slope if slope > 0 else 2 * value / abs(value) * (high - low)
        following = at - step
        if following == at:
            return at
        if following <= low and not is_low_seen:
            following = low
        elif following >= high and not is_high_seen:
            following = high
        elif not low < following < high or abs(step) > 0.7 * abs(before):
            following = low + (high - low) / 2
            step = at - following
            if not low < following < high and is_low_seen and is_high_seen:
                return following
        at = following
    raise ValueError(f"no root after {MOST_STEPS} steps, between {low!r} and {high!r}")
