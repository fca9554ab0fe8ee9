"""How long the flow solver takes, beside EPANET and SciPy.

    python3 speed.py

needs the packages of `requirements.txt`. All are measured in one run on the
same networks of 40 pipes and 31 unknown pressures, and the ratios are printed.

EPANET: solving only, begun from new flows each time; reading the file and
opening the solver do not count. Its accuracy is its own default, a relative
change of 1e-3, while the flow solver goes to 1e-12. It is called through
ctypes; what two calls cost that do nothing is printed as well. SciPy:
`spsolve` with the finished matrix of the linear network. The flow solver: all
of `FlowNetwork::solve`, with checking, sorting out the graph and planning the
elimination.
"""

from __future__ import annotations

import ctypes
import math
import subprocess
import time
from pathlib import Path

import numpy
from scipy.sparse import csr_matrix
from scipy.sparse.linalg import spsolve

from epanet import DEFAULT, Solver
from network import Network, forty_pipes

BATCHES, CALLS = 2000, 20


def microseconds(call) -> float:
    """For one call, in the fastest batch: a machine may have other work at any
    time, and none that makes a call faster."""
    times = []
    for _ in range(BATCHES):
        start = time.perf_counter_ns()
        for _ in range(CALLS):
            call()
        times.append((time.perf_counter_ns() - start) / CALLS / 1000)
    return min(times)


def epanet_us(network: Network) -> tuple[float, float]:
    """A solve, and two calls that do nothing."""
    solver = Solver(network, DEFAULT)
    library, project = solver.toolkit.ENlib, solver.toolkit._project
    clock, count = ctypes.c_long(), ctypes.c_int()
    begin, run, get_count = library.EN_initH, library.EN_runH, library.EN_getcount
    clock_at, count_at = ctypes.byref(clock), ctypes.byref(count)

    def solve() -> None:
        if begin(project, 10) or run(project, clock_at):
            raise ValueError("EPANET did not solve the network")

    def nothing() -> None:
        get_count(project, 0, count_at)
        get_count(project, 0, count_at)

    result = microseconds(solve), microseconds(nothing)
    solver.close()
    return result


def scipy_us(network: Network) -> float:
    """Potentials of the linear network, the matrix being there."""
    joints = [n for n, node in enumerate(network.nodes) if node.gauge_pa is None]
    row = {node: n for n, node in enumerate(joints)}
    matrix = numpy.zeros((len(joints), len(joints)))
    right = numpy.zeros(len(joints))
    weight = network.density_kg_per_m3 * 9.80665
    for pipe in network.pipes:
        viscosity = network.viscosity_mm2_per_s * 1e-6 * network.density_kg_per_m3
        conductance = math.pi * (pipe.bore_mm / 1000) ** 4 / (128 * viscosity * pipe.length_m) * 1e10
        for here, there in ((pipe.start, pipe.end), (pipe.end, pipe.start)):
            if here not in row:
                continue
            matrix[row[here], row[here]] += conductance
            if there in row:
                matrix[row[here], row[there]] -= conductance
            else:
                node = network.nodes[there]
                right[row[here]] += conductance * (node.gauge_pa + weight * node.height_m)
    sparse = csr_matrix(matrix)
    return microseconds(lambda: spsolve(sparse, right))


def solver_us() -> list[float]:
    """One figure for each of the networks, from the benchmark in Rust."""
    command = ["cargo", "bench", "--quiet", "-p", "bleedwright-tests", "--bench", "flow"]
    # From this folder, cargo finds the workspace by itself.
    shown = subprocess.run(
        command, check=True, capture_output=True, text=True, cwd=Path(__file__).parent
    )
    return [float(line.split(" us ")[0]) for line in shown.stdout.splitlines() if " us " in line]


def main() -> None:
    networks = [forty_pipes(with_losses) for with_losses in (False, True)]
    ours = solver_us()
    for network, solver in zip(networks, ours, strict=True):
        epanet, nothing = epanet_us(network)
        print(f"{network.name}:")
        print(f"  flow solver {solver:8.2f} us")
        print(f"  EPANET 2.2  {epanet:8.2f} us, {epanet / solver:.2f} times; two empty calls {nothing:.2f} us")
        if network is networks[0]:
            scipy = scipy_us(network)
            print(f"  SciPy       {scipy:8.2f} us, {scipy / solver:.2f} times")


if __name__ == "__main__":
    main()
