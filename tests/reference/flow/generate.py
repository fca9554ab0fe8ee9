"""Reference values for flow, computed with fluids and networkx.

    python3 generate.py [FOLDER]

writes `pipes.json` (fluids: the pressure for a given flow through pipes one behind the other) and `loops.json`
(networkx: the resistance between two joints of a network of pipes with loops) into the folder, else beside this file.
Everything is drawn from seeds and rounded before it is used.
"""

from __future__ import annotations

import json
import math
import sys
from pathlib import Path
from random import Random

import networkx
from fluids.core import K_from_f, Reynolds, dP_from_K
from fluids.friction import friction_factor

BORES_MM = [2.5, 3.0, 3.33, 3.5, 4.76, 6.0]
CHAINS, NETWORKS = 24, 12
# fluids leaves laminar flow at 2040.
MOST_REYNOLDS = 1990


def rounded(value: float, digits: int) -> float:
    """To so many significant digits."""
    return float(f"{value:.{digits - 1}e}")


def chain(nth: int) -> dict:
    """Pipes one behind the other, and the pressure that a flow through all of them takes."""
    draw = Random(40_000 + nth)
    density = draw.choice([960.0, 1035.0, 1050.0, 1070.0])
    viscosity_mm2_per_s = draw.choice([5.0, 15.0, 60.0, 1500.0])
    viscosity_pa_s = viscosity_mm2_per_s * 1e-6 * density
    pieces = [
        {"length_m": round(draw.uniform(0.1, 6.0), 3), "bore_mm": draw.choice(BORES_MM)}
        for _ in range(1 + nth % 6)
    ]
    smallest_m = min(piece["bore_mm"] for piece in pieces) / 1000
    most_m_per_s = min(MOST_REYNOLDS * viscosity_mm2_per_s * 1e-6 / smallest_m, 3.0)
    most_m3_per_s = most_m_per_s * math.pi / 4 * smallest_m**2
    flow_ml_per_s = rounded(most_m3_per_s * 1e6 * draw.uniform(0.001, 1.0), 6)
    drop_pa = 0.0
    for piece in pieces:
        bore_m = piece["bore_mm"] / 1000
        velocity = flow_ml_per_s * 1e-6 / (math.pi / 4 * bore_m**2)
        reynolds = Reynolds(V=velocity, D=bore_m, rho=density, mu=viscosity_pa_s)
        heads = K_from_f(fd=friction_factor(Re=reynolds, eD=0.0), L=piece["length_m"], D=bore_m)
        drop_pa += dP_from_K(K=heads, rho=density, V=velocity)
    return {
        "density_kg_per_m3": density,
        "viscosity_mm2_per_s": viscosity_mm2_per_s,
        "pieces": pieces,
        "flow_ml_per_s": flow_ml_per_s,
        "drop_pa": rounded(drop_pa, 12),
    }


def network(nth: int) -> dict:
    """A random tree with loops, and the resistance between its first joint and its last."""
    draw = Random(50_000 + nth)
    joints = 3 + 2 * nth
    ways = [(draw.randrange(joint), joint) for joint in range(1, joints)]
    ways += [tuple(draw.sample(range(joints), 2)) for _ in range(1 + nth)]
    pipes = [(a, b, rounded(10 ** draw.uniform(-2, 2), 4)) for a, b in ways]
    # Pipes side by side are one edge of the sum of their conductances.
    graph = networkx.Graph()
    for a, b, resistance in pipes:
        before = graph.edges[a, b]["weight"] if graph.has_edge(a, b) else 0.0
        graph.add_edge(a, b, weight=before + 1.0 / resistance)
    found = networkx.resistance_distance(graph, 0, joints - 1, weight="weight", invert_weight=False)
    return {"pipes": pipes, "from": 0, "to": joints - 1, "resistance": rounded(float(found), 10)}


def write(path: Path, cases: list[dict]) -> None:
    """A case to a line, so that a difference shows where it is."""
    text = "[\n" + ",\n".join(json.dumps(case) for case in cases) + "\n]\n"
    path.write_text(text, encoding="utf-8", newline="\n")


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    write(folder / "pipes.json", [chain(nth) for nth in range(CHAINS)])
    write(folder / "loops.json", [network(nth) for nth in range(NETWORKS)])


if __name__ == "__main__":
    main()
