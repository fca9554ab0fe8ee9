"""Draws values and writes them down, each kept exactly beside its text.

Lengths are held in millimetres and volumes in cubic millimetres, as
fractions, so that nothing is rounded before the last step.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from decimal import Context, Decimal, ROUND_HALF_EVEN
from fractions import Fraction

# The first digits of pi; fifty of them are far more than a double holds.
PI = Fraction("3.14159265358979323846264338327950288419716939937510")
MM_PER_INCH = Fraction("25.4")
MM3_PER_ML = 1000

# Digits of every number that is printed: exact in a double, so that the
# printed text is the same on every machine.
DIGITS = 15


class Draw:
    """Seeded draws. Only `random()` is used: it is the one method whose
    sequence Python promises to keep from version to version."""

    def __init__(self, seed: int) -> None:
        self._source = random.Random(seed)

    def below(self, count: int) -> int:
        return int(self._source.random() * count)

    def between(self, low: int, high: int) -> int:
        return low + self.below(high - low + 1)

    def chance(self, share: float) -> bool:
        return self._source.random() < share

    def pick(self, items):
        return items[self.below(len(items))]

    def shuffled(self, items) -> list:
        left = list(items)
        return [left.pop(self.below(len(left))) for _ in range(len(left))]


@dataclass(frozen=True)
class Quantity:
    """A value as written, with its lowest, nominal and highest value."""

    text: str
    bounds: tuple[Fraction, Fraction, Fraction]

    @property
    def nominal(self) -> Fraction:
        return self.bounds[1]


@dataclass(frozen=True)
class Volume:
    """Three volumes of the form `plain + rounded pi / 4`."""

    plain: tuple[Fraction, Fraction, Fraction]
    rounded: tuple[Fraction, Fraction, Fraction]

    def __add__(self, other: Volume) -> Volume:
        return Volume(
            tuple(a + b for a, b in zip(self.plain, other.plain)),
            tuple(a + b for a, b in zip(self.rounded, other.rounded)),
        )

    def in_ml(self) -> list[float]:
        return [
            number((plain + rounded * PI / 4) / MM3_PER_ML)
            for plain, rounded in zip(self.plain, self.rounded)
        ]


ZERO = (Fraction(0), Fraction(0), Fraction(0))
NO_VOLUME = Volume(ZERO, ZERO)


def stated(volume: Quantity) -> Volume:
    return Volume(volume.bounds, ZERO)


def tube(bore: Quantity, length: Quantity, count: int = 1) -> Volume:
    """Contents of a round bore: pi / 4 bore^2 length."""
    rounded = (b * b * l * count for b, l in zip(bore.bounds, length.bounds))
    return Volume(ZERO, tuple(rounded))


def number(value: Fraction) -> float:
    """The nearest number of fifteen significant digits."""
    context = Context(prec=DIGITS, rounding=ROUND_HALF_EVEN)
    return float(context.divide(Decimal(value.numerator), Decimal(value.denominator)))


def written(value: Fraction) -> str:
    """A terminating decimal, written out in full."""
    decimal = Context(prec=40).divide(Decimal(value.numerator), Decimal(value.denominator))
    if Fraction(decimal) != value:
        raise ValueError(f"{value} has no short decimal")
    text = format(decimal, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def with_tolerance(draw: Draw, value: Fraction, unit: str, size: Fraction) -> Quantity:
    """`value` in a unit of `size`, in about every third case with a tolerance."""
    text = f"{written(value)} {unit}"
    exact = value * size
    if not draw.chance(0.35):
        return Quantity(text, (exact, exact, exact))
    sign = draw.pick(["±", "+-", "+/-"])
    per_cent = draw.between(1, 9)
    span = exact * per_cent / 100
    bounds = (exact - span, exact, exact + span)
    if draw.chance(0.4):
        return Quantity(f"{text} {sign} {per_cent} %", bounds)
    return Quantity(f"{text} {sign} {written(value * per_cent / 100)} {unit}", bounds)


def length(draw: Draw, low_mm: int, high_mm: int) -> Quantity:
    """A length of whole micrometres, in one of the units a workshop uses."""
    unit = draw.pick(["mm", "mm", "m", "m", "cm", "in"])
    if unit == "in":
        # A quarter of an inch is 6350 micrometres, and so a whole number.
        quarter = MM_PER_INCH / 4
        least, most = -(-low_mm // quarter), high_mm // quarter
        quarters = draw.between(int(least), int(most))
        if quarters > 4 and quarters % 4 and draw.chance(0.5):
            mm = quarters * quarter
            return Quantity(f"{quarters // 4} {quarters % 4}/4 in", (mm, mm, mm))
        return with_tolerance(draw, Fraction(quarters, 4), "in", MM_PER_INCH)
    size = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}[unit]
    mm = Fraction(draw.between(low_mm * 1000, high_mm * 1000), 1000)
    return with_tolerance(draw, mm / size, unit, size)


def bore(draw: Draw, low_mm: int, high_mm: int) -> Quantity:
    """An inside diameter or the bore of a piston."""
    if draw.chance(0.2):
        least, most = -(-low_mm * 16 // MM_PER_INCH), high_mm * 16 // MM_PER_INCH
        sixteenths = draw.between(int(least), int(most))
        mm = sixteenths * MM_PER_INCH / 16
        whole, rest = divmod(sixteenths, 16)
        text = " ".join(([str(whole)] if whole else []) + ([f"{rest}/16"] if rest else []))
        return Quantity(f"{text} in", (mm, mm, mm))
    mm = Fraction(draw.between(low_mm * 100, high_mm * 100), 100)
    return with_tolerance(draw, mm, "mm", Fraction(1))


def volume(draw: Draw, low_ml: int, high_ml: int) -> Quantity:
    """A volume in steps of a hundredth of a millilitre."""
    ml = Fraction(draw.between(low_ml * 100, high_ml * 100), 100)
    unit = draw.pick(["ml", "ml", "ml", "cc", "cm3", "mm3"])
    size = Fraction(1) if unit == "mm3" else Fraction(MM3_PER_ML)
    return with_tolerance(draw, ml * MM3_PER_ML / size, unit, size)
