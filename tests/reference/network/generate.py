"""Reference values for the network crate, computed with networkx.

    python3 generate.py [FOLDER]

writes `long/cases.json` into the folder, else beside this file, and into
`cases.json` a few of them that show every feature. Every case is a layout
drawn from a seed, as text, with what networkx says about its graph: shortest
ways (Dijkstra), immediate dominators and components.
Volumes are sums of exact fractions, printed to fifteen digits.
"""

from __future__ import annotations

import json
import sys
from fractions import Fraction
from itertools import islice
from pathlib import Path

import networkx

from growth import Wish, grow
from layout import Layout
from quantity import NO_VOLUME, Draw, number

CASES = 66
LEAST_PARTS, MOST_PARTS = 3, 60
# How many cases must show each of the things that layouts are drawn for.
LEAST_OF_EACH = 5
FEATURES = [
    "single cylinder", "tandem cylinder", "twin cylinder", "junction", "valve",
    "valve with sections", "anti-lock unit", "several outlets of one passage",
    "chambers on two circuits", "halves joined by a crossover", "wheel cylinder",
    "wheel cylinders in series", "line direct", "line pipe", "line hose", "loop",
    "lines side by side", "parts not reached", "one chamber of two not reached",
    "screw on the way", "screw on a cylinder", "two screws on one cavity",
]
# Names for the vehicles: waders of the salt marsh.
BIRDS = [
    "Sanderling", "Knot", "Stint", "Greenshank", "Stilt", "Snipe", "Phalarope",
    "Oystercatcher", "Dotterel", "Sandpiper", "Pratincole", "Jacana",
]


class NotUnique(Exception):
    """Two ways of one length: the case is drawn again."""


class Solution:
    """What networkx finds in the graph of a layout."""

    def __init__(self, layout: Layout) -> None:
        self.layout = layout
        self.graph = layout.graph
        # Per cell: its chamber, and the way from there as cells and links.
        self.chamber: dict[str, str] = {}
        self.way: dict[str, list[str]] = {}
        self.links: dict[str, list[tuple[str, str, str]]] = {}
        self.dominator: dict[str, str | None] = {}
        for cell in layout.cells.values():
            if cell.is_chamber:
                self._solve_circuit(cell.name)

    def _solve_circuit(self, chamber: str) -> None:
        reached = networkx.node_connected_component(self.graph, chamber)
        chambers = [name for name in reached if self.layout.cells[name].is_chamber]
        if chambers != [chamber]:
            raise ValueError(f"circuits are joined: {chambers}")
        simple = networkx.Graph(self.graph.subgraph(reached))
        dominators = networkx.immediate_dominators(simple.to_directed(), chamber)
        for cell in sorted(reached):
            ways = list(
                islice(
                    networkx.all_shortest_paths(self.graph, chamber, cell, weight="um"), 2
                )
            )
            if len(ways) > 1:
                raise NotUnique(cell)
            way = ways[0]
            links = [self._shortest_link(a, b) for a, b in zip(way, way[1:])]
            length_um = sum(self.graph.edges[link]["um"] for link in links)
            if length_um != networkx.dijkstra_path_length(self.graph, chamber, cell, weight="um"):
                raise ValueError(f"the way to {cell} is not the shortest")
            self.chamber[cell] = chamber
            self.links[cell] = links
            self.way[cell] = [
                name for link, after in zip(links, way[1:]) for name in (link[2], after)
            ]
            is_root = cell == chamber
            self.dominator[cell] = None if is_root else dominators[cell]

    def _shortest_link(self, a: str, b: str) -> tuple[str, str, str]:
        beside = sorted((data["um"], key) for key, data in self.graph[a][b].items())
        if len(beside) > 1 and beside[0][0] == beside[1][0]:
            raise NotUnique(b)
        return (a, b, beside[0][1])

    def screws_behind(self, cell: str) -> int:
        """Screws whose way leads through the cell, its own included."""
        return sum(
            cell == opened or cell in self.way[opened] or cell == self.chamber[opened]
            for opened in self.layout.screws.values()
            if opened in self.chamber
        )

    def dominators(self, cell: str) -> list[str]:
        """All cells that every way to this one passes, the chamber first."""
        chain = []
        above = self.dominator[cell]
        while above is not None:
            chain.append(above)
            above = self.dominator[above]
        return chain[::-1]


def complete(layout: Layout, solution: Solution) -> None:
    """Adds screws to cavities without a way out, and drops wheels that differ
    along one way: such layouts are refused, and rightly."""
    for cell in layout.cells.values():
        if cell.is_cavity and cell.name in solution.chamber:
            if solution.screws_behind(cell.name) == 0:
                layout.add_screw(cell)
    for cell in layout.cells.values():
        for name in solution.way.get(cell.name, []):
            before = layout.cells.get(name)
            if before is None or not (before.is_cavity and cell.is_cavity):
                continue
            if before.part.wheel != cell.part.wheel:
                cell.part.wheel = None


def screw(solution: Solution, cell: str) -> dict:
    """The run of a screw that opens the cell."""
    links = [solution.graph.edges[link] for link in solution.links.get(cell, [])]
    way = solution.way.get(cell, [])
    contents = NO_VOLUME
    for link in links:
        contents += link["contents"]
    for name in way[1::2]:
        contents += solution.layout.cells[name].contents
    length = [sum((link["length"][n] for link in links), Fraction(0)) for n in range(3)]
    return {
        "cell": cell,
        "run": way,
        "length_m": [number(mm / 1000) for mm in length],
        "contents_ml": contents.in_ml(),
        "dominators": solution.dominators(cell) if cell in solution.chamber else [],
    }


def circuit(solution: Solution, chamber: str) -> dict:
    """A circuit's contents: the chamber, every cell and every line of it."""
    cells = sorted(name for name, root in solution.chamber.items() if root == chamber)
    inside = solution.graph.subgraph(cells)
    contents = NO_VOLUME
    for name in cells:
        contents += solution.layout.cells[name].contents
    for _, _, link in inside.edges(data=True):
        contents += link["contents"]
    return {
        "label": solution.layout.circuit_labels.get(chamber),
        "cells": len(cells),
        "links": inside.number_of_edges(),
        "loops": inside.number_of_edges() - len(cells) + 1,
        "contents_ml": contents.in_ml(),
    }


def case(layout: Layout, solution: Solution) -> dict:
    names = sorted(layout.cells)
    simple = networkx.Graph(solution.graph)
    return {
        "name": layout.name,
        "layout": layout.text_lines(),
        "circuits": {
            cell.name: circuit(solution, cell.name)
            for cell in layout.cells.values()
            if cell.is_chamber
        },
        "screws": {name: screw(solution, cell) for name, cell in layout.screws.items()},
        "cells": {
            name: {
                "chamber": solution.chamber[name],
                "dominator": solution.dominator[name],
                "screws_behind": solution.screws_behind(name),
            }
            for name in names
            if name in solution.chamber
        },
        "unreached": [name for name in names if name not in solution.chamber],
    }


def wish(nth: int) -> Wish:
    """Cylinders, sizes, loops and islands in turn."""
    has_island = nth % 6 == 4
    # 23 has no factor in common with the 58 sizes: each comes up.
    parts = LEAST_PARTS + nth * 23 % (MOST_PARTS - LEAST_PARTS + 1)
    return Wish(
        name=f"{BIRDS[nth % len(BIRDS)]} {nth + 1}",
        cylinders=["single", "tandem", "twin"][nth % 3],
        parts=max(parts, 9) if has_island else parts,
        loops=[0, 1, 3][nth // 3 % 3],
        has_island=has_island,
    )


def solve(nth: int) -> tuple[Layout, Solution]:
    """Draws until every shortest way is the only one of its length."""
    for attempt in range(1000):
        layout = grow(Draw(nth * 1000 + attempt), wish(nth))
        try:
            solution = Solution(layout)
        except NotUnique:
            continue
        complete(layout, solution)
        if not LEAST_PARTS <= len(layout.parts) <= MOST_PARTS:
            raise ValueError(f"{layout.name} has {len(layout.parts)} parts")
        return layout, solution
    raise ValueError(f"case {nth} has two shortest ways whatever is drawn")


def printed(cases: list[dict]) -> str:
    """JSON with sorted keys and one cell, screw or line of a layout to a line,
    so that a difference shows where it is."""

    def compact(value) -> str:
        return json.dumps(value, sort_keys=True, ensure_ascii=False)

    def fields(case: dict):
        for key, value in sorted(case.items()):
            if key != "layout" and not isinstance(value, dict):
                yield f"{compact(key)}: {compact(value)}"
            elif key == "layout":
                inner = ",\n  ".join(compact(line) for line in value)
                yield f"{compact(key)}: [\n  {inner}\n ]"
            else:
                inner = ",\n  ".join(
                    f"{compact(name)}: {compact(item)}" for name, item in sorted(value.items())
                )
                yield f"{compact(key)}: {{\n  {inner}\n }}"

    return "[\n" + ",\n".join("{\n " + ",\n ".join(fields(case)) + "\n}" for case in cases) + "\n]\n"


def few(solved: list[tuple[Layout, Solution]]) -> list[int]:
    """Cases that show every feature, in their order: always that one which
    shows the most new ones for its number of parts."""
    wanted, chosen = set(FEATURES), set()
    while wanted:
        best = max(
            range(len(solved)),
            key=lambda nth: len(wanted & solved[nth][0].features) / len(solved[nth][0].parts),
        )
        chosen.add(best)
        wanted -= solved[best][0].features
    return sorted(chosen)


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    solved = [solve(nth) for nth in range(CASES)]
    for feature in FEATURES:
        shown = sum(feature in layout.features for layout, _ in solved)
        if shown < LEAST_OF_EACH:
            raise ValueError(f"only {shown} cases show: {feature}")
    cases = [case(layout, solution) for layout, solution in solved]
    (folder / "long").mkdir(exist_ok=True)
    chosen = [cases[nth] for nth in few(solved)]
    for path, these in [("cases.json", chosen), ("long/cases.json", cases)]:
        (folder / path).write_text(printed(these), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
