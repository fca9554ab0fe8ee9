"""A layout under construction: its parts as text, its pipework as a graph.

The graph is kept by hand while the text is written, and never read back from
it, so that it says what the text is meant to say. Its nodes are the bodies of
fluid without inner walls (chambers, cavities, passages), its edges the lines
and the drillings between the halves of a caliper.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import networkx

import quantity
from quantity import NO_VOLUME, ZERO, Draw, Volume

WHEELS = [
    "front_left", "front_right", "middle_left", "middle_right", "rear_left",
    "rear_right", "trailer_left", "trailer_right", "front", "rear",
]


@dataclass
class Part:
    """A part or a cylinder, as far as it is written."""

    id: str
    kind: str
    wheel: str | None = None
    fields: list[str] = field(default_factory=list)
    screws: list[str] = field(default_factory=list)
    is_brake: bool = False


@dataclass
class Cell:
    """A body of fluid, and how a line end names it."""

    name: str
    part: Part
    contents: Volume
    # The circuit it was built into; none for an island.
    circuit: int | None
    # `plain`, `valve` (inlet and outlet side) or `unit` (named ports).
    manner: str = "plain"
    names: list[str] = field(default_factory=list)
    free_outlets: list[str] = field(default_factory=list)
    # What a screw must name to open this cell; none where nothing is named.
    screw_chambers: list[str] = field(default_factory=list)
    is_chamber: bool = False
    is_cavity: bool = False

    def can_take_a_line(self) -> bool:
        return self.manner != "unit" or bool(self.free_outlets)


class Layout:
    """Parts, lines and screws, and the graph they make."""

    def __init__(self, draw: Draw, name: str) -> None:
        self.draw = draw
        self.name = name
        self.cylinders: list[Part] = []
        self.balance_bars: list[list[str]] = []
        self.compartments: list[str] = []
        self.parts: list[Part] = []
        self.lines: list[str] = []
        self.cells: dict[str, Cell] = {}
        self.circuit_labels: dict[str, str] = {}
        self.graph = networkx.MultiGraph()
        # Screw name to the name of the cell it opens.
        self.screws: dict[str, str] = {}
        # What the layout was made to show, to be counted over all cases.
        self.features: set[str] = set()
        self._counts: dict[str, int] = {}

    def fresh(self, word: str) -> str:
        """`tee 1`, `tee 2` and so on."""
        self._counts[word] = self._counts.get(word, 0) + 1
        return f"{word} {self._counts[word]}"

    def add_cell(self, cell: Cell) -> Cell:
        if cell.name in self.cells:
            raise ValueError(f"two cells are named {cell.name}")
        self.cells[cell.name] = cell
        if not cell.names:
            cell.names = [cell.name]
        self.graph.add_node(cell.name)
        return cell

    def cross_over(self, first: Cell, second: Cell, contents: Volume) -> None:
        """Joins the two halves of a caliper by a drilling without length."""
        name = f"crossover of {first.part.id}"
        self.graph.add_edge(
            first.name, second.name, key=name, um=0, length=ZERO, contents=contents
        )

    def connect(self, upstream: Cell, downstream: Cell, into_inlet: bool = True) -> str:
        """Adds a line; which end is written first is drawn."""
        kind, length, contents = self.draw_line()
        word = kind.split("(", 1)[0]
        self.features.add(f"line {word}")
        name = self.fresh(word if self.draw.chance(0.7) else "line")
        ends = [
            (upstream, "outlet"),
            (downstream, "inlet" if into_inlet else "outlet"),
        ]
        if self.draw.chance(0.25):
            ends.reverse()
        (first, first_side), (second, second_side) = ends
        start = self._end(first, first_side, "from")
        stop = self._end(second, second_side, "to")
        self.lines.append(f'(id: "{name}", from: "{start}", to: "{stop}", kind: {kind})')
        um = length[1] * 1000
        if um.denominator != 1:
            raise ValueError(f"the length of {name} is not a whole number of micrometres")
        self.graph.add_edge(
            upstream.name, downstream.name, key=name,
            um=int(um), length=length, contents=contents,
        )
        return name

    def _end(self, cell: Cell, side: str, place: str) -> str:
        """A line end as written: what it may leave out depends on the place."""
        name = self.draw.pick(cell.names)
        if cell.manner == "valve":
            goes_without_saying = (side == "inlet") == (place == "to")
            if goes_without_saying and self.draw.chance(0.6):
                return name
            return f"{name}.{'in' if side == 'inlet' else 'out'}"
        if cell.manner == "unit" and side == "outlet":
            port = cell.free_outlets.pop(self.draw.below(len(cell.free_outlets)))
            return f"{cell.part.id}.{port}"
        return name

    def draw_line(self) -> tuple[str, tuple, Volume]:
        """A pipe by its bore, a hose, or a direct joint."""
        choice = self.draw.below(10)
        if choice == 0:
            return "direct", ZERO, NO_VOLUME
        if choice <= 6:
            bore = quantity.bore(self.draw, 2, 7)
            length = quantity.length(self.draw, 60, 4000)
            kind = f'pipe(bore: "{bore.text}", length: "{length.text}")'
        else:
            bore = quantity.bore(self.draw, 2, 6)
            length = quantity.length(self.draw, 100, 900)
            rest = self.draw.pick(["", ", material: rubber", ", material: braided, expansion: low"])
            kind = f'hose(bore: "{bore.text}", length: "{length.text}"{rest})'
        return kind, length.bounds, quantity.tube(bore, length)

    def add_screw(self, cell: Cell) -> str:
        """Adds a bleed screw that opens the cell."""
        word = "screw" if self.draw.chance(0.5) else f"{cell.part.id} screw"
        name = self.fresh(word)
        text = f'(id: "{name}"'
        if cell.screw_chambers:
            text += f', chamber: "{self.draw.pick(cell.screw_chambers)}"'
        cell.part.screws.append(text + ")")
        self.screws[name] = cell.name
        return name

    def text_lines(self) -> list[str]:
        """The layout as text, parts and lines in an order of their own."""
        lines = ["(", "    format: 1,", f'    name: "{self.name}",', "    fluid: dot4,"]
        lines += ["    reservoirs: [", '        (id: "reservoir", compartments: [']
        lines += [f"            {text}," for text in self.draw.shuffled(self.compartments)]
        lines += ["        ]),", "    ],", "    cylinders: ["]
        lines += [f"        {item(part)}," for part in self.cylinders]
        lines.append("    ],")
        for names in self.balance_bars:
            both = ", ".join(f'"{name}"' for name in names)
            lines.append(f"    balance_bars: [(cylinders: [{both}])],")
        lines.append("    parts: [")
        lines += [f"        {item(part)}," for part in self.draw.shuffled(self.parts)]
        lines += ["    ],", "    lines: ["]
        lines += [f"        {line}," for line in self.draw.shuffled(self.lines)]
        return lines + ["    ],", ")"]


def item(part: Part) -> str:
    """One entry of the list of parts or cylinders."""
    fields = [f'id: "{part.id}"', f"kind: {part.kind}", *part.fields]
    if part.wheel:
        fields.append(f"wheel: {part.wheel}")
    if part.screws:
        fields.append(f"screws: [{', '.join(part.screws)}]")
    return f"({', '.join(fields)})"
