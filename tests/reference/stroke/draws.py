"""Networks: the stroke into three lines, and others drawn from a seed."""

from __future__ import annotations

import random
from math import pi

from model import Branch, Network, Node, Piston

# Fluid of 1050 kg/m3, 15 mm2/s and 1.8 GPa.
DENSITY = 1050.0
VISCOSITY = DENSITY * 15e-6
BULK_MODULUS = 1.8e9

STROKE_TIMES_S = [0.05, 0.1, 0.25, 0.5, 1.0]


class Draw:
    """Seeded draws. Only `random()` is used: it is the one method whose
    sequence Python promises to keep from version to version."""

    def __init__(self, seed: int) -> None:
        self._source = random.Random(seed)

    def between(self, low: float, high: float) -> float:
        """Four digits, so that the number is the same wherever it is read."""
        return short(low + (high - low) * self._source.random(), 4)

    def below(self, count: int) -> int:
        return int(self._source.random() * count)

    def chance(self, share: float) -> bool:
        return self._source.random() < share

    def pick(self, items):
        return items[self.below(len(items))]


def short(value: float, digits: int = 8) -> float:
    return float(f"{value:.{digits}g}")


def area(diameter: float) -> float:
    return pi / 4 * diameter**2


def pipe(length: float, bore: float) -> float:
    """Hagen-Poiseuille."""
    return 128 * VISCOSITY * length / (pi * bore**4)


def stroke_case(index: float) -> Network:
    """A press of 20 mm by a 20.64 mm piston through 1 m of pipe to a tee; from
    there 2 m to an open screw, and 0.4 m to a pocket. 3.3 mm bore throughout."""
    bore = 3.3e-3
    return Network(
        nodes=[
            Node(6.820273889e-15),
            Node(8.077820111e-15),
            Node(0.0, (0.5e-6, index)),
        ],
        ends_pa=[0.0],
        branches=[
            Branch((0, 1), short(pipe(1.0, bore), 15), 0.0),
            Branch((1, -1), short(pipe(2.0, bore) + pipe(8e-3, 1.5e-3), 15), 0.0),
            Branch((1, 2), short(pipe(0.4, bore), 15), 0.0),
        ],
        piston=Piston(short(area(20.64e-3), 15), 0.02, 0.5, 1.0, 0.5),
    )


def network(draw: Draw, nth: int) -> tuple[Network, list[float]]:
    """A tree of three to eight nodes with a screw or two, in every fifth case
    with a loop. The screws stay open while the pedal comes back."""
    count = 3 + nth % 6
    piston = Piston(
        short(area(draw.between(19e-3, 25.4e-3))),
        draw.between(5e-3, 20e-3),
        draw.between(0.3, 0.8),
        draw.between(0.1, 0.3),
        draw.between(0.3, 0.6),
    )
    back_s = short(piston.kinks_s()[-1], 12)
    branches, joined = [], []
    for number in range(1, count):
        joined.append((draw.below(number), number))
    if nth % 5 == 4 and count > 3:
        joined.append((0, count - 1))
    storage = [0.0] * count
    for ends in joined:
        length, bore = draw.between(0.2, 3.0), draw.between(3.0e-3, 4.8e-3)
        branches.append(Branch(ends, short(pipe(length, bore)), 0.0))
        for end in ends:
            storage[end] += area(bore) * length / BULK_MODULUS / 2
    pockets = [None] * count
    for _ in range([0, 1, 2, 1][nth % 4]):
        at = draw.pick([number for number in range(1, count) if pockets[number] is None])
        volume = short(draw.between(0.05, 1.0) * 1e-6)
        pockets[at] = (volume, draw.pick([1.0, 1.2, 1.4]))
    # A caliper gives some cubic millimetres a bar; not every node is one.
    for number in range(1, count):
        if draw.chance(0.5):
            storage[number] += draw.between(0.1, 5.0) * 1e-14
    outlets = 1 + nth % 2
    for outlet in range(outlets):
        at = count - 1 - outlet
        bore, length = draw.between(1.0e-3, 2.0e-3), draw.between(4e-3, 10e-3)
        linear = short(pipe(length, bore) + 3 * VISCOSITY / (bore / 2) ** 3)
        quadratic = short(1.14 * DENSITY / area(bore) ** 2)
        branches.append(Branch((at, -1 - outlet), linear, quadratic))
    ends_pa = [draw.between(0.0, 3000.0) for _ in range(outlets)]
    nodes = [Node(short(size), pocket) for size, pocket in zip(storage, pockets)]
    times_s = [short(share * back_s, 4) for share in (0.15, 0.45, 0.8)]
    times_s.append(short(back_s + 0.3, 4))
    return Network(nodes, ends_pa, branches, piston), times_s
