"""Reference values for pedal travel with trapped air.

    python3 generate.py [FOLDER [VEHICLES]]

reads `vehicles.json` beside this file, or VEHICLES, and makes 1,000 cases with three readings each, 100 with more air
than reaches a stop, and 100 without noise at nominal values. They go into `long/readings.json` in the folder, else beside
this file; the first of each kind, with every vehicle the same number of times, into `readings.json`.

What is shared with the program under test: the physics (what a circuit takes up at a pressure, what balances a piston),
and the ranges that stand in `vehicles.json`. What is not: the way to the answer, and every line of code. The program
goes from the force to pressures, from these to travel, and asks which piston is at its stop; here the travel is what is
sought, as the least of an energy with stops as bounds on it (`equilibrium`), and pressures come from displaced volumes
(`circuit`). `substitution` puts every solution into the equations as they are written; none may miss by 1e-9. Since the
physics is shared, agreement shows that it was computed right, not that a brake behaves so.

A measured travel has normal noise of 1 mm. Amounts, parameters and noise come from PCG64 with a seed for each case.
Parameters are drawn between the low and the high of their range; all of one kind lie equally far up, or in every third
round of the vehicles each by itself. A draw in which the stop is reached without air, or with no amount of it, is drawn
again and counted. A control that is on a stop at 300 N and nominal values without any air is left out of all but the
exact cases. Both are said at the end.
"""

from __future__ import annotations

import json
import sys
from collections import Counter
from pathlib import Path

import draws
import vehicle
from equilibrium import Load

NOISY, BEYOND, EXACT = 1000, 100, 100
# Turns of every vehicle among the few that are committed. Exact ones have four kinds of turns.
NOISY_TURNS, BEYOND_TURNS, EXACT_TURNS = 6, 2, 4
# Kind of push and force at the pedal.
READINGS = [("first", 50.0), ("first", 300.0), ("pumped", 50.0)]
LEAST_N, MOST_N = 20.0, 800.0
DIGITS = 12
MEASURED_DIGITS = 3
MOST_ATTEMPTS = 1000


class Written:
    """The cases so far, with what is worth knowing about all of them."""

    def __init__(self) -> None:
        self.cases: list[dict] = []
        self.worst = 0.0
        self.drawn_again: Counter[str] = Counter()

    def add(self, vehicles: list[dict], series: int, nth: int, amount, describe, is_nominal: bool = False) -> None:
        count = len(vehicles)
        chosen = vehicles[nth % count]
        round_of_all = nth // count
        own = round_of_all % 3 == 2 and not is_nominal
        for attempt in range(MOST_ATTEMPTS):
            try:
                case = draws.case(chosen, series, nth, attempt, amount, own, is_nominal)
                case.round = round_of_all
                described = describe(case)
            except draws.NoStopAmount as reason:
                self.drawn_again[f"{chosen['layout']} {chosen['control']}: {reason}"] += 1
                continue
            break
        else:
            raise vehicle.WrongVehicle(
                f"{chosen['layout']} {chosen['control']}: none of {MOST_ATTEMPTS} draws has an amount of air that just "
                f"puts a piston on its stop at {draws.STOP_FORCE_N:g} N"
            )
        described |= {
            "number": len(self.cases) + 1,
            "layout": chosen["layout"],
            "control": chosen["control"],
            "beyond_stop": amount is draws.beyond_stop,
            "exact": is_nominal,
            "air_ml": case.air_ml,
        }
        self.cases.append(described)

    def reading(self, case: draws.Case, push_kind: str, load: Load, is_noisy: bool) -> dict:
        push, residual = case.push(load, push_kind == "pumped")
        self.worst = max(self.worst, residual)
        measured = None
        if is_noisy:
            noisy = push.pedal_mm + draws.NOISE_MM * float(case.random.standard_normal())
            measured = round(noisy, MEASURED_DIGITS)
        return {
            "push": push_kind,
            "force_n": load.force_n,
            "measured_mm": measured,
            "travel_mm": vehicle.rounded(push.pedal_mm, DIGITS),
            "pressure_bar": {piston.circuit: vehicle.rounded(piston.bar, DIGITS) for piston in push.pistons},
        }

    def noisy(self, case: draws.Case) -> dict:
        readings = [self.reading(case, kind, Load(force), True) for kind, force in READINGS]
        return {"booster": "exhausted", "lost": None, "readings": readings}

    def exact(self, case: draws.Case) -> dict:
        """One push of any force. By rounds of the vehicles: a circuit lost in every third, all of a control in turn; pumped
        in two of four; the booster running, where there is one, in every second."""
        force = round(LEAST_N + (MOST_N - LEAST_N) * case.random.random(), 1)
        circuits = [chamber.circuit for chamber in case.control.chambers]
        lost = circuits[case.round // 3 % len(circuits)] if case.round % 3 == 2 else None
        kind = "pumped" if case.round % 4 in (1, 2) else "first"
        is_boosted = case.control.booster_ratio is not None and case.round % 2 == 1
        reading = self.reading(case, kind, Load(force, is_boosted, lost), False)
        return {"booster": "running" if is_boosted else "exhausted", "lost": lost, "readings": [reading]}


def text(cases: list[dict]) -> str:
    """JSON with one reading to a line."""

    def lines(case: dict) -> str:
        head = json.dumps({key: value for key, value in case.items() if key != "readings"}, sort_keys=True)
        readings = ",\n  ".join(json.dumps(reading, sort_keys=True) for reading in case["readings"])
        return f'{head[:-1]}, "readings": [\n  {readings}\n]}}'

    return "[\n" + ",\n".join(map(lines, cases)) + "\n]\n"


def write(vehicles_path: Path, folder: Path) -> None:
    vehicles = vehicle.read(vehicles_path)
    with_room = [given for given in vehicles if draws.has_room(given)]
    left_out = [f"{given['layout']} {given['control']}" for given in vehicles if given not in with_room]
    if not with_room:
        raise vehicle.WrongVehicle(
            f"{vehicles_path}: every control is on a stop at {draws.STOP_FORCE_N:g} N without any air"
        )
    written = Written()
    for nth in range(NOISY):
        written.add(with_room, 1, nth, draws.up_to_stop, written.noisy)
    for nth in range(BEYOND):
        written.add(with_room, 2, nth, draws.beyond_stop, written.noisy)
    for nth in range(EXACT):
        written.add(vehicles, 3, nth, draws.none_to_beyond, written.exact, is_nominal=True)
    few = [
        case
        for start, count in [
            (0, NOISY_TURNS * len(with_room)),
            (NOISY, BEYOND_TURNS * len(with_room)),
            (NOISY + BEYOND, EXACT_TURNS * len(vehicles)),
        ]
        for case in written.cases[start : start + count]
    ]
    (folder / "long").mkdir(exist_ok=True)
    for path, cases in [("readings.json", few), ("long/readings.json", written.cases)]:
        (folder / path).write_text(text(cases), encoding="utf-8", newline="\n")
    print(f"{len(written.cases)} cases, largest residual {written.worst:.1e}")
    for name in left_out:
        print(f"only among the exact cases, since on a stop at {draws.STOP_FORCE_N:g} N without air: {name}")
    for reason, count in sorted(written.drawn_again.items()):
        print(f"drawn again {count} times: {reason}")


def main() -> None:
    beside = Path(__file__).parent
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else beside
    vehicles_path = Path(sys.argv[2]) if len(sys.argv) > 2 else beside / "vehicles.json"
    try:
        write(vehicles_path, folder)
    except vehicle.WrongVehicle as error:
        sys.exit(f"error: {error}")


if __name__ == "__main__":
    main()
