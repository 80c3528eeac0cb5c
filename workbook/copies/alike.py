"""Cells that are one: 64 °F is 18 °C to a person who types whole degrees, and a formula that was pointed anew is itself."""

from collections.abc import Iterable, Mapping

from workbook.copies.identity import ADDED, TYPED, Plain, Rows, Spot
from workbook.tables.columns import Typed
from workbook.tables.units import Twin, twin

# More decimals than people type: what a conversion left behind, of which a cell shows as many as its format.
MOST_TYPED = 4
OTHER = "us"  # the one system besides the base units


def alike(one: tuple[float, str], other: tuple[float, str], typed: Typed) -> bool:
    """Whether two base values, each typed in a unit system, are one value as far as both are written.

    Each is told in the other's unit and rounded to the decimals that stand there. So a degree that somebody typed over
    another is an edit, while 18 °C and the 64 °F of a person who rounds are none. Within one system all that is typed
    counts; only what a conversion left behind is rounded to what its cell shows.
    """
    unit = twin(typed.unit, OTHER, bought=typed.look.bought)
    if unit is None:
        return one == other
    if one[1] == other[1] and all(_decimals(*side, unit) <= MOST_TYPED for side in (one, other)):
        return one[0] == other[0]
    return all(_rounds_to(a, b[0], typed, unit) for a, b in ((one, other), (other, one)))


def _shown(value: float, system: str, unit: Twin) -> float:
    return unit.shown(value) if system == OTHER else float(f"{value:.12g}")


def _decimals(value: float, system: str, unit: Twin) -> int:
    return len(f"{_shown(value, system, unit):.6f}".rstrip("0").partition(".")[2])


def _rounds_to(stands: tuple[float, str], value: float, typed: Typed, unit: Twin) -> bool:
    """Whether a value looks like the one that stands in a cell, told in its unit with its decimals."""
    decimals = _decimals(*stands, unit)
    if decimals > MOST_TYPED:
        decimals = len(typed.look.show.partition(".")[2])
    here = round(_shown(*stands, unit), decimals)
    return abs(_shown(value, stands[1], unit) - here) <= 0.5 * 10.0**-decimals * (1 + 1e-9)


def level(ours: Rows, theirs: Rows, pairs: Iterable[tuple[int, int]]) -> None:
    """Let cells of their rows compare as ours do where both are one value, or one formula: then nothing was typed there."""
    columns = _converting(theirs)
    for i, j in pairs:
        mine, yours = ours.plain[i], theirs.plain[j]
        if mine == yours:
            continue
        meant = ours.entries[i].meant
        for header, meaning in theirs.entries[j].meant.items():
            spot = Spot(ADDED, header)
            if meant.get(header) == meaning and spot in mine and spot in yours:
                yours[spot] = mine[spot]
        for spot, typed in columns.items():
            if spot in mine and spot in yours and same((mine[spot], ours.system), (yours[spot], theirs.system), typed):
                yours[spot] = mine[spot]


def level_versions(system: str, rows: Mapping[str, Rows], versions: Iterable[tuple[str, int]]) -> None:
    """The same of rows that several copies hold: those of another unit system compare as those of this one do."""
    versions = list(versions)
    if len({rows[name].system for name, _ in versions}) < 2:
        return
    native = [rows[name].plain[j] for name, j in versions if rows[name].system == system]
    for name, j in versions:
        there = rows[name]
        for spot, typed in _converting(there).items() if there.system != system else ():
            held = there.plain[j].get(spot)
            if held is None:
                continue
            here = (row[spot] for row in native if spot in row)
            near = {plain for plain in here if same((plain, system), (held, there.system), typed)}
            if near:
                there.plain[j][spot] = min(near, key=lambda plain: (abs(float(plain[1]) - float(held[1])), plain))


def _converting(rows: Rows) -> dict[Spot, Typed]:
    return {Spot(TYPED, key): c for key, c in rows.typed.items() if twin(c.unit, OTHER, bought=c.look.bought)}


def same(one: tuple[Plain, str], other: tuple[Plain, str], typed: Typed) -> bool:
    """Whether two cells, as they compare and each of a unit system, hold one value."""
    if one[0] == other[0] or {one[0][0], other[0][0]} != {"number"}:
        return one[0] == other[0]
    numbers = [(float(plain[1]), system) for plain, system in (one, other)]
    return alike(numbers[0], numbers[1], typed)
