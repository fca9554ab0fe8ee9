"""One pipe full of old fluid, washed by laminar flow, with diffusion across its bore.

    dc/dtheta + u dc/dx = tau (1/r) d(r dc/dr)/dr,   u = 2 (1 - r^2)

c = 1 at theta = 0, c = 0 at x = 0, no flux through the wall, no diffusion along the pipe; tau = D t / R^2 with t the
mean time of stay. What is asked for is the old fraction of what leaves at x = 1, weighted by the flow.

The Laplace transform in theta leaves one equation in x for each s, f' = M(s) f for the new fraction f, with finite
volumes in r. The steps in x are those of the subdiagonal Pade approximation of the exponential (three over four, order
seven, damps what is fast), taken apart into four systems with three diagonals. The inversion is Euler's summation of the
Fourier series after Abate and Whitt.
"""

from __future__ import annotations

from math import comb, factorial

import numpy as np

STEPS = 64
# exp(-A) is the error of the Fourier series.
A = 18.4
TERMS, AVERAGED = 24, 12
# Cells are finer towards the wall by this power.
GRADING = 1.6


def poles():
    """The Pade approximation (3, 4) of exp as a sum of fractions: places and weights."""
    above = [factorial(7 - j) * factorial(3) / (factorial(7) * factorial(j) * factorial(3 - j)) for j in range(4)]
    below = [factorial(7 - j) * factorial(4) * (-1) ** j / (factorial(7) * factorial(j) * factorial(4 - j)) for j in range(5)]
    upper, lower = np.polynomial.Polynomial(above), np.polynomial.Polynomial(below)
    places = lower.roots()
    return places, upper(places) / lower.deriv()(places)


# So many values of theta at once.
CHUNK = 32


def exit_fraction(thetas, tau, cells=128):
    """The old fraction of what leaves, for each theta above one half."""
    thetas = np.asarray(thetas, dtype=float)
    chunks = [chunk(thetas[i : i + CHUNK], tau, cells) for i in range(0, len(thetas), CHUNK)]
    return np.concatenate(chunks)


def chunk(thetas, tau, cells):
    faces = 1.0 - (1.0 - np.linspace(0.0, 1.0, cells + 1)) ** GRADING
    faces[0], faces[-1] = 0.0, 1.0
    area = faces[1:] ** 2 - faces[:-1] ** 2
    flow = 2.0 * area - (faces[1:] ** 4 - faces[:-1] ** 4)
    middle = 0.5 * (faces[1:] + faces[:-1])
    between = 2.0 * tau * faces[1:-1] / (middle[1:] - middle[:-1])

    k = np.arange(TERMS + AVERAGED)
    s = ((A + 2j * np.pi * k[None, :]) / (2.0 * thetas[:, None])).ravel()
    left = np.concatenate(([0.0], between / flow[1:]))
    right = np.concatenate((between / flow[:-1], [0.0]))
    # Row i of h M: left_i f_(i-1) + diagonal_i f_i + right_i f_(i+1).
    h = 1.0 / STEPS
    diagonal = -(left + right)[:, None] - (area / flow)[:, None] * s[None, :]
    places, weights = poles()
    factors = []
    for place in places:
        # (h M - place) x = f
        pivot = np.empty_like(diagonal)
        pivot[0] = h * diagonal[0] - place
        for i in range(1, cells):
            pivot[i] = h * diagonal[i] - place - (h * left[i]) * (h * right[i - 1]) / pivot[i - 1]
        inverse = 1.0 / pivot
        factors.append((inverse, [h * left[i] * inverse[i - 1] for i in range(1, cells)],
                        [h * right[i] * inverse[i] for i in range(cells - 1)]))
    new = np.repeat(1.0 / s[None, :], cells, axis=0)
    for _ in range(STEPS):
        after = np.zeros_like(new)
        for (inverse, down, up), weight in zip(factors, weights):
            x = new.copy()
            for i in range(1, cells):
                x[i] -= down[i - 1] * x[i - 1]
            x *= inverse
            for i in range(cells - 2, -1, -1):
                x[i] -= up[i] * x[i + 1]
            after += weight * x
        new = after
    out = (flow[:, None] * new).sum(axis=0) / flow.sum()

    terms = out.reshape(len(thetas), -1).real * np.where(k % 2 == 0, 1.0, -1.0)
    terms[:, 0] *= 0.5
    partial = np.cumsum(terms, axis=1)[:, -(AVERAGED + 1):]
    binomial = np.array([comb(AVERAGED, j) for j in range(AVERAGED + 1)]) / 2.0**AVERAGED
    return 1.0 - np.exp(A / 2) / thetas * (partial @ binomial)
