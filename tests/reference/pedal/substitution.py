"""A solution put into the equations as they are written, term by term.

Nothing here comes from `circuit` or `equilibrium`: a volume is added up zone by zone, a force balance is written out
for each piston, and a piston is held by a stop only where it is on it.
"""

from __future__ import annotations

from vehicle import Chamber, Control, Hose, Zone

ATMOSPHERE_BAR = 1.01325
MOST_RESIDUAL = 1e-9
# A volume at which a metering valve opens is between those on both sides of it.
BESIDE = 1e-11


class NotBalanced(Exception):
    """A solution that does not satisfy its equations."""


def valve_bar(zone: Zone, before_bar: float) -> float:
    given = zone.settings
    if zone.valve == "limiting":
        return min(before_bar, given["cut_in_bar"])
    if zone.valve == "proportioning":
        return min(before_bar, given["cut_in_bar"]) + given["ratio"] * max(0.0, before_bar - given["cut_in_bar"])
    if zone.valve == "metering":
        return 0.0 if before_bar < given["hold_off_bar"] else before_bar
    if zone.valve == "residual":
        return max(before_bar, given["holds_bar"])
    return before_bar


def zone_bars(chamber: Chamber, bar: float) -> list[float]:
    bars: list[float] = []
    for zone in chamber.zones:
        bars.append(bar if zone.behind is None else valve_bar(zone, bars[zone.behind]))
    return bars


def hose_ml_per_m(hose: Hose, bar: float) -> float:
    points = list(zip(hose.bar, hose.growth_ml_per_m))
    for (left, below), (right, above) in zip(points, points[1:]):
        if bar <= right or right == hose.bar[-1]:
            return below + (above - below) * (bar - left) / (right - left)
    raise AssertionError("the last line has no end")


def zone_ml(control: Control, zone: Zone, air_ml: float, rest_bar: float, bar: float, share: float) -> float:
    def taken_up(at_bar: float) -> float:
        clearance = sum(share * brake.clearance_ml * min(1.0, at_bar / brake.touch_bar) for brake in zone.brakes)
        give = sum(brake.give_ml_per_100bar * at_bar / 100 for brake in zone.brakes)
        growth = sum(hose.length_m * hose_ml_per_m(hose, at_bar) for hose in zone.hoses)
        wall = zone.wall_ml_per_100bar * at_bar / 100
        fluid = zone.fluid_ml * at_bar / control.bulk_modulus_bar
        return clearance + give + growth + wall + fluid

    def air_left(at_bar: float) -> float:
        return air_ml * (ATMOSPHERE_BAR / (ATMOSPHERE_BAR + at_bar)) ** (1 / control.polytropic_index)

    return taken_up(bar) - taken_up(rest_bar) + air_left(rest_bar) - air_left(bar)


def chamber_ml(control: Control, chamber: Chamber, air_ml: list[float], bar: float, is_pumped: bool) -> float:
    share = control.left_after_pumping if is_pumped else 1.0
    rests, bars = zone_bars(chamber, 0.0), zone_bars(chamber, bar)
    return sum(
        zone_ml(control, zone, air, rest, now, share)
        for zone, air, rest, now in zip(chamber.zones, air_ml, rests, bars)
    )


def _volume_residual(control, chamber, air_ml, bar, is_pumped, is_lost, displaced_mm3) -> float:
    displaced = max(0.0, displaced_mm3) / 1000
    if is_lost:
        return abs(bar)
    scale = max(displaced, 1e-3)
    residual = abs(chamber_ml(control, chamber, air_ml, bar, is_pumped) - displaced) / scale
    if residual > MOST_RESIDUAL:
        below, above = (
            chamber_ml(control, chamber, air_ml, bar * beside, is_pumped) for beside in (1 - BESIDE, 1 + BESIDE)
        )
        if below <= displaced <= above and any(zone.valve == "metering" for zone in chamber.zones):
            return 0.0
    return residual


def _held(surplus_n: float, travel_mm: float, is_on_stop: bool, rod_n: float) -> float:
    """What is pushing a piston on, and nothing answers: none if it moves, anything on the stop, less than nothing for one
    that has not left its rest."""
    if is_on_stop:
        return max(0.0, -surplus_n) / rod_n
    if travel_mm <= 0:
        return max(0.0, surplus_n) / rod_n
    return abs(surplus_n) / rod_n


def largest_residual(control: Control, air_ml: dict[str, list[float]], load, is_pumped: bool, push) -> float:
    """Relative to the force of the rod and to the volume of each circuit."""
    foot_n = load.force_n * control.ratio
    help_n = foot_n * (control.booster_ratio - 1.0) if load.is_boosted and control.booster_ratio else 0.0
    rod_n = foot_n + (help_n if control.booster_help_n is None else min(help_n, control.booster_help_n))
    chambers, pistons = control.chambers, push.pistons
    residuals = []

    def volume(number: int, displaced_mm3: float) -> None:
        chamber, piston = chambers[number], pistons[number]
        air, is_lost = air_ml[chamber.circuit], chamber.circuit == load.lost
        residuals.append(_volume_residual(control, chamber, air, piston.bar, is_pumped, is_lost, displaced_mm3))

    if len(control.cylinders[0]) == 1:
        shares = [1.0] if control.bar_share is None else [control.bar_share, 1 - control.bar_share]
        rod_mm = 0.0
        for number, (share, chamber, piston) in enumerate(zip(shares, chambers, pistons)):
            volume(number, chamber.area_mm2 * (piston.travel_mm - chamber.cut_off_mm))
            surplus = share * rod_n - chamber.drag_n - 0.1 * piston.bar * chamber.area_mm2
            residuals.append(_held(surplus, piston.travel_mm, piston.is_on_stop, rod_n))
            rod_mm += share * piston.travel_mm
    else:
        (one, two), (first, second) = chambers, pistons
        volume(0, one.area_mm2 * (first.travel_mm - one.cut_off_mm) - two.area_mm2 * second.travel_mm)
        volume(1, two.area_mm2 * (second.travel_mm - two.cut_off_mm))
        surplus_1 = rod_n - one.drag_n - 0.1 * first.bar * one.area_mm2
        surplus_2 = 0.1 * (first.bar - second.bar) * two.area_mm2 - two.drag_n
        residuals.append(_held(surplus_1, first.travel_mm, first.is_on_stop, rod_n))
        # The primary at its stop hands on to the floating piston what it has too much.
        handed = surplus_1 if first.is_on_stop else 0.0
        residuals.append(_held(surplus_2 + handed, second.travel_mm, second.is_on_stop, rod_n))
        residuals.append(abs(first.travel_mm - second.travel_mm - first.relative_mm) / one.stroke_mm)
        rod_mm = first.travel_mm
    for chamber, piston in zip(chambers, pistons):
        residuals.append(max(0.0, piston.relative_mm - chamber.stroke_mm) / chamber.stroke_mm)
        if piston.is_on_stop:
            residuals.append(abs(piston.relative_mm - chamber.stroke_mm) / chamber.stroke_mm)
    pedal_mm = control.free_play_mm + control.ratio * rod_mm + control.flex_mm_per_n * load.force_n
    residuals.append(abs(pedal_mm - push.pedal_mm) / max(pedal_mm, 1.0))
    return max(residuals)


def check(control: Control, air_ml: dict[str, list[float]], load, is_pumped: bool, push) -> float:
    residual = largest_residual(control, air_ml, load, is_pumped, push)
    if not residual < MOST_RESIDUAL:
        raise NotBalanced(f"residual {residual:.3g} for {load}, pumped {is_pumped}, air {air_ml}: {push}")
    return residual
