"""Reference values for pedal strokes, computed with SciPy.

    python3 generate.py [FOLDER]

writes `long/cases.json` into the folder, else beside this file, and the first
of them into `cases.json`. Two cases are the stroke into three lines with a
pocket at the end of a dead leg, the others are networks drawn from seeds. Each is integrated with `solve_ivp` (Radau IIA, order
five) in pressures, from kink to kink. The tests integrate stored volumes with
another method.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

import draws
import model

CASES = 20
# So many of all cases are committed; they show every number of nodes, and a loop.
FEW = 9
# Digits after the point of millilitres. Two runs of the integration with other
# tolerances differ by less than a hundredth of the last digit.
DIGITS = 8
# A value this near to the middle between two printed ones could be printed
# either way on another machine; such a case is drawn again.
MARGIN = 0.02


class NotStable(Exception):
    """A value could be rounded either way."""


def rounded(value_ml: float) -> float:
    scaled = value_ml * 10**DIGITS
    if abs(abs(scaled - round(scaled)) - 0.5) < MARGIN:
        raise NotStable(value_ml)
    # Adding zero turns a negative zero into a plain one.
    return round(value_ml, DIGITS) + 0.0


def case(name: str, network: model.Network, times_s: list[float]) -> dict:
    samples = [
        {
            "time_s": sample.time_s,
            "gas_ml": [rounded(gas) for gas in sample.gas_ml],
            "delivered_ml": [rounded(volume) for volume in sample.delivered_ml],
        }
        for sample in model.solve(network, times_s)
    ]
    return {"name": name, **network.described(), "samples": samples}


def drawn(nth: int) -> dict:
    for attempt in range(1000):
        network, times_s = draws.network(draws.Draw(nth * 1000 + attempt), nth)
        try:
            return case(f"network {nth + 1}", network, times_s)
        except NotStable:
            continue
    raise ValueError(f"case {nth} cannot be printed whatever is drawn")


def printed(cases: list[dict]) -> str:
    """JSON with one node, branch or sample to a line."""

    def compact(value) -> str:
        return json.dumps(value, sort_keys=True)

    def fields(case: dict):
        for key, value in sorted(case.items()):
            if isinstance(value, list) and value and isinstance(value[0], dict):
                inner = ",\n  ".join(compact(item) for item in value)
                yield f"{compact(key)}: [\n  {inner}\n ]"
            else:
                yield f"{compact(key)}: {compact(value)}"

    return "[\n" + ",\n".join("{\n " + ",\n ".join(fields(case)) + "\n}" for case in cases) + "\n]\n"


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    cases = [
        case(f"stroke case, n = {index}", draws.stroke_case(index), draws.STROKE_TIMES_S)
        for index in (1.0, 1.4)
    ]
    cases += [drawn(nth) for nth in range(CASES)]
    (folder / "long").mkdir(exist_ok=True)
    for path, these in [("cases.json", cases[:FEW]), ("long/cases.json", cases)]:
        (folder / path).write_text(printed(these), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
