"""The parts a layout is built from: cylinders, passages and brakes."""

from __future__ import annotations

import quantity
from layout import WHEELS, Cell, Layout, Part
from quantity import NO_VOLUME, Volume, stated, tube

VALVES = [
    "proportioning", "pressure_limiting", "load_sensing", "metering", "residual",
    "check", "differential_switch",
]


def add_cylinders(layout: Layout, kind: str) -> list[Cell]:
    """One single, one tandem or two single cylinders; their chambers."""
    draw = layout.draw
    layout.features.add(f"{kind} cylinder")
    if kind == "tandem":
        return _tandem(layout)
    names = ["master"] if kind == "single" else ["front cylinder", "rear cylinder"]
    chambers = []
    for name in names:
        bore = quantity.bore(draw, 14, 26)
        stroke = quantity.length(draw, 20, 36)
        label = _label(layout, name)
        part = Part(name, f'single(bore: "{bore.text}", stroke: "{stroke.text}"{label})')
        layout.cylinders.append(part)
        contents = tube(bore, stroke)
        circuit = len(chambers)
        chambers.append(
            layout.add_cell(Cell(name, part, contents, circuit, is_chamber=True))
        )
    if kind == "twin" and draw.chance(0.6):
        layout.balance_bars.append(draw.shuffled(names))
    _feed(layout, names)
    return chambers


def _tandem(layout: Layout) -> list[Cell]:
    draw = layout.draw
    common = quantity.bore(draw, 16, 30)
    part = Part("master", "")
    layout.cylinders.append(part)
    chambers, texts = [], []
    for circuit, port in enumerate(["primary", "secondary"]):
        stroke = quantity.length(draw, 12, 24)
        # A stepped cylinder gives a chamber a bore of its own.
        is_stepped = draw.chance(0.2)
        bore = quantity.bore(draw, 14, 30) if is_stepped else common
        own = f'bore: "{bore.text}", ' if is_stepped else ""
        label = _label(layout, f"master.{port}")
        texts.append(f'{port}: ({own}stroke: "{stroke.text}"{label})')
        chambers.append(
            layout.add_cell(
                Cell(
                    f"master.{port}", part, tube(bore, stroke), circuit,
                    screw_chambers=[port], is_chamber=True,
                )
            )
        )
    part.kind = f'tandem(bore: "{common.text}", {", ".join(texts)})'
    _feed(layout, ["master.primary", "master.secondary"])
    return chambers


def _label(layout: Layout, chamber: str) -> str:
    if not layout.draw.chance(0.3):
        return ""
    label = layout.fresh("circuit")
    layout.circuit_labels[chamber] = label
    return f', circuit: "{label}"'


def _feed(layout: Layout, chambers: list[str]) -> None:
    """One compartment for each chamber, or one for all of them."""
    if layout.draw.chance(0.3):
        names = ", ".join(f'"{name}"' for name in chambers)
        feeds = [f"[{names}]"]
    else:
        feeds = [f'"{name}"' for name in chambers]
    for feed in feeds:
        name = layout.fresh("compartment")
        layout.compartments.append(f'(id: "{name}", max: "200 ml", min: "60 ml", feeds: {feed})')


def add_passage(layout: Layout, upstream: list[Cell]) -> list[Cell]:
    """A tee, valve or anti-lock unit behind the given cells, one passage each."""
    draw = layout.draw
    if len(upstream) > 1:
        return _sections(layout, upstream) if draw.chance(0.5) else _unit(layout, upstream)
    choice = draw.below(20)
    if choice < 3:
        return _unit(layout, upstream)
    if choice < 8:
        word = draw.pick(VALVES)
        manner = "valve"
        layout.features.add("valve")
    else:
        word = draw.pick(["tee", "tee", "tee", "block", "union"])
        manner = "plain"
        layout.features.add("junction")
    brackets = "()" if manner == "valve" and word != "differential_switch" else ""
    part = _part(layout, word.replace("_", " "), word + brackets)
    contents = _contents(layout, part)
    cell = Cell(part.id, part, contents, upstream[0].circuit, manner=manner)
    layout.add_cell(cell)
    layout.connect(upstream[0], cell)
    return [cell]


def _sections(layout: Layout, upstream: list[Cell]) -> list[Cell]:
    """A valve with a passage for each circuit."""
    draw = layout.draw
    layout.features.add("valve with sections")
    word = draw.pick(["proportioning", "check", "differential_switch"])
    brackets = "" if word == "differential_switch" else "()"
    part = _part(layout, word.replace("_", " "), word + brackets)
    sections = draw.shuffled(["upper", "lower"])
    part.fields.append("sections: [" + ", ".join(f'"{name}"' for name in sections) + "]")
    contents = _contents(layout, part)
    cells = []
    for before, section in zip(upstream, sections):
        cell = Cell(
            f"{part.id}.{section}", part, contents, before.circuit,
            manner="valve", screw_chambers=[section],
        )
        layout.add_cell(cell)
        layout.connect(before, cell)
        cells.append(cell)
    return cells


def _unit(layout: Layout, upstream: list[Cell]) -> list[Cell]:
    """An anti-lock unit with a passage for each circuit."""
    draw = layout.draw
    layout.features.add("anti-lock unit")
    part = _part(layout, "unit", "")
    cells, texts = [], []
    for nth, before in enumerate(upstream):
        inlet = f"in {nth + 1}"
        outlets = [f"out {nth + 1}{letter}" for letter in "abcd"[: draw.between(1, 4)]]
        if len(outlets) > 1:
            layout.features.add("several outlets of one passage")
        through = quantity.volume(draw, 3, 15)
        trapped = quantity.volume(draw, 1, 8)
        quoted = ", ".join(f'"{outlet}"' for outlet in outlets)
        texts.append(
            f'(inlet: "{inlet}", outlets: [{quoted}], '
            f'through: "{through.text}", trapped: "{trapped.text}")'
        )
        cell = Cell(
            f"{part.id}.{inlet}", part, stated(through), before.circuit, manner="unit",
            free_outlets=list(outlets), screw_chambers=[inlet, *outlets],
        )
        layout.add_cell(cell)
        layout.connect(before, cell)
        cells.append(cell)
    part.kind = f"anti_lock(circuits: [{', '.join(texts)}])"
    return cells


def _part(layout: Layout, word: str, kind: str) -> Part:
    part = Part(layout.fresh(word), kind)
    layout.parts.append(part)
    return part


def _contents(layout: Layout, part: Part) -> Volume:
    """What a tee or valve holds per passage; nothing where it is silent."""
    if not layout.draw.chance(0.6):
        return NO_VOLUME
    contents = quantity.volume(layout.draw, 0, 3)
    if contents.nominal == 0:
        return NO_VOLUME
    part.fields.append(f'contents: "{contents.text}"')
    return stated(contents)


def add_island_tee(layout: Layout) -> Cell:
    """A tee that nothing leads to."""
    part = _part(layout, "tee", "tee")
    return layout.add_cell(Cell(part.id, part, _contents(layout, part), None))


def add_brake(layout: Layout, upstream: list[Cell]) -> list[Cell]:
    """A caliper or wheel cylinder; two cells before it feed two chambers."""
    draw = layout.draw
    if len(upstream) > 1:
        return _caliper(layout, upstream, is_crossed_over=False)
    before = upstream[0]
    choice = draw.below(10)
    if choice < 2:
        return _caliper(layout, upstream, is_crossed_over=True)
    if choice < 6 and not before.is_cavity:
        part = _part(layout, "caliper", "")
        pistons, contents = _cavity(layout)
        part.kind = f"caliper({pistons})"
    else:
        part = _part(layout, "wheel cylinder", "")
        bore = quantity.bore(draw, 14, 32)
        extension = quantity.length(draw, 1, 9)
        dead = quantity.volume(draw, 1, 4)
        count = draw.between(1, 2)
        # Two pistons are what a wheel cylinder has unless it says one.
        pistons = "" if count == 2 and draw.chance(0.5) else f"pistons: {count}, "
        part.kind = (
            f'wheel_cylinder(bore: "{bore.text}", {pistons}extension: "{extension.text}", '
            f'dead_volume: "{dead.text}")'
        )
        contents = tube(bore, extension, count) + stated(dead)
        layout.features.add("wheel cylinder")
        if before.is_cavity:
            layout.features.add("wheel cylinders in series")
    _on_a_wheel(layout, part, before)
    cell = Cell(part.id, part, contents, before.circuit, is_cavity=True)
    layout.add_cell(cell)
    layout.connect(before, cell)
    return [cell]


def _on_a_wheel(layout: Layout, part: Part, before: Cell) -> None:
    """A cylinder fed through another one sits on the same wheel."""
    part.is_brake = True
    part.wheel = before.part.wheel if before.is_cavity else layout.draw.pick(WHEELS)


def _cavity(layout: Layout) -> tuple[str, Volume]:
    """The pistons and dead volume of one cavity, and its contents."""
    draw = layout.draw
    contents, texts = NO_VOLUME, []
    for _ in range(draw.between(1, 2)):
        bore = quantity.bore(draw, 20, 60)
        extension = quantity.length(draw, 1, 12)
        count = draw.between(1, 3)
        text = f'(bore: "{bore.text}", extension: "{extension.text}"'
        if count > 1 or draw.chance(0.3):
            text += f", count: {count}"
        texts.append(text + ")")
        contents += tube(bore, extension, count)
    dead = quantity.volume(draw, 1, 6)
    text = f'pistons: [{", ".join(texts)}], dead_volume: "{dead.text}"'
    return text, contents + stated(dead)


def _caliper(layout: Layout, upstream: list[Cell], is_crossed_over: bool) -> list[Cell]:
    """A caliper of two cavities: halves of one, or each fed on its own."""
    draw = layout.draw
    part = _part(layout, "caliper", "")
    _on_a_wheel(layout, part, upstream[0])
    ids = draw.shuffled(["inner", "outer"])
    cells, texts = [], []
    for nth, name in enumerate(ids):
        pistons, contents = _cavity(layout)
        texts.append(f'(id: "{name}", {pistons})')
        before = upstream[min(nth, len(upstream) - 1)]
        cell = Cell(
            f"{part.id}.{name}", part, contents, before.circuit,
            screw_chambers=[name], is_cavity=True,
        )
        cells.append(layout.add_cell(cell))
    drilling = ""
    if is_crossed_over:
        layout.features.add("halves joined by a crossover")
        contents = quantity.volume(draw, 1, 3)
        drilling = f', crossover: "{contents.text}"'
        # The part's bare name means its first half.
        cells[0].names.append(part.id)
        layout.connect(upstream[0], cells[0])
        layout.cross_over(cells[0], cells[1], stated(contents))
    else:
        layout.features.add("chambers on two circuits")
        for before, cell in zip(upstream, cells):
            layout.connect(before, cell)
    part.kind = f"caliper(chambers: [{', '.join(texts)}]{drilling})"
    return cells
