"""A network of nodes, branches and one piston, and its integration in time.

Pressures are gauge pressures in pascal, volumes cubic metres but for what is
printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin, sqrt

import numpy
from scipy.integrate import solve_ivp

ATMOSPHERE_PA = 101325.0
ML_PER_M3 = 1e6
RELATIVE = 1e-11
PRESSURE_TOLERANCE_PA = 1e-6
VOLUME_TOLERANCE_M3 = 1e-17


@dataclass(frozen=True)
class Node:
    compliance_m3_per_pa: float
    # Volume under the atmosphere and polytropic index.
    pocket: tuple[float, float] | None = None


@dataclass(frozen=True)
class Branch:
    # A node by its number, or an end as -1 - number.
    ends: tuple[int, int]
    linear: float
    quadratic: float
    def flow(self, difference_pa: float) -> tuple[float, float]:
        """The flow, and its change with the pressure difference."""
        root = sqrt(self.linear**2 + 4 * self.quadratic * abs(difference_pa))
        return 2 * difference_pa / (self.linear + root), 1 / root


@dataclass(frozen=True)
class Piston:
    area_m2: float
    stroke_m: float
    press_s: float
    hold_s: float
    release_s: float

    def kinks_s(self) -> list[float]:
        held_s = self.press_s + self.hold_s
        return [self.press_s, held_s, held_s + self.release_s]

    def speed(self, time_s: float) -> float:
        press_s, held_s, back_s = self.kinks_s()
        if time_s <= press_s:
            return self.stroke_m / 2 * pi / self.press_s * sin(pi * time_s / self.press_s)
        if held_s <= time_s <= back_s:
            share = (time_s - held_s) / self.release_s
            return -self.stroke_m / 2 * pi / self.release_s * sin(pi * share)
        return 0.0

    def travel(self, time_s: float) -> float:
        press_s, held_s, back_s = self.kinks_s()
        if time_s <= press_s:
            return self.stroke_m / 2 * (1 - cos(pi * time_s / press_s))
        if time_s <= held_s:
            return self.stroke_m
        share = min((time_s - held_s) / self.release_s, 1.0)
        return self.stroke_m / 2 * (1 + cos(pi * share))


@dataclass
class Network:
    """The piston stands at the first node."""

    nodes: list[Node]
    ends_pa: list[float]
    branches: list[Branch]
    piston: Piston

    def described(self) -> dict:
        return {
            "nodes": [
                {
                    "compliance_m3_per_pa": node.compliance_m3_per_pa,
                    "pocket_ml": node.pocket[0] * ML_PER_M3 if node.pocket else None,
                    "index": node.pocket[1] if node.pocket else None,
                }
                for node in self.nodes
            ],
            "ends_pa": self.ends_pa,
            "branches": [
                {
                    "from": branch.ends[0],
                    "to": branch.ends[1],
                    "linear_pa_s_per_m3": branch.linear,
                    "quadratic_pa_s2_per_m6": branch.quadratic,
                }
                for branch in self.branches
            ],
            "piston": vars(self.piston),
        }


@dataclass(frozen=True)
class Sample:
    time_s: float
    # Of the nodes that have a pocket, in their order.
    gas_ml: list[float]
    delivered_ml: list[float]


def gas_m3(node: Node, gauge_pa: float) -> float:
    volume_m3, index = node.pocket
    return volume_m3 * (ATMOSPHERE_PA / (ATMOSPHERE_PA + gauge_pa)) ** (1 / index)


def capacity(node: Node, gauge_pa: float) -> tuple[float, float]:
    """What is stored per pressure, and the change of that with the pressure."""
    if node.pocket is None:
        return node.compliance_m3_per_pa, 0.0
    index, absolute_pa = node.pocket[1], ATMOSPHERE_PA + gauge_pa
    gas = gas_m3(node, gauge_pa) / (index * absolute_pa)
    return node.compliance_m3_per_pa + gas, -gas / absolute_pa * (1 + 1 / index)


def solve(network: Network, times_s: list[float]) -> list[Sample]:
    nodes, branches = len(network.nodes), len(network.branches)
    stops = {*times_s, *network.piston.kinks_s()}
    stops = sorted(stop for stop in stops if 0 < stop <= max(times_s))
    state = numpy.zeros(nodes + branches)
    tolerance = numpy.array(
        [PRESSURE_TOLERANCE_PA] * nodes + [VOLUME_TOLERANCE_M3] * branches
    )
    samples, begin_s = [], 0.0
    for stop_s in stops:
        part = _Part(network)
        solution = solve_ivp(
            part.slope, (begin_s, stop_s), state, method="Radau", jac=part.jacobian,
            rtol=RELATIVE, atol=tolerance, first_step=min(1e-7, (stop_s - begin_s) / 10),
        )
        if not solution.success:
            raise ValueError(solution.message)
        state, begin_s = solution.y[:, -1], stop_s
        if stop_s in times_s:
            samples.append(_sample(network, stop_s, state))
    return samples


def _sample(network: Network, time_s: float, state) -> Sample:
    nodes = len(network.nodes)
    # The balance of every node must close, or the integration is not to be trusted.
    pushed = network.piston.area_m2 * network.piston.travel(time_s)
    for number, node in enumerate(network.nodes):
        held = node.compliance_m3_per_pa * state[number]
        if node.pocket:
            held += node.pocket[0] - gas_m3(node, state[number])
        came = pushed if number == 0 else 0.0
        for branch, volume in zip(network.branches, state[nodes:]):
            came += volume * ((branch.ends[1] == number) - (branch.ends[0] == number))
        if abs(held - came) * ML_PER_M3 > 1e-8:
            raise ValueError(f"{held - came} m3 are missing at node {number}")
    return Sample(
        time_s,
        [
            gas_m3(node, pressure) * ML_PER_M3
            for node, pressure in zip(network.nodes, state)
            if node.pocket
        ],
        [float(volume * ML_PER_M3) for volume in state[nodes:]],
    )


class _Part:
    """The right side between two kinks."""

    def __init__(self, network: Network) -> None:
        self._network = network

    def _pressure(self, end: int, state) -> float:
        return state[end] if end >= 0 else self._network.ends_pa[-1 - end]

    def _sums(self, time_s: float, state):
        network, nodes = self._network, len(self._network.nodes)
        sums, flows = numpy.zeros(nodes), numpy.zeros(len(network.branches))
        slopes = numpy.zeros(len(network.branches))
        sums[0] = network.piston.area_m2 * network.piston.speed(time_s)
        for number, branch in enumerate(network.branches):
            first, second = branch.ends
            difference = self._pressure(first, state) - self._pressure(second, state)
            flows[number], slopes[number] = branch.flow(difference)
            if first >= 0:
                sums[first] -= flows[number]
            if second >= 0:
                sums[second] += flows[number]
        return sums, flows, slopes

    def slope(self, time_s: float, state):
        sums, flows, _ = self._sums(time_s, state)
        capacities = [capacity(node, p)[0] for node, p in zip(self._network.nodes, state)]
        return numpy.concatenate([sums / capacities, flows])

    def jacobian(self, time_s: float, state):
        network, nodes = self._network, len(self._network.nodes)
        sums, _, slopes = self._sums(time_s, state)
        matrix = numpy.zeros((len(state), len(state)))
        for number, (branch, slope) in enumerate(zip(network.branches, slopes)):
            for end, sign in zip(branch.ends, (1, -1)):
                if end < 0:
                    continue
                matrix[nodes + number, end] += sign * slope
                for row, direction in zip(branch.ends, (-1, 1)):
                    if row >= 0:
                        matrix[row, end] += direction * sign * slope
        for number, node in enumerate(network.nodes):
            size, change = capacity(node, state[number])
            matrix[number] /= size
            matrix[number, number] -= sums[number] * change / size**2
        return matrix
