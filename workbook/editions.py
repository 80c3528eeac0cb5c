"""Editions: which sheets a workbook has, in which order, and what their given rows hold."""

import functools
from collections import Counter
from collections.abc import Container
from dataclasses import dataclass, replace

from workbook.sheets import (
    breeding,
    buyer,
    candidates,
    cards,
    care_card,
    changes,
    comfort,
    compatibility,
    conflicts,
    constants,
    dosing,
    feeding,
    foods,
    guidance,
    known,
    labels,
    ledger,
    live_food,
    livestock,
    log,
    maintenance,
    order,
    overlap,
    plan,
    power,
    proposals,
    room,
    room_left,
    shop_livestock,
    sources,
    species,
    stock,
    stocking,
    suppliers,
    takings,
    tank_page,
    tankmates,
    tanks,
    thinking,
    waters,
    week,
)
from workbook.sheets import club as club_tables
from workbook.sheets.attention import attention_sheet
from workbook.sheets.first_steps import CLUB_STEPS, KEEPER_STEPS, SHOP_STEPS
from workbook.sheets.shop_start import PURPOSE, SHOP_COUNTS, SHOP_SETTINGS
from workbook.sheets.start import start_sheet
from workbook.tables.formula import REGISTRY
from workbook.tables.kinds import Value
from workbook.tables.sheet import Sheet, in_order
from workbook.tables.table import Table

# Since 2 lists are reckoned on sheets of their own; what people type is found by the same names, so no step is needed.
# Since 3 details of one tank follow the page about it. Since 4 a shop's stock follows from its ledger, too.
SCHEMA = 4
Rows = list[dict[str, Value]]
DRAWN = 3  # readings that make a line


@dataclass(frozen=True)
class Edition:
    """Its sheets, and the rows that do not come from a person.

    more: shared files whose rows come below those of a table's own file.
    """

    name: str
    sheets: tuple[Sheet, ...]
    given: dict[str, Rows]
    more: tuple[tuple[str, str], ...] = ()

    @property
    def tables(self) -> tuple[Table, ...]:
        """Every table, in the order of the sheets."""
        return tuple(table for sheet in self.sheets for table in sheet.tables)


# What only some editions reckon with, by module.
SHOP_EQUATIONS = frozenset({"trade"})


def _equations(without: frozenset[str] = frozenset()) -> Rows:
    rows: Rows = []
    for name, equation in sorted(REGISTRY.items()):
        if equation.module in without:
            continue
        operands = "\n".join(f"{key} [{unit}]: {says}" for key, unit, says in equation.operands)
        source = "; ".join(f"{key} {where}".strip() for key, where in equation.sources)
        rows.append(
            {
                "equation": name,
                "summary": equation.summary,
                "form": equation.form,
                "operands": operands,
                "equation_source": source,
            }
        )
    return rows


# What every edition has behind its other sheets: how it is reckoned, and what stands elsewhere in short.
THOUGHTS_AND_DETAILS = (
    thinking.SHEET,
    sources.SHEET,
    stocking.SHEET,
    overlap.SHEET,
    tankmates.SHEET,
    comfort.SHEET,
    feeding.TANKS_SHEET,
    live_food.TANKS_SHEET,
    dosing.TANKS_SHEET,
)


@functools.cache
def keeper() -> Edition:
    """The workbook of a keeper with a room of tanks."""
    inputs_and_answers = in_order(
        (
            room.SHEET,
            tank_page.SHEET,
            changes.SHEET,
            log.SHEET,
            maintenance.SHEET,
            known.SHEET,
            livestock.SHEET,
            tanks.SHEET,
            waters.SHEET,
            species.SHEET,
            feeding.SHEET,
            foods.SHEET,
            live_food.SHEET,
            breeding.SHEET,
            candidates.SHEET,
            plan.SHEET,
            week.SHEET,
            cards.SHEET,
            care_card.SHEET,
            power.SHEET,
            dosing.SHEET,
            maintenance.LIST_SHEET,
            constants.SHEET,
            *THOUGHTS_AND_DETAILS,
            plan.DETAIL_SHEET,
            candidates.ALL_SHEET,
        )
    )
    attention, behind, table_rows, area_rows = attention_sheet(inputs_and_answers)
    start = start_sheet((attention, *inputs_and_answers))
    return Edition(
        "keeper",
        (start, attention, *inputs_and_answers, behind),
        {
            "flag_tables": table_rows,
            "flag_areas": area_rows,
            "equations": _equations(without=SHOP_EQUATIONS),
            "chain": thinking.ROWS,
        },
    )


@functools.cache
def shop() -> Edition:
    """The workbook of a shop: its animals and goods are lines of one stock list."""
    others = in_order(
        (
            room.SHEET,
            tank_page.SHEET,
            changes.SHEET,
            room_left.SHEET,
            room_left.BY_LINE,
            takings.SHEET,
            stock.SHEET,
            ledger.SHEET,
            suppliers.SHEET,
            log.SHEET,
            maintenance.SHEET,
            known.SHEET,
            tanks.SHEET,
            waters.SHEET,
            species.SHEET,
            feeding.SHEET,
            foods.SHEET,
            live_food.SHEET,
            breeding.SHEET,
            buyer.SHEET,
            order.SHEET,
            labels.SHEET,
            *labels.SHEETS,
            week.SHEET,
            cards.SHEET,
            care_card.SHEET,
            power.SHEET,
            dosing.SHEET,
            maintenance.LIST_SHEET,
            constants.SHEET,
            *THOUGHTS_AND_DETAILS,
            shop_livestock.SHEET,
        )
    )
    attention, behind, table_rows, area_rows = attention_sheet(others, SHOP_STEPS)
    start = start_sheet((attention, *others), SHOP_SETTINGS, SHOP_COUNTS, PURPOSE, SHOP_STEPS)
    return Edition(
        "shop",
        (start, attention, *others, behind),
        {
            "flag_tables": table_rows,
            "flag_areas": area_rows,
            "equations": _equations(),
            "chain": thinking.ROWS,
        },
        more=(("constants", "shop_constants"),),
    )


@functools.cache
def club() -> Edition:
    """The workbook that a club hands to its members: a keeper's, its library locked, room for what they know better."""
    others = in_order(
        (
            guidance.SHEET,
            room.SHEET,
            tank_page.SHEET,
            changes.SHEET,
            log.SHEET,
            maintenance.SHEET,
            known.SHEET,
            livestock.SHEET,
            tanks.SHEET,
            waters.SHEET,
            club_tables.SPECIES_SHEET,
            feeding.SHEET,
            club_tables.FOODS_SHEET,
            live_food.SHEET,
            breeding.SHEET,
            proposals.SHEET,
            candidates.SHEET,
            compatibility.SHEET,
            week.SHEET,
            cards.SHEET,
            care_card.SHEET,
            power.SHEET,
            dosing.SHEET,
            club_tables.TASKS_SHEET,
            club_tables.CONSTANTS_SHEET,
            *THOUGHTS_AND_DETAILS,
            candidates.ALL_SHEET,
        )
    )
    attention, behind, table_rows, area_rows = attention_sheet(others, CLUB_STEPS)
    start = start_sheet(
        (attention, *others), club_tables.CLUB_SETTINGS, club_tables.CLUB_COUNTS, club_tables.PURPOSE, CLUB_STEPS
    )
    return Edition(
        "club",
        (start, attention, *others, behind),
        {
            "flag_tables": table_rows,
            "flag_areas": area_rows,
            "equations": _equations(without=SHOP_EQUATIONS),
            "chain": thinking.ROWS,
            "guidance": guidance.ROWS,
        },
    )


STEPS = {"keeper": KEEPER_STEPS, "shop": SHOP_STEPS, "club": CLUB_STEPS}
EDITIONS = {"keeper": keeper, "shop": shop, "club": club}


def _housed(records: dict[str, Rows]) -> Rows:
    """The rows that say which animals live where: a shop's stand on its stock list."""
    return records["livestock"] if "livestock" in records else [row for row in records["stock"] if "species" in row]


def edition_for(name: str, tables: Container[str]) -> Edition:
    """The edition that holds these tables."""
    return with_conflicts(name) if conflicts.CONFLICTS.key in tables else EDITIONS[name]()


@functools.cache
def with_conflicts(name: str) -> Edition:
    """The edition as it is while a merged workbook has something to decide."""
    found = EDITIONS[name]()
    others = (conflicts.SHEET, *found.sheets[2:-1])
    steps = (conflicts.DECIDE, *STEPS[name])
    attention, behind, table_rows, area_rows = attention_sheet(others, steps)
    settings, counts = (t for t in found.sheets[0].forms if t.key in {"settings", "counts"})
    start = start_sheet((attention, *others), settings, counts, found.sheets[0].purpose, steps)
    return replace(
        found,
        sheets=(start, attention, *others, behind),
        given=found.given | {"flag_tables": table_rows, "flag_areas": area_rows},
    )


def _kinds(records: dict[str, Rows]) -> Counter[str]:
    """How many groups there are of each species."""
    return Counter(str(row["species"]) for row in _housed(records) if "species" in row)


def _most_kept(records: dict[str, Rows]) -> str:
    """The species of most groups."""
    kinds = _kinds(records)
    return kinds.most_common(1)[0][0] if kinds else ""


def first_choices(edition: Edition, records: dict[str, Rows]) -> dict[str, Rows]:
    """What the dropdowns of the answer sheets start with: the tank with the most groups of animals is in view."""
    groups = Counter(str(row["tank"]) for row in _housed(records) if "tank" in row)
    read = Counter(str(row["tank"]) for row in records.get("log", []) if "tank" in row)
    # A tank of which there is something to draw, where there is one.
    tank = max(groups, key=lambda name: (read[name] >= DRAWN, groups[name]), default=None)
    found: dict[str, Rows] = {
        "view": [{"tank": tank}] if tank else [{}],
        **{f"{sheet}_choice": [{}] for sheet in ("stocking", "path", "candidates", "card", "chain")},
        **{f"{sheet}_offer": [{}] for sheet in ("livestock", "breeding", "log", "stock", "plan")},
        "log_choice": [{"parameter": "Nitrate"}],
        "compared": [{"species": kind} for kind, _ in _kinds(records).most_common(compatibility.LISTED)],
        "care_choice": [{"species": kind}] if (kind := _most_kept(records)) else [{}],
        "outage": [{}],
        "label_choice": [dict.fromkeys((key for key, *_ in labels.FIELDS), "yes")],
    }
    known = {table.key for table in edition.tables}
    return {key: rows for key, rows in found.items() if key in known}
