"""Reference values for the flow solver, computed with fluids and EPANET.

    python3 generate.py [FOLDER]

writes `pipes.json` (fluids: pressure for a given flow through one pipe and
through several in series) and `networks.json` (EPANET 2.2: flows and pressures
of whole networks) and `speed.json` (the same for the two networks that
`speed.py` measures) into the folder, else beside this file. Everything drawn is
drawn from seeds and rounded before it is used.
"""

from __future__ import annotations

import json
import math
import sys
from pathlib import Path
from random import Random

from fluids.core import K_from_f, Reynolds, dP_from_K
from fluids.friction import friction_factor

from epanet import EXACT, GRAVITY_M_PER_S2, Solver
from network import BORES_MM, Network, forty_pipes, grow

NETWORKS = 120
SINGLE_PIPES, SERIES = 60, 60
# fluids leaves laminar flow at 2040, EPANET at 2000.
MOST_REYNOLDS = 1990
MOST_M_PER_S = 3.0


def rounded(value: float, digits: int) -> float:
    """To so many significant digits."""
    return float(f"{value:.{digits - 1}e}")


def chain(nth: int, pieces: int) -> dict:
    """Pipes one behind the other, and the pressure that fluids finds for a
    flow through all of them."""
    draw = Random(40_000 + 1000 * pieces + nth)
    density = draw.choice([960.0, 1035.0, 1050.0, 1070.0])
    viscosity_mm2_per_s = draw.choice([5.0, 15.0, 60.0, 1500.0])
    viscosity_pa_s = viscosity_mm2_per_s * 1e-6 * density
    parts = [
        {
            "length_m": round(draw.uniform(0.1, 6.0), 3),
            "bore_mm": draw.choice(BORES_MM),
            "loss": draw.choice([0.0, round(draw.uniform(0.1, 3.0), 2)]) if pieces > 1 else 0.0,
        }
        for _ in range(pieces)
    ]
    smallest_m = min(part["bore_mm"] for part in parts) / 1000
    most_m_per_s = min(MOST_REYNOLDS * viscosity_mm2_per_s * 1e-6 / smallest_m, MOST_M_PER_S)
    most_m3_per_s = most_m_per_s * math.pi / 4 * smallest_m**2
    flow_ml_per_s = rounded(most_m3_per_s * 1e6 * draw.uniform(0.001, 1.0), 6)
    drop_pa = 0.0
    for part in parts:
        bore_m = part["bore_mm"] / 1000
        velocity = flow_ml_per_s * 1e-6 / (math.pi / 4 * bore_m**2)
        reynolds = Reynolds(V=velocity, D=bore_m, rho=density, mu=viscosity_pa_s)
        friction = friction_factor(Re=reynolds, eD=0.0)
        heads = K_from_f(fd=friction, L=part["length_m"], D=bore_m) + part["loss"]
        drop_pa += dP_from_K(K=heads, rho=density, V=velocity)
    return {
        "density_kg_per_m3": density,
        "viscosity_mm2_per_s": viscosity_mm2_per_s,
        "pieces": parts,
        "flow_ml_per_s": flow_ml_per_s,
        "drop_pa": rounded(drop_pa, 12),
    }


def wish(nth: int) -> Network:
    """Sizes, loops and screws in turn."""
    joints = 2 + nth * 7 % 40
    loops = [0, 0, 1, 3, 8][nth % 5] if joints > 3 else 0
    screws = 1 + nth % 6
    return grow(nth, joints, loops, screws, open_screws=nth // 6 % (screws + 1))


def solved(network: Network) -> dict:
    solver = Solver(network, EXACT)
    solver.solve()
    flows = [solver.flow_m3_per_s(n) if pipe.is_open else 0.0 for n, pipe in enumerate(network.pipes)]
    worst = max(network.reynolds(pipe, flow) for pipe, flow in zip(network.pipes, flows))
    if worst > MOST_REYNOLDS:
        # Thicker, until the flow is laminar in every pipe and the two agree on the law.
        solver.close()
        network.viscosity_mm2_per_s *= 2
        return solved(network)
    largest_ml = max(map(abs, flows)) * 1e6
    # Nine digits of the largest flow. Where all is at rest EPANET leaves up to 1e-12 ml/s.
    is_at_rest = largest_ml < 1e-10
    decimals = 9 if is_at_rest else 9 - math.ceil(math.log10(largest_ml))
    case = {
        "name": network.name,
        "density_kg_per_m3": network.density_kg_per_m3,
        "viscosity_mm2_per_s": network.viscosity_mm2_per_s,
        "nodes": [
            {
                "height_m": node.height_m,
                "end_pa": node.gauge_pa,
                "gauge_pa": None if node.gauge_pa is not None else round(solver.gauge_pa(n), 3),
            }
            for n, node in enumerate(network.nodes)
        ],
        "pipes": [
            {
                "start": pipe.start,
                "end": pipe.end,
                "length_m": pipe.length_m,
                "bore_mm": pipe.bore_mm,
                "loss": pipe.loss,
                "is_open": pipe.is_open,
                # Adding nothing turns a negative zero into zero.
                "flow_ml_per_s": round(flow * 1e6, decimals) + 0.0,
            }
            for pipe, flow in zip(network.pipes, flows)
        ],
    }
    solver.close()
    return case


def printed(value) -> str:
    """One node, pipe or chain to a line, so that a difference shows where it is."""
    if isinstance(value, list) and value and isinstance(value[0], dict):
        return "[\n" + ",\n".join(printed(item) for item in value) + "\n]"
    if isinstance(value, dict) and any(key in value for key in ("networks", "nodes")):
        return "{" + ",\n".join(f"{json.dumps(k)}: {printed(v)}" for k, v in value.items()) + "}"
    return json.dumps(value)


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    chains = [chain(nth, 1) for nth in range(SINGLE_PIPES)]
    chains += [chain(nth, 2 + nth % 5) for nth in range(SERIES)]
    (folder / "pipes.json").write_text(printed(chains) + "\n", encoding="utf-8", newline="\n")
    write(folder / "networks.json", [solved(wish(nth)) for nth in range(NETWORKS)])
    write(folder / "speed.json", [solved(forty_pipes(with_losses)) for with_losses in (False, True)])


def write(path: Path, networks: list[dict]) -> None:
    value = {"gravity_m_per_s2": GRAVITY_M_PER_S2, "networks": networks}
    path.write_text(printed(value) + "\n", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
