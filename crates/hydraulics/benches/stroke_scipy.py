"""How long SciPy's LSODA takes for the stroke of `stroke.rs` at 1e-8.

Prints a line for `odeint`, which keeps the loop over the steps in compiled code,
and one for `solve_ivp`: name, median time in microseconds, evaluations. The time
is that of the processor, so that other programs do not count against SciPy. The
right side is plain Python without arrays; what its calls cost is in the time.
"""

from __future__ import annotations

from math import pi, sin
from statistics import median
from time import process_time

from scipy.integrate import odeint, solve_ivp

ROUNDS = 51
VISCOSITY = 1050.0 * 15e-6
ATMOSPHERE = 101325.0
POCKET = 0.5e-6
RELATIVE = 1e-8
# Pressures in pascal, then the pocket and the delivered volume in cubic metres:
# what StrokeTolerances::relative(1e-8) stands for.
ABSOLUTE = [1e-3, 1e-3, 1e-14, 1e-14]


def pipe(length: float, bore: float) -> float:
    return 128 * VISCOSITY * length / (pi * bore**4)


FIRST = 1 / pipe(1.0, 3.3e-3)
SCREW = 1 / (pipe(2.0, 3.3e-3) + pipe(8e-3, 1.5e-3))
LEG = 1 / pipe(0.4, 3.3e-3)
MASTER, TEE = 1 / 6.820273889e-15, 1 / 8.077820111e-15
PUSH = pi / 4 * 20.64e-3**2 * 0.02 / 2 * pi / 0.5


def press(time, state):
    return slope(PUSH * sin(2 * pi * time), state)


def hold(_time, state):
    return slope(0.0, state)


def slope(push, state):
    master, tee, gas, _ = state.tolist()
    through = (master - tee) * FIRST
    out = tee * SCREW
    leg = (tee - ATMOSPHERE * (POCKET / gas - 1)) * LEG
    return [(push - through) * MASTER, (through - out - leg) * TEE, -leg, out]


PARTS = [
    (press, (0.0, 0.5), [0.05, 0.1, 0.25, 0.5]),
    (hold, (0.5, 1.0), [1.0]),
]


def by_odeint():
    state, calls = [0.0, 0.0, POCKET, 0.0], 0
    for part, span, asked in PARTS:
        rows, message = odeint(
            part, state, [span[0], *asked], tfirst=True, rtol=RELATIVE, atol=ABSOLUTE,
            tcrit=[span[1]], full_output=True, mxstep=10000,
        )
        state, calls = rows[-1], calls + int(message["nfe"][-1])
    return state, calls


def by_solve_ivp():
    state, calls = [0.0, 0.0, POCKET, 0.0], 0
    for part, span, asked in PARTS:
        solution = solve_ivp(
            part, span, state, method="LSODA", t_eval=asked, rtol=RELATIVE, atol=ABSOLUTE
        )
        if not solution.success:
            raise ValueError(solution.message)
        state, calls = solution.y[:, -1], calls + solution.nfev
    return state, calls


def main() -> None:
    for name, stroke in [("odeint", by_odeint), ("solve_ivp", by_solve_ivp)]:
        state, calls = stroke()
        # The value that the tests of the crate have for the delivered volume.
        if abs(state[3] * 1e6 - 6.691665233) > 1e-6:
            raise ValueError(f"delivered {state[3] * 1e6} ml")
        times = []
        for _ in range(ROUNDS):
            begin = process_time()
            stroke()
            times.append((process_time() - begin) * 1e6)
        print(f"scipy_lsoda_{name}_1e-8 {median(times):.1f} {calls}")


if __name__ == "__main__":
    main()
