"""The cases: vehicle, parameters and air, drawn from seeds."""

from __future__ import annotations

from dataclasses import dataclass

from numpy.random import PCG64, Generator, SeedSequence
from scipy.optimize import brentq

from equilibrium import Load, Prepared, Push
from substitution import check
from vehicle import Choice, Control, choose, rounded

SEED = 20_261
STOP_FORCE_N = 300.0
LEAST_ML = 1.0
NOISE_MM = 1.0
# Digits of an amount of air.
AIR_DIGITS = 6


class NoStopAmount(Exception):
    """No air is needed to reach a stop, or no amount of it is enough."""


@dataclass
class Case:
    control: Control
    air_ml: dict[str, list[float]]
    first: Prepared
    pumped: Prepared
    random: Generator
    # How often every vehicle has had its turn before.
    round: int = 0

    def push(self, load: Load, is_pumped: bool) -> tuple[Push, float]:
        """A push, and the largest residual of it in the equations as they are written."""
        push = (self.pumped if is_pumped else self.first).push(self.air_ml, load)
        return push, check(self.control, self.air_ml, load, is_pumped, push)


def generator(series: int, nth: int, attempt: int) -> Generator:
    return Generator(PCG64(SeedSequence([SEED, series, nth, attempt])))


def below(random: Generator, count: int) -> int:
    return int(random.random() * count)


def _where(random: Generator, control: Control) -> dict[str, list[float]]:
    """The share of the air in every zone: in one circuit in half of all cases, else in all of them; in one zone of
    each."""
    chambers = control.chambers
    if len(chambers) == 1 or random.random() < 0.5:
        shares = [0.0] * len(chambers)
        shares[below(random, len(chambers))] = 1.0
    else:
        share = rounded(random.random())
        shares = [share, 1 - share]
    where = {}
    for chamber, share in zip(chambers, shares):
        zone = below(random, len(chamber.zones))
        where[chamber.circuit] = [share if number == zone else 0.0 for number in range(len(chamber.zones))]
    return where


def _amounts(where: dict[str, list[float]], total_ml: float) -> dict[str, list[float]]:
    return {
        circuit: [rounded(total_ml * share, AIR_DIGITS) for share in shares] for circuit, shares in where.items()
    }


def stop_amount(control: Control, first: Prepared, where: dict[str, list[float]]) -> float:
    """The amount of air with which the first piston just comes to its stop: the room that is left before it, were there
    no stops, passes zero."""

    def push(total_ml: float, is_endless: bool) -> Push:
        air = {circuit: [total_ml * share for share in shares] for circuit, shares in where.items()}
        return first.push(air, Load(STOP_FORCE_N, is_endless=is_endless))

    def rooms(total_ml: float) -> list[float]:
        pistons = push(total_ml, True).pistons
        return [chamber.stroke_mm - piston.relative_mm for chamber, piston in zip(control.chambers, pistons)]

    amounts = []
    for number, (empty, one) in enumerate(zip(rooms(0.0), rooms(1.0))):
        if empty <= 0:
            raise NoStopAmount("a stop is reached without air")
        if empty - one > 1e-6:
            # A millilitre more always takes as much room, but for rounding.
            most_ml = empty / (empty - one) * 1.001
            amounts.append(brentq(lambda total_ml: rooms(total_ml)[number], 0.0, most_ml, xtol=1e-11, rtol=1e-12))
    if not amounts:
        raise NoStopAmount("no amount of air there reaches a stop")
    stop_ml = min(amounts)
    if push(stop_ml * (1 - 1e-7), False).stops or not push(stop_ml * (1 + 1e-7), False).stops:
        raise AssertionError(f"{stop_ml} ml do not just reach a stop")
    return stop_ml


def case(vehicle: dict, series: int, nth: int, attempt: int, amount, own: bool, is_nominal: bool = False) -> Case:
    """`amount` gives the air from the generator and the amount that reaches a stop."""
    random = generator(series, nth, attempt)
    control = choose(vehicle, Choice(None if is_nominal else random.random, own))
    first, pumped = Prepared(control, False), Prepared(control, True)
    where = _where(random, control)
    try:
        stop_ml = stop_amount(control, first, where)
    except NoStopAmount:
        if not is_nominal:
            raise
        stop_ml = None
    # Without such an amount, what the smallest piston sweeps is of the same size.
    swept_ml = min(chamber.area_mm2 * chamber.stroke_mm for chamber in control.chambers) / 1000
    air_ml = _amounts(where, amount(random, swept_ml if stop_ml is None else stop_ml))
    return Case(control, air_ml, first, pumped, random)


def has_room(vehicle: dict) -> bool:
    """Whether, at nominal values and without air, the readings leave all pistons before their stops."""
    control = choose(vehicle, Choice())
    no_air = {chamber.circuit: [0.0] * len(chamber.zones) for chamber in control.chambers}
    return not Prepared(control, False).push(no_air, Load(STOP_FORCE_N)).stops


def up_to_stop(random: Generator, stop_ml: float) -> float:
    low = LEAST_ML if stop_ml >= LEAST_ML else stop_ml / 10
    return low + random.random() * (stop_ml - low)


def beyond_stop(random: Generator, stop_ml: float) -> float:
    return stop_ml * (1.1 + 0.9 * random.random())


def none_to_beyond(random: Generator, stop_ml: float) -> float:
    """No air in a fifth of the cases, else up to one and a half times what reaches a stop."""
    return 0.0 if random.random() < 0.2 else 1.5 * stop_ml * random.random()
