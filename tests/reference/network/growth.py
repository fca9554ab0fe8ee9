"""Grows a layout: cylinders first, then passages, brakes, loops, islands."""

from __future__ import annotations

from dataclasses import dataclass

import pieces
from layout import Cell, Layout
from quantity import Draw


@dataclass(frozen=True)
class Wish:
    """What a case is to show."""

    name: str
    cylinders: str
    parts: int
    loops: int
    has_island: bool


def grow(draw: Draw, wish: Wish) -> Layout:
    layout = Layout(draw, wish.name)
    chambers = pieces.add_cylinders(layout, wish.cylinders)
    # Cells that nothing is fed through yet; each must lead somewhere.
    bare = list(chambers)
    reserve = 5 if wish.has_island else 0
    while len(layout.parts) + len(bare) + 3 + reserve < wish.parts:
        if len(chambers) > 1 and draw.chance(0.15):
            upstream = _one_of_each(layout, len(chambers))
        else:
            upstream = [_source(layout, bare)]
        bare = [cell for cell in bare if cell not in upstream]
        bare += pieces.add_passage(layout, upstream)
    _add_brakes(layout, bare, len(chambers), wish.parts - reserve)
    if wish.has_island:
        _add_island(layout)
    _add_loops(layout, wish.loops)
    _add_screws(layout)
    return layout


def _open_cells(layout: Layout, circuit: int | None) -> list[Cell]:
    return [
        cell for cell in layout.cells.values()
        if cell.circuit == circuit and not cell.is_cavity and cell.can_take_a_line()
    ]


def _source(layout: Layout, bare: list[Cell]) -> Cell:
    """A cell to build on: one that leads nowhere yet, or any with a free port."""
    draw = layout.draw
    if bare and draw.chance(0.7):
        return draw.pick(bare)
    reached = [
        cell for cell in layout.cells.values()
        if cell.circuit is not None and not cell.is_cavity and cell.can_take_a_line()
    ]
    return draw.pick(reached)


def _one_of_each(layout: Layout, circuits: int) -> list[Cell]:
    return [layout.draw.pick(_open_cells(layout, circuit)) for circuit in range(circuits)]


def _add_brakes(layout: Layout, bare: list[Cell], circuits: int, parts: int) -> None:
    draw = layout.draw
    bare = list(bare)
    while bare:
        first = bare.pop(draw.below(len(bare)))
        others = [cell for cell in bare if cell.circuit != first.circuit]
        if others and draw.chance(0.3):
            second = draw.pick(others)
            bare.remove(second)
            pieces.add_brake(layout, [first, second])
        else:
            pieces.add_brake(layout, [first])
    while len(layout.parts) < parts:
        cavities = [cell for cell in layout.cells.values() if cell.is_cavity]
        choice = draw.below(10)
        if choice < 3:
            pieces.add_brake(layout, [draw.pick(cavities)])
        elif choice < 5 and circuits > 1:
            pieces.add_brake(layout, draw.shuffled(_one_of_each(layout, circuits)))
        else:
            pieces.add_brake(layout, [_source(layout, [])])


def _add_island(layout: Layout) -> None:
    """Parts joined to each other and to no cylinder."""
    draw = layout.draw
    layout.features.add("parts not reached")
    tee = pieces.add_island_tee(layout)
    for _ in range(draw.between(1, 3)):
        pieces.add_brake(layout, [tee])
    if draw.chance(0.7):
        reached = draw.pick(_open_cells(layout, 0))
        pieces.add_brake(layout, draw.shuffled([reached, tee]))
        layout.features.add("one chamber of two not reached")
    if draw.chance(0.4):
        _join(layout, None)


def _add_loops(layout: Layout, loops: int) -> None:
    circuits = sorted({cell.circuit for cell in layout.cells.values()} - {None})
    for _ in range(loops):
        _join(layout, layout.draw.pick(circuits))


def _join(layout: Layout, circuit: int | None) -> None:
    """A line more than a tree needs, sometimes beside another one."""
    draw = layout.draw
    cells = [
        cell for cell in layout.cells.values()
        if cell.circuit == circuit and cell.can_take_a_line()
    ]
    if len(cells) < 2:
        return
    first = draw.pick(cells)
    # Circuits that share no brake never meet: the other end is one of its own.
    near = [
        cell for cell in cells
        if cell is not first and layout.graph.has_edge(first.name, cell.name)
    ]
    if near and draw.chance(0.25):
        second = draw.pick(near)
        layout.features.add("lines side by side")
    else:
        second = draw.pick([cell for cell in cells if cell is not first])
    layout.connect(first, second, into_inlet=False)
    layout.features.add("loop")


def _add_screws(layout: Layout) -> None:
    draw = layout.draw
    for cell in layout.cells.values():
        if cell.is_cavity:
            share = 0.7
        elif cell.is_chamber:
            share = 0.15
        else:
            share = 0.08
        if not draw.chance(share):
            continue
        layout.add_screw(cell)
        if not cell.is_cavity:
            layout.features.add("screw on the way" if not cell.is_chamber else "screw on a cylinder")
        elif draw.chance(0.08):
            layout.add_screw(cell)
            layout.features.add("two screws on one cavity")
