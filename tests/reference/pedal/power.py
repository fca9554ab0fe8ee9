"""A power that is the same on every machine, to the last bit.

Mathematical libraries differ in their last bits, even one library on two processors; with thousands of printed values of
twelve digits some would be printed otherwise. Python's four operations, and taking a number apart into mantissa and
exponent, are the same everywhere. `substitution` uses the machine's own power, and so checks this one.
"""

from __future__ import annotations

from math import frexp, ldexp

# 2 atanh(s) = 2 s (1 + s^2/3 + s^4/5 + ...): at |s| = 0.172 the thirteenth term is below 1e-19 of the first.
_LOGARITHM = [1 / (2 * term + 1) for term in reversed(range(13))]
# exp(r) - 1 = r (1 + r/2 + r^2/6 + ...): at |r| = 0.347 the sixteenth term is below 1e-20 of the first.
_EXPONENTIAL = [1.0]
for _term in range(2, 17):
    _EXPONENTIAL.insert(0, _EXPONENTIAL[0] / _term)
# The logarithm of two in a part with zeros at its end, so that small multiples of it are exact, and the rest.
_LOG2_HIGH = float.fromhex("0x1.62e42feep-1")
_LOG2_LOW = float.fromhex("0x1.a39ef35793c76p-33")
_ROOT_HALF = 0.7071067811865476


def _polynomial(coefficients: list[float], at: float) -> float:
    value = 0.0
    for coefficient in coefficients:
        value = value * at + coefficient
    return value


def _logarithm(rise: float) -> float:
    """Of 1 + rise, from rise 0 on."""
    mantissa, twos = frexp(1 + rise)
    if mantissa < _ROOT_HALF:
        mantissa, twos = mantissa * 2, twos - 1
    # Near one the sum 1 + rise has lost digits that rise still has.
    ratio = rise / (2 + rise) if twos == 0 else (mantissa - 1) / (mantissa + 1)
    return 2 * ratio * _polynomial(_LOGARITHM, ratio * ratio) + twos * _LOG2_LOW + twos * _LOG2_HIGH


def power_less_one(rise: float, exponent: float) -> float:
    """(1 + rise) to the exponent, less one, to a few last bits; for rise from 0 on."""
    total = exponent * _logarithm(rise)
    twos = round(total / (_LOG2_HIGH + _LOG2_LOW))
    rest = (total - twos * _LOG2_HIGH) - twos * _LOG2_LOW
    less_one = rest * _polynomial(_EXPONENTIAL, rest)
    return less_one if twos == 0 else ldexp(1 + less_one, twos) - 1
