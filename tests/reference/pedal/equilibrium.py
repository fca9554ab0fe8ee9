"""Where the pistons come to rest: the least of the energy.

The energy of a control is what is stored in its circuits, plus drag times travel, less what the rod brings in. It is
convex in the travels, the stops are bounds on them, and its least value is unique. It is found from the travel, not from
the force: for a travel of the rod the floating piston goes where the energy is least, between its bounds, and the rod
goes where the derivative of that least energy passes zero. Nothing asks which case it is; stops, a lost circuit and a
piston that does not yet move come out as bounds that are met.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from circuit import Circuit, Filled
from root import rising_root
from vehicle import Chamber, Control

# 1 bar on 1 mm2, and 1 mm2 times 1 mm.
N_PER_BAR_MM2 = 0.1
ML_PER_MM3 = 1e-3
# A piston so near to the end of its travel is at it.
AT_STOP_MM = 1e-9


@dataclass(frozen=True)
class Piston:
    circuit: str
    # Of the piston itself, and relative to the piston before it, which is what its stroke bounds.
    travel_mm: float
    relative_mm: float
    is_on_stop: bool
    bar: float


@dataclass(frozen=True)
class Push:
    pedal_mm: float
    rod_mm: float
    pistons: list[Piston]

    @property
    def stops(self) -> list[str]:
        return [piston.circuit for piston in self.pistons if piston.is_on_stop]


@dataclass(frozen=True)
class Load:
    force_n: float
    is_boosted: bool = False
    lost: str | None = None
    # With no stops, to see how far beyond them the pistons would go.
    is_endless: bool = False


class Prepared:
    """A control, first push or pumped."""

    def __init__(self, control: Control, is_pumped: bool) -> None:
        self.control = control
        self._circuits = [Circuit(control, chamber, is_pumped) for chamber in control.chambers]

    def push(self, air_ml: dict[str, list[float]], load: Load) -> Push:
        control = self.control
        filled = [
            Filled(circuit, air_ml[chamber.circuit], chamber.circuit == load.lost)
            for circuit, chamber in zip(self._circuits, control.chambers)
        ]
        rod_n = load.force_n * control.ratio
        if load.is_boosted and control.booster_ratio is not None:
            most_n = math.inf if control.booster_help_n is None else control.booster_help_n
            rod_n += min(rod_n * (control.booster_ratio - 1.0), most_n)
        strokes = [chamber.stroke_mm * (1000.0 if load.is_endless else 1.0) for chamber in control.chambers]
        if control.bar_share is not None:
            shares = [control.bar_share, 1 - control.bar_share]
            pistons = [
                _single(chamber, fill, stroke, share * rod_n)
                for chamber, fill, stroke, share in zip(control.chambers, filled, strokes, shares)
            ]
            rod_mm = sum(share * piston.travel_mm for share, piston in zip(shares, pistons))
        elif len(filled) == 1:
            pistons = [_single(control.chambers[0], filled[0], strokes[0], rod_n)]
            rod_mm = pistons[0].travel_mm
        else:
            pistons = _Tandem(control.chambers, filled, strokes, rod_n).rest()
            rod_mm = pistons[0].travel_mm
        pedal_mm = control.free_play_mm + control.ratio * rod_mm + control.flex_mm_per_n * load.force_n
        return Push(pedal_mm, rod_mm, pistons)


def _single(chamber: Chamber, filled: Filled, stroke_mm: float, rod_n: float) -> Piston:
    displaced = ML_PER_MM3 * chamber.area_mm2

    def derivative(travel_mm: float) -> tuple[float, float]:
        bar, rise = filled.pressure(displaced * (travel_mm - chamber.cut_off_mm))
        push = N_PER_BAR_MM2 * chamber.area_mm2
        return chamber.drag_n - rod_n + push * bar, push * rise * displaced

    travel = rising_root(derivative, 0.0, stroke_mm, chamber.cut_off_mm)
    bar, _ = filled.pressure(displaced * (travel - chamber.cut_off_mm))
    return Piston(chamber.circuit, travel, travel, travel >= stroke_mm - AT_STOP_MM, bar)


class _Tandem:
    """Primary and floating piston; the second has its own area at both ends."""

    def __init__(self, chambers: list[Chamber], filled: list[Filled], strokes: list[float], rod_n: float) -> None:
        self._primary, self._floating = chambers
        self._filled = filled
        self._strokes = strokes
        self._rod_n = rod_n
        self._last_mm = self._floating.cut_off_mm

    def _pressures(self, rod_mm: float, floating_mm: float):
        one, two = self._primary, self._floating
        first = one.area_mm2 * (rod_mm - one.cut_off_mm) - two.area_mm2 * floating_mm
        second = two.area_mm2 * (floating_mm - two.cut_off_mm)
        return self._filled[0].pressure(ML_PER_MM3 * first), self._filled[1].pressure(ML_PER_MM3 * second)

    def _bounds(self, rod_mm: float) -> tuple[float, float]:
        # Rounding must not put the one bound above the other at the end of both strokes.
        return min(max(0.0, rod_mm - self._strokes[0]), self._strokes[1]), self._strokes[1]

    def _floating_mm(self, rod_mm: float) -> float:
        area = self._floating.area_mm2

        def derivative(floating_mm: float) -> tuple[float, float]:
            """Of the energy by the travel of the floating piston."""
            (bar_1, rise_1), (bar_2, rise_2) = self._pressures(rod_mm, floating_mm)
            push = N_PER_BAR_MM2 * area
            return self._floating.drag_n + push * (bar_2 - bar_1), push * ML_PER_MM3 * area * (rise_1 + rise_2)

        self._last_mm = rising_root(derivative, *self._bounds(rod_mm), self._last_mm)
        return self._last_mm

    def _along(self, rod_mm: float) -> tuple[float, float]:
        """Derivative by the travel of the rod, of the energy that is least over the travel of the floating piston."""
        floating_mm = self._floating_mm(rod_mm)
        low, high = self._bounds(rod_mm)
        (bar_1, rise_1), (bar_2, rise_2) = self._pressures(rod_mm, floating_mm)
        one, two = self._primary.area_mm2, self._floating.area_mm2
        force = self._primary.drag_n - self._rod_n + N_PER_BAR_MM2 * one * bar_1
        across = self._floating.drag_n + N_PER_BAR_MM2 * two * (bar_2 - bar_1)
        unit = N_PER_BAR_MM2 * ML_PER_MM3
        if floating_mm <= low and across > 0 and rod_mm > self._strokes[0]:
            # The bound moves with the rod, and pushes the floating piston with what is missing there.
            difference = one - two
            return force + across, unit * (difference * difference * rise_1 + two * two * rise_2)
        if low < floating_mm < high and rise_1 + rise_2 > 0:
            return force, unit * one * one * rise_1 * rise_2 / (rise_1 + rise_2)
        return force, unit * one * one * rise_1

    def rest(self) -> list[Piston]:
        one, two = self._primary, self._floating
        most_mm = sum(self._strokes)
        rod_mm = rising_root(self._along, 0.0, most_mm, min(one.cut_off_mm + two.cut_off_mm, most_mm))
        floating_mm = self._floating_mm(rod_mm)
        (bar_1, _), (bar_2, _) = self._pressures(rod_mm, floating_mm)
        relative_mm = rod_mm - floating_mm
        return [
            Piston(one.circuit, rod_mm, relative_mm, relative_mm >= self._strokes[0] - AT_STOP_MM, bar_1),
            Piston(two.circuit, floating_mm, floating_mm, floating_mm >= self._strokes[1] - AT_STOP_MM, bar_2),
        ]
