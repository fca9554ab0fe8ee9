"""How much a circuit holds at a pressure, and the other way round.

Without air the volume is piecewise linear in the pressure of the chamber, through every valve: it is put together once,
as a list of pieces. Air adds one smooth term for each zone. The way back, from volume to pressure, is a search for the
piece and a root in it. `substitution` adds the terms up as they are written, and shares nothing with this.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import inf

from power import power_less_one
from vehicle import Chamber, Control, Zone

ATMOSPHERE_BAR = 1.01325
# A step this small, relative to the pressure, is rounding.
LAST_BITS = 4.5e-16


@dataclass(frozen=True)
class Piece:
    """From this pressure of the chamber on, a zone has `bar`, and so much more for each bar of the chamber."""

    begin_bar: float
    bar: float
    slope: float


def _end(pieces: list[Piece], number: int) -> float:
    return pieces[number + 1].begin_bar if number + 1 < len(pieces) else inf


def split(pieces: list[Piece], at_bar: list[float]) -> list[Piece]:
    """The same, with a new piece wherever the zone passes one of these pressures."""
    parts = []
    for number, piece in enumerate(pieces):
        parts.append(piece)
        end = _end(pieces, number)
        if piece.slope > 0:
            for bar in sorted(set(at_bar)):
                begin = piece.begin_bar + (bar - piece.bar) / piece.slope
                if piece.begin_bar < begin < end:
                    parts.append(Piece(begin, bar, piece.slope))
    return parts


def behind(pieces: list[Piece], zone: Zone) -> list[Piece]:
    """What a valve makes of the pressure before it."""
    if zone.valve == "open":
        return pieces
    (threshold, *ratio) = zone.settings.values()
    parts = split(pieces, [threshold])
    after = []
    for number, piece in enumerate(parts):
        # A piece lies on one side as a whole; one that stays at the threshold counts as having reached it.
        length = min(_end(parts, number) - piece.begin_bar, 1.0)
        is_above = piece.bar + piece.slope * length / 2 >= threshold
        through = {
            "limiting": (threshold, 0.0) if is_above else None,
            "proportioning": (threshold + ratio[0] * (piece.bar - threshold), ratio[0] * piece.slope)
            if ratio and is_above
            else None,
            "metering": None if is_above else (0.0, 0.0),
            "residual": None if is_above else (threshold, 0.0),
        }[zone.valve]
        after.append(piece if through is None else Piece(piece.begin_bar, *through))
    return after


def linear_parts(zone: Zone, bar: float, modulus_bar: float, clearance_share: float) -> tuple[float, float]:
    """What a zone takes up without air, and how much more for a bar more; at a kink what follows above it."""
    slope = zone.wall_ml_per_100bar / 100 + zone.fluid_ml / modulus_bar
    volume = slope * bar
    for brake in zone.brakes:
        rate = clearance_share * brake.clearance_ml / brake.touch_bar
        volume += rate * min(bar, brake.touch_bar) + brake.give_ml_per_100bar / 100 * bar
        slope += brake.give_ml_per_100bar / 100 + (rate if bar < brake.touch_bar else 0.0)
    for hose in zone.hoses:
        line = min(bisect_right(hose.bar, bar), len(hose.bar) - 1) - 1
        rise = hose.growth_ml_per_m[line + 1] - hose.growth_ml_per_m[line]
        rate = rise / (hose.bar[line + 1] - hose.bar[line])
        volume += hose.length_m * (hose.growth_ml_per_m[line] + rate * (bar - hose.bar[line]))
        slope += hose.length_m * rate
    return volume, slope


class Circuit:
    """Everything behind one chamber, without air."""

    def __init__(self, control: Control, chamber: Chamber, is_pumped: bool) -> None:
        self.index = control.polytropic_index
        share = control.left_after_pumping if is_pumped else 1.0
        zones: list[list[Piece]] = []
        for zone in chamber.zones:
            pieces = [Piece(0.0, 0.0, 1.0)] if zone.behind is None else behind(zones[zone.behind], zone)
            kinks = [brake.touch_bar for brake in zone.brakes] + [bar for hose in zone.hoses for bar in hose.bar]
            zones.append(split(pieces, kinks))
        # What a child is made of knows the kinks of its parents already, but not the other way round.
        self.begin_bar = sorted({piece.begin_bar for pieces in zones for piece in pieces})
        self.zone_bar: list[list[tuple[float, float]]] = []
        self.volume_ml = [0.0] * len(self.begin_bar)
        self.slope = [0.0] * len(self.begin_bar)
        for zone, pieces in zip(chamber.zones, zones):
            begins = [piece.begin_bar for piece in pieces]
            at_rest, _ = linear_parts(zone, pieces[0].bar, control.bulk_modulus_bar, share)
            through = []
            for number, begin in enumerate(self.begin_bar):
                piece = pieces[bisect_right(begins, begin) - 1]
                bar = piece.bar + piece.slope * (begin - piece.begin_bar)
                volume, _ = linear_parts(zone, bar, control.bulk_modulus_bar, share)
                # The slope is taken inside of the piece, where rounding cannot put it on the wrong side of a kink.
                end = self.begin_bar[number + 1] if number + 1 < len(self.begin_bar) else begin + 2
                inside = bar + piece.slope * (end - begin) / 2
                _, slope = linear_parts(zone, inside, control.bulk_modulus_bar, share)
                self.volume_ml[number] += volume - at_rest
                self.slope[number] += slope * piece.slope
                through.append((bar, piece.slope))
            self.zone_bar.append(through)


class Filled:
    """A circuit with air in its zones: pressure from volume."""

    def __init__(self, circuit: Circuit, air_ml: list[float], is_lost: bool = False) -> None:
        self._circuit = circuit
        self._is_lost = is_lost
        self._power = -1 / circuit.index
        # What is at rest under pressure is less than what it is under the atmosphere.
        self._air = []
        for air, zone in zip(air_ml, circuit.zone_bar):
            if air > 0:
                rest_bar = zone[0][0]
                at_rest = air * (1 + power_less_one(rest_bar / ATMOSPHERE_BAR, self._power))
                self._air.append((at_rest, rest_bar, zone))
        self._begins_ml = [self._volume(number, begin) for number, begin in enumerate(circuit.begin_bar)]
        self._ends_ml = [self._volume(number, end) for number, end in enumerate(circuit.begin_bar[1:])] + [inf]

    def _volume(self, piece: int, bar: float) -> float:
        circuit = self._circuit
        beyond = bar - circuit.begin_bar[piece]
        volume = circuit.volume_ml[piece] + circuit.slope[piece] * beyond
        for air, rest_bar, zone in self._air:
            begin, slope = zone[piece]
            # The same as the difference of two powers, without the loss of digits while the pressure is low.
            rise = (begin + slope * beyond - rest_bar) / (ATMOSPHERE_BAR + rest_bar)
            volume -= air * power_less_one(rise, self._power)
        return volume

    def pressure(self, volume_ml: float) -> tuple[float, float]:
        """The pressure in bar, and how much it rises with the volume; none below zero, where a valve shuts the fluid in,
        and in a lost circuit. A volume that only fits while a metering valve opens has the pressure at which it does."""
        circuit = self._circuit
        if self._is_lost or volume_ml <= 0:
            return 0.0, 0.0
        piece = bisect_right(self._begins_ml, volume_ml) - 1
        begin = circuit.begin_bar[piece]
        if volume_ml >= self._ends_ml[piece]:
            return circuit.begin_bar[piece + 1], 0.0
        bar = begin
        # Volume over pressure bends down in a piece, so that Newton's steps from its beginning never pass the root.
        for _ in range(200):
            value = circuit.volume_ml[piece] + circuit.slope[piece] * (bar - begin)
            rate = circuit.slope[piece]
            for air, rest_bar, zone in self._air:
                zone_begin, slope = zone[piece]
                rise = (zone_begin + slope * (bar - begin) - rest_bar) / (ATMOSPHERE_BAR + rest_bar)
                gone = power_less_one(rise, self._power)
                value -= air * gone
                rate -= air * self._power * (1 + gone) / (1 + rise) * slope / (ATMOSPHERE_BAR + rest_bar)
            following = bar + (volume_ml - value) / rate
            if following - bar <= LAST_BITS * following:
                return max(following, begin), 1 / rate
            bar = following
        raise ValueError(f"no pressure found for {volume_ml} ml")
