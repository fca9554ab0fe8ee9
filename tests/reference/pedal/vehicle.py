"""Vehicles with ranges, as `vehicles.json` has them, and one vehicle with every value drawn.

Lengths are mm, areas mm2, volumes ml, pressures bar above the atmosphere, forces N.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from math import isfinite
from pathlib import Path
from typing import Callable

VALVES = {
    "open": [],
    "limiting": ["cut_in_bar"],
    "proportioning": ["cut_in_bar", "ratio"],
    "metering": ["hold_off_bar"],
    "residual": ["holds_bar"],
}
CONTROL_FIELDS = ["ratio", "free_play_mm", "flex_mm_per_n", "polytropic_index", "left_after_pumping", "bulk_modulus_bar"]
CHAMBER_FIELDS = ["area_mm2", "stroke_mm", "cut_off_mm", "drag_n"]
BRAKE_FIELDS = ["clearance_ml", "touch_bar", "give_ml_per_100bar"]
# Zero would divide something by nothing.
ABOVE_ZERO = {"ratio", "polytropic_index", "bulk_modulus_bar", "area_mm2", "stroke_mm", "touch_bar", "booster_ratio"}
# Digits of a drawn value.
DIGITS = 8


class WrongVehicle(Exception):
    """Where in the file, what was found there, what is allowed."""


@dataclass(frozen=True)
class Brake:
    clearance_ml: float
    touch_bar: float
    give_ml_per_100bar: float


@dataclass(frozen=True)
class Hose:
    length_m: float
    bar: tuple[float, ...]
    growth_ml_per_m: tuple[float, ...]


@dataclass(frozen=True)
class Zone:
    # The zone that it lies behind, and the kind of the valve between with its settings.
    behind: int | None
    valve: str
    settings: dict[str, float]
    brakes: tuple[Brake, ...]
    hoses: tuple[Hose, ...]
    fluid_ml: float
    wall_ml_per_100bar: float


@dataclass(frozen=True)
class Chamber:
    circuit: str
    area_mm2: float
    stroke_mm: float
    cut_off_mm: float
    drag_n: float
    zones: tuple[Zone, ...]


@dataclass(frozen=True)
class Control:
    """Every value of one vehicle."""

    ratio: float
    free_play_mm: float
    flex_mm_per_n: float
    polytropic_index: float
    left_after_pumping: float
    bulk_modulus_bar: float
    booster_ratio: float | None
    booster_help_n: float | None
    bar_share: float | None
    cylinders: tuple[tuple[Chamber, ...], ...]

    @property
    def chambers(self) -> list[Chamber]:
        return [chamber for cylinder in self.cylinders for chamber in cylinder]


@dataclass
class Choice:
    """Chooses a value from each range: nominal without `random`, else uniform. All of one kind lie equally far up their
    ranges, or with `own` each part by itself."""

    random: Callable[[], float] | None = None
    own: bool = False
    _shares: dict[str, float] = field(default_factory=dict)

    def _share(self, kind: str, name: str) -> float:
        key = name if self.own else kind
        if key not in self._shares:
            self._shares[key] = rounded(self.random())
        return self._shares[key]

    def value(self, given: dict, kind: str, name: str) -> float:
        if self.random is None:
            return given["nominal"]
        if given["low"] == given["high"]:
            return given["low"]
        return rounded(given["low"] + self._share(kind, name) * (given["high"] - given["low"]))

    def growth(self, given: dict, name: str) -> tuple[float, ...]:
        if self.random is None:
            return tuple(given["nominal"])
        if given["low"] == given["high"]:
            return tuple(given["low"])
        share = self._share("hose", name)
        return tuple(low + share * (high - low) for low, high in zip(given["low"], given["high"]))


def rounded(value: float, digits: int = DIGITS) -> float:
    return float(f"{value:.{digits}g}")


def choose(vehicle: dict, choice: Choice) -> Control:
    def chamber(given: dict) -> Chamber:
        circuit = given["circuit"]
        values = {name: choice.value(given[name], name, f"{circuit}/{name}") for name in CHAMBER_FIELDS}
        zones = []
        for number, zone in enumerate(given["zones"]):
            brakes, hoses = [], []
            for part in given["parts"]:
                name = f"{circuit}/{part['name']}"
                if part["zone"] != number:
                    continue
                if part["kind"] == "hose":
                    curve = part["growth_ml_per_m"]
                    growth = choice.growth(curve, f"{name}/growth_share")
                    hoses.append(Hose(part["length_m"], tuple(curve["bar"]), growth))
                else:
                    fields = {
                        key: choice.value(part[key], f"{part['kind']} {key}", f"{name}/{key}") for key in BRAKE_FIELDS
                    }
                    brakes.append(Brake(**fields))
            valve = zone["valve"] or {"kind": "open"}
            settings = {
                key: choice.value(valve[key], f"{valve['kind']} {key}", f"{circuit}/{zone['name']}/{key}")
                for key in VALVES[valve["kind"]]
            }
            contents = {
                key: choice.value(given[key][number], key, f"{circuit}/zone {number}/{key}")
                for key in ("fluid_ml", "wall_ml_per_100bar")
            }
            zones.append(Zone(zone["behind"], valve["kind"], settings, tuple(brakes), tuple(hoses), **contents))
        return Chamber(circuit, zones=tuple(zones), **values)

    values = {name: choice.value(vehicle[name], name, name) for name in CONTROL_FIELDS}
    for name in ("booster_ratio", "booster_help_n", "bar_share"):
        values[name] = None if vehicle[name] is None else choice.value(vehicle[name], name, name)
    cylinders = tuple(tuple(chamber(given) for given in cylinder["chambers"]) for cylinder in vehicle["cylinders"])
    return Control(cylinders=cylinders, **values)


def read(path: Path) -> list[dict]:
    """The vehicles as they stand in the file, each field of them looked at."""
    try:
        vehicles = json.loads(path.read_text(encoding="utf-8"))["vehicles"]
    except FileNotFoundError:
        raise WrongVehicle(f"{path}: there is no such file; write the vehicles of the demo layouts there") from None
    except (json.JSONDecodeError, KeyError, TypeError) as error:
        raise WrongVehicle(f"{path}: not an object with a list `vehicles`: {error!r}") from None
    if not vehicles:
        raise WrongVehicle(f"{path}: `vehicles` is empty, at least one is needed")
    for vehicle in vehicles:
        where = f"{path}: {vehicle.get('layout')} {vehicle.get('control')}"
        try:
            _make_ranges(vehicle)
            _look_at(vehicle, where)
        except (KeyError, TypeError, IndexError) as error:
            raise WrongVehicle(f"{where}: a field is missing or has the wrong form: {error!r}") from None
    return vehicles


def _make_ranges(vehicle: dict) -> None:
    """Contents, walls and valves may stand there as plain numbers, which are exact."""

    def ranged(given):
        return {"low": given, "nominal": given, "high": given} if isinstance(given, (int, float)) else given

    for cylinder in vehicle["cylinders"]:
        for chamber in cylinder["chambers"]:
            for key in ("fluid_ml", "wall_ml_per_100bar"):
                chamber[key] = [ranged(given) for given in chamber[key]]
            for zone in chamber["zones"]:
                if zone["valve"]:
                    zone["valve"] = {key: ranged(given) for key, given in zone["valve"].items()}


def _look_at(vehicle: dict, where: str) -> None:
    for name in CONTROL_FIELDS:
        _look_at_range(vehicle[name], f"{where}, {name}", name in ABOVE_ZERO)
    for name in ("booster_ratio", "booster_help_n", "bar_share"):
        if vehicle[name] is not None:
            _look_at_range(vehicle[name], f"{where}, {name}", True)
    for name in ("left_after_pumping", "bar_share"):
        if vehicle[name] is not None and vehicle[name]["high"] > 1:
            raise WrongVehicle(f"{where}, {name}: {vehicle[name]['high']} is above 1")
    sizes = [len(cylinder["chambers"]) for cylinder in vehicle["cylinders"]]
    if sizes not in ([1], [2], [1, 1]) or (len(sizes) == 2) != (vehicle["bar_share"] is not None):
        raise WrongVehicle(f"{where}: chambers {sizes} with bar_share {vehicle['bar_share']}; allowed are [1] and [2] "
                           "without, [1, 1] with a balance bar")
    chambers = [chamber for cylinder in vehicle["cylinders"] for chamber in cylinder["chambers"]]
    if len({chamber["circuit"] for chamber in chambers}) < len(chambers):
        raise WrongVehicle(f"{where}: two chambers feed circuits of one name")
    for chamber in chambers:
        _look_at_chamber(chamber, f"{where}, circuit {chamber['circuit']}")


def _look_at_chamber(chamber: dict, where: str) -> None:
    for name in CHAMBER_FIELDS:
        _look_at_range(chamber[name], f"{where}, {name}", name in ABOVE_ZERO)
    zones = chamber["zones"]
    for number, zone in enumerate(zones):
        is_first = number == 0
        if (zone["behind"] is None) != is_first or (not is_first and not 0 <= zone["behind"] < number):
            raise WrongVehicle(f"{where}, zone {number}: behind {zone['behind']}; only zone 0 is behind nothing, the "
                               "others each behind an earlier one")
        if is_first and zone["valve"]:
            raise WrongVehicle(f"{where}, zone 0: {zone['valve']['kind']} valve; zone 0 has the chamber's own pressure")
        if not is_first:
            kind = zone["valve"]["kind"]
            if kind not in VALVES:
                raise WrongVehicle(f"{where}, zone {number}: valve {kind!r}; allowed are {', '.join(VALVES)}")
            for key in VALVES[kind]:
                _look_at_range(zone["valve"][key], f"{where}, {key} of zone {number}", False)
    for key in ("fluid_ml", "wall_ml_per_100bar"):
        if len(chamber[key]) != len(zones):
            raise WrongVehicle(f"{where}, {key}: {len(chamber[key])} entries for {len(zones)} zones")
        for number, given in enumerate(chamber[key]):
            _look_at_range(given, f"{where}, {key} of zone {number}", key == "fluid_ml" and number == 0)
    names = [part["name"] for part in chamber["parts"]] + [zone["name"] for zone in zones]
    if len(set(names)) < len(names):
        raise WrongVehicle(f"{where}: one name twice among its parts and zones: {names}")
    for part in chamber["parts"]:
        _look_at_part(part, f"{where}, {part['name']}", len(zones))


def _look_at_part(part: dict, where: str, zones: int) -> None:
    if not 0 <= part["zone"] < zones:
        raise WrongVehicle(f"{where}: zone {part['zone']}, but there are {zones}")
    if part["kind"] == "hose":
        growth = part["growth_ml_per_m"]
        curves = [growth[key] for key in ("low", "nominal", "high")]
        bar = growth["bar"]
        if bar[0] != 0 or len(bar) < 2 or any(b <= a for a, b in zip(bar, bar[1:])):
            raise WrongVehicle(f"{where}: pressures {bar}; they must begin at 0 and rise")
        for curve in curves:
            if len(curve) != len(bar) or curve[0] != 0 or any(b < a for a, b in zip(curve, curve[1:])):
                raise WrongVehicle(f"{where}: growth {curve}; it must begin at 0, never fall, and fit the pressures")
        for values in zip(*curves):
            if not values[0] <= values[1] <= values[2]:
                raise WrongVehicle(f"{where}: low, nominal and high growth {values} are out of order")
        if not part["length_m"] >= 0:
            raise WrongVehicle(f"{where}: length {part['length_m']} m")
    elif part["kind"] in ("disc", "drum"):
        for key in BRAKE_FIELDS:
            _look_at_range(part[key], f"{where}, {key}", key in ABOVE_ZERO)
    else:
        raise WrongVehicle(f"{where}: kind {part['kind']!r}; allowed are disc, drum, hose")


def _look_at_range(given: dict, where: str, above_zero: bool) -> None:
    values = [given[key] for key in ("low", "nominal", "high")]
    if not all(isfinite(value) for value in values) or not values[0] <= values[1] <= values[2]:
        raise WrongVehicle(f"{where}: low, nominal, high are {values}; finite numbers in this order are needed")
    if values[0] < 0 or (above_zero and values[0] == 0):
        raise WrongVehicle(f"{where}: low is {values[0]}; it must be {'above' if above_zero else 'at least'} 0")
