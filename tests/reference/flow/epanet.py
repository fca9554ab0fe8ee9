"""EPANET, asked through the toolkit that comes with wntr.

All quantities go in and come out in feet, inches and cubic feet a second:
these are EPANET's own, so that none of its rounded conversion constants takes
part. The constant in its loss of velocity heads is rounded too, to 0.02517
for 8 / (pi^2 g); losses are given so much larger. Its viscosity is given as a multiple of the one that it knows for water,
since a value above 1e-3 is taken for such a multiple in any case. Its
gravity is 32.2 ft/s2. A closed pipe of EPANET leaks, so closed ones are left
out, with the ends that only they join.
"""

from __future__ import annotations

import ctypes
import math
import tempfile
from pathlib import Path

from wntr.epanet.toolkit import ENepanet

from network import Network

FOOT_M = 0.3048
INCH_M = 0.0254
GRAVITY_M_PER_S2 = 32.2 * FOOT_M
# Square feet a second, what a multiplier of one stands for.
WATER_VISCOSITY_M2_PER_S = 1.1e-5 * FOOT_M**2

LOSS_SCALE = 8 / (math.pi**2 * 32.2) / 0.02517

FLOW, HEAD = 8, 10


# As near to the solution as it goes, and as it comes.
EXACT = ["Trials 200", "Accuracy 0.00001", "FLOWCHANGE 1e-14"]
DEFAULT: list[str] = []


def text(network: Network, accuracy: list[str]) -> str:
    """The network as an input file; pipe n is the link `n`."""
    head_of_pressure = network.density_kg_per_m3 * GRAVITY_M_PER_S2
    pipes = [(n, pipe) for n, pipe in enumerate(network.pipes) if pipe.is_open]
    used = {node for _, pipe in pipes for node in (pipe.start, pipe.end)}
    joints, ends, links = [], [], []
    for number, node in enumerate(network.nodes):
        if number not in used:
            continue
        if node.gauge_pa is None:
            joints.append(f"{number} {node.height_m / FOOT_M!r} 0")
        else:
            head_m = node.height_m + node.gauge_pa / head_of_pressure
            ends.append(f"{number} {head_m / FOOT_M!r}")
    for number, pipe in pipes:
        length_ft = pipe.length_m / FOOT_M
        bore_in = pipe.bore_mm / 1000 / INCH_M
        loss = pipe.loss * LOSS_SCALE
        links.append(f"{number} {pipe.start} {pipe.end} {length_ft!r} {bore_in!r} 1e-9 {loss!r} Open")
    multiplier = network.viscosity_mm2_per_s * 1e-6 / WATER_VISCOSITY_M2_PER_S
    parts = {
        "JUNCTIONS": joints,
        "RESERVOIRS": ends,
        "PIPES": links,
        "OPTIONS": [
            "Units CFS", "Headloss D-W", f"Viscosity {multiplier!r}", *accuracy,
        ],
        "TIMES": ["Duration 0"],
        "END": [],
    }
    return "".join(f"[{name}]\n" + "".join(f"{row}\n" for row in rows) for name, rows in parts.items())


class Solver:
    """One network in EPANET's memory."""

    def __init__(self, network: Network, accuracy: list[str]) -> None:
        self.network = network
        self.folder = tempfile.TemporaryDirectory()
        path = Path(self.folder.name)
        (path / "net.inp").write_text(text(network, accuracy))
        self.toolkit = ENepanet(version=2.2)
        self.toolkit.ENopen(*(str(path / f"net.{end}") for end in ("inp", "rpt", "bin")))
        self.toolkit.ENopenH()

    def solve(self) -> None:
        # Ten: begin from new flows, and save nothing.
        self.toolkit.ENinitH(10)
        self.toolkit.ENrunH()

    def _value(self, call: str, index: int, what: int) -> float:
        value = ctypes.c_double()
        code = getattr(self.toolkit.ENlib, call)(
            self.toolkit._project, index, what, ctypes.byref(value)
        )
        if code:
            raise ValueError(f"{call} gives {code}")
        return value.value

    def flow_m3_per_s(self, pipe: int) -> float:
        index = self.toolkit.ENgetlinkindex(str(pipe))
        return self._value("EN_getlinkvalue", index, FLOW) * FOOT_M**3

    def gauge_pa(self, node: int) -> float:
        """The pressure that belongs to the head."""
        index = self.toolkit.ENgetnodeindex(str(node))
        head_m = self._value("EN_getnodevalue", index, HEAD) * FOOT_M
        above_m = head_m - self.network.nodes[node].height_m
        return above_m * self.network.density_kg_per_m3 * GRAVITY_M_PER_S2

    def close(self) -> None:
        self.toolkit.ENcloseH()
        self.toolkit.ENclose()
        self.folder.cleanup()
