"""Pipe networks drawn from seeds: trees and loops, screws open and closed."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from random import Random

BORES_MM = [2.5, 3.0, 3.33, 3.5, 4.0, 4.76, 6.0]
SCREW_BORES_MM = [1.0, 1.2, 1.5, 2.0, 2.5]


@dataclass
class Node:
    height_m: float
    # Given at an end, None at a joint.
    gauge_pa: float | None = None


@dataclass
class Pipe:
    start: int
    end: int
    length_m: float
    bore_mm: float
    # Loss coefficient, in velocity heads.
    loss: float = 0.0
    is_open: bool = True


@dataclass
class Network:
    name: str
    density_kg_per_m3: float
    viscosity_mm2_per_s: float
    nodes: list[Node] = field(default_factory=list)
    pipes: list[Pipe] = field(default_factory=list)

    def add(self, node: Node) -> int:
        self.nodes.append(node)
        return len(self.nodes) - 1

    def reynolds(self, pipe: Pipe, flow_m3_per_s: float) -> float:
        bore_m = pipe.bore_mm / 1000
        return 4 * abs(flow_m3_per_s) / (math.pi * bore_m * self.viscosity_mm2_per_s * 1e-6)


def pipe(draw: Random, start: int, end: int) -> Pipe:
    """A line; now and then with fittings that take velocity heads."""
    loss = draw.choice([0.0, 0.0, round(draw.uniform(0.1, 3.0), 2)])
    length = round(math.exp(draw.uniform(math.log(0.15), math.log(6.0))), 3)
    return Pipe(start, end, length, draw.choice(BORES_MM), loss)


def grow(nth: int, joints: int, loops: int, screws: int, open_screws: int) -> Network:
    """A tree of joints below one or two pressure ends, with extra lines that
    close loops and with screws at some joints."""
    draw = Random(70_000 + nth)
    network = Network(
        name=f"{joints} joints, {loops} loops, {open_screws} of {screws} screws open",
        density_kg_per_m3=draw.choice([960.0, 1035.0, 1050.0, 1070.0]),
        viscosity_mm2_per_s=draw.choice([8.0, 15.0, 30.0, 120.0, 1500.0]),
    )
    drive_pa = draw.choice([0.0, 20_000.0, 60_000.0, 100_000.0])
    surface = network.add(Node(round(draw.uniform(0.6, 1.2), 3), drive_pa))
    first = len(network.nodes)
    for joint in range(first, first + joints):
        network.add(Node(round(draw.uniform(0.0, 0.8), 3)))
        # Near joints are preferred, so that there are long runs too.
        before = surface if joint == first else draw.randrange(max(first, joint - 4), joint)
        network.pipes.append(pipe(draw, before, joint))
    for _ in range(loops):
        start, end = draw.sample(range(first, first + joints), 2)
        network.pipes.append(pipe(draw, start, end))
    if nth % 4 == 3:
        # A second reservoir, a little lower.
        second = network.add(Node(round(draw.uniform(0.5, 0.9), 3), 0.0))
        network.pipes.append(pipe(draw, second, draw.randrange(first, first + joints)))
    is_vacuum = nth % 5 == 4
    for screw in range(screws):
        gauge_pa = round(draw.uniform(-70_000.0, -20_000.0), 0) if is_vacuum else 0.0
        hose_end = network.add(Node(round(draw.uniform(0.0, 0.5), 3), gauge_pa))
        network.pipes.append(
            Pipe(
                # Where the numbers allow, screws sit at the far ends.
                first + (joints - 1 - screw) % joints,
                hose_end,
                round(draw.uniform(0.004, 0.012), 4),
                draw.choice(SCREW_BORES_MM),
                2.28,
                screw < open_screws,
            )
        )
    return network


def forty_pipes(with_losses: bool) -> Network:
    """The network whose solving is measured: 40 pipes, 31 unknown pressures,
    5 screws open and 4 loops. Without losses it is linear."""
    network = grow(900, joints=31, loops=4, screws=5, open_screws=5)
    network.viscosity_mm2_per_s = 120.0
    network.name = "40 pipes with losses" if with_losses else "40 pipes, linear"
    if not with_losses:
        for pipe in network.pipes:
            pipe.loss = 0.0
    return network
