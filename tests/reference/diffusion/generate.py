"""Reference values for a laminar tube with diffusion across its bore, alone and with a stirred tank behind it.

    python3 generate.py [FOLDER]

writes `tube.json` into the folder, else beside this file:

- `tau`, `theta`, `root`: `1 / sqrt(c)` of what leaves, the table that `hydraulics::diffusion` interpolates in (the Rust
  constants are these numbers);
- `exit`: `c` at places between those of the table, on a finer grid in r;
- `push`: the theta for a residual, with what is then inside;
- `tank`: the theta, by contents of the tube, for 5 % behind a stirred tank of `kappa` times its contents.
"""

from __future__ import annotations

import json
import sys
import textwrap
from pathlib import Path

import numpy as np

import tube

PER_OCTAVE, OCTAVES = 5, 5
PER_DECADE, DECADES = 8, 4
LEAST_TAU = 2e-5
# What leaves is never followed below this.
LEAST_FRACTION = 1e-8


def digits(value, count=7):
    return float(f"{value:.{count - 1}e}")


def table():
    theta = 0.5 * 2.0 ** (np.arange(PER_OCTAVE * OCTAVES + 1) / PER_OCTAVE)
    tau = LEAST_TAU * 10.0 ** (np.arange(PER_DECADE * DECADES + 1) / PER_DECADE)
    root = []
    for each in tau:
        cells = 320 if each < 1e-4 else 160
        out = np.concatenate(([1.0], tube.exit_fraction(theta[1:], each, cells)))
        out = np.minimum.accumulate(np.clip(out, LEAST_FRACTION, 1.0))
        root.append([digits(value) for value in 1.0 / np.sqrt(out)])
    return [digits(value, 12) for value in theta], [digits(value, 12) for value in tau], root


def curve(tau, cells=128):
    """Theta, the exit and what is inside, closely spaced; exact at tau = 0."""
    theta = np.concatenate((np.linspace(0.5, 0.7, 11)[:-1], np.geomspace(0.7, 7.0, 150)))
    if tau == 0.0:
        out = 0.25 / theta**2
    else:
        out = np.concatenate(([1.0], tube.exit_fraction(theta[1:], tau, cells)))
    return theta, out


def fine(theta, out, count=200_000):
    """The logarithm of the exit by cubic pieces (finite differences for slopes), and the integral of the exit."""
    logs = np.log(np.maximum(out, 1e-12))
    slopes = np.gradient(logs, theta, edge_order=2)
    x = np.linspace(theta[0], theta[-1], count)
    i = np.clip(np.searchsorted(theta, x) - 1, 0, len(theta) - 2)
    h = theta[i + 1] - theta[i]
    t = (x - theta[i]) / h
    value = (logs[i] * (1 + 2 * t) * (1 - t) ** 2 + slopes[i] * h * t * (1 - t) ** 2
             + logs[i + 1] * t * t * (3 - 2 * t) + slopes[i + 1] * h * t * t * (t - 1))
    c = np.exp(value)
    step = x[1] - x[0]
    left = 0.5 + np.concatenate(([0.0], np.cumsum(0.5 * step * (c[1:] + c[:-1]))))
    return x, c, 1.0 - left


def behind_tank(x, c, kappa):
    """What leaves a tank of old fluid behind the tube."""
    step = (x[1] - x[0]) / kappa
    state, states = 1.0, np.empty_like(c)
    keep = np.exp(-step)
    for i, inflow in enumerate(c):
        states[i] = state
        state = inflow + (state - inflow) * keep
    return states


def falls_below(x, c, level):
    i = int(np.argmax(c <= level))
    share = (c[i - 1] - level) / (c[i - 1] - c[i])
    return i - 1 + share, x[i - 1] + share * (x[i] - x[i - 1])


def rows_of(rows):
    """A row a line; plain numbers run on from line to line."""
    if isinstance(rows[0], float):
        return textwrap.fill(", ".join(map(json.dumps, rows)), 120, initial_indent="  ", subsequent_indent="  ")
    return ",\n".join("  " + json.dumps(row) for row in rows)


def main():
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).parent)
    theta, tau, root = table()
    exits = []
    for each in [3e-5, 1.3e-4, 5e-4, 1.2e-3, 2e-3, 2.9e-3, 4e-3, 5e-3, 7e-3, 1e-2, 1.6e-2, 2e-2, 4.4e-2, 1e-1]:
        places = [0.65, 0.83, 1.0, 1.37, 1.75, 2.236068, 2.55, 3.0, 3.6, 4.4, 6.0]
        out = tube.exit_fraction(places, each, 240)
        exits.append({"tau": each, "theta": places, "out": [digits(value, 6) for value in out]})
    pushes, tanks = [], []
    for each in [0.0, 5e-4, 1e-3, 2e-3, 4e-3, 5e-3, 7e-3, 1e-2, 2e-2]:
        x, c, inside = fine(*curve(each))
        for residual in [0.1, 0.05, 0.03]:
            place, push = falls_below(x, c, residual)
            stays = float(np.interp(place, np.arange(len(x)), inside))
            pushes.append({"tau": each, "residual": residual, "theta": round(push, 4), "inside": round(stays, 4)})
        if each in (0.0, 2e-3, 4e-3, 7e-3):
            for kappa in [0.06, 0.2, 0.55]:
                push = falls_below(x, behind_tank(x, c, kappa), 0.05)[1]
                tanks.append({"tau": each, "kappa": kappa, "theta": round(push, 4)})
    data = {"theta": theta, "tau": tau, "root": root, "exit": exits, "push": pushes, "tank": tanks}
    lines = ",\n".join(f'"{name}": [\n{rows_of(rows)}\n]' for name, rows in data.items())
    (folder / "tube.json").write_text("{\n" + lines + "\n}\n")


if __name__ == "__main__":
    main()
