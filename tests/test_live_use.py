"""A person changes something: what follows from it moves, in two programs alike, and nothing else does."""

import dataclasses
import datetime
import re
from collections.abc import Iterable, Mapping, Set
from pathlib import Path

import ironcalc
import pytest
from openpyxl.utils import get_column_letter

from tests import books, office, short, small_room
from tests.effort import also
from workbook.build import Built, Plan, compute, save
from workbook.editions import EDITIONS
from workbook.files.xlsx_writing import About, write

EPOCH = datetime.date(1899, 12, 30)
FORMULA = re.compile(r"<f(?: [^>/]*)?>[^<]*</f>")
WORD = re.compile(r"(?<![\w.$!])[a-z][a-z0-9_]+\b(?!\()")
TABLES = {table.key: table for table in EDITIONS["keeper"]().tables}
LONGEST_FIRST = sorted(TABLES, key=len, reverse=True)


def is_by_tank(table: str) -> bool:
    """Whether each row is about one tank."""
    return (
        TABLES[table].rows_of == "tanks"
        or table == "tanks"
        or (TABLES[table].is_list and any(c.key == "tank" for c in TABLES[table].typed))
    )


def gathers(table: str) -> bool:
    """Whether it picks, ranks or sums up what stands elsewhere: the plan takes its tanks and groups from everywhere."""
    return (
        table in {"roll", "candidates", "known"}
        or table.startswith("plan_")
        or bool(TABLES[table].lines or TABLES[table].form or TABLES[table].given)
    )


# How many tanks ask for action so far, and where each tank's worst flag stands on Attention.
GO_ON = {("open_flags", column) for column in ("asking", "asking_names", "worst_line")} | {
    ("open_tanks", "first"),
    ("breeding", "room_why"),
}
# Running lists, from which one line for the whole room is told.
RUN_ON = {"late_tasks", "late_broods", "rearing", "cold_changes", "foods_wanted", "coarse_foods", "unlike"}


class Book:
    """A file that was built: its cells by defined name."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.areas = {name: area for name, area in office.areas(path).items() if area[2] == area[4]}
        self.values, self.formulas = office.values(path), office.formulas(path)
        self.lines = {tank: i for i, tank in enumerate(self.column("tanks_tank")) if tank}
        self.names = {at: name for name, area in self.areas.items() for at in office.cells_of(area)}

    def at(self, name: str, row: int = 0) -> office.At:
        """The cell of a column in a row of its table."""
        sheet, top, left, bottom, _ = self.areas[name]
        assert top + row <= bottom, f"{name} has no row {row}"
        return sheet, top + row, left

    def column(self, name: str, values: office.Cells | None = None) -> list[office.Value]:
        """Every row of a column."""
        return [(values or self.values).get(at, "") for at in office.cells_of(self.areas[name])]

    def row(self, **wanted: str) -> int:
        """The first row in which the columns hold these; "" for the first ready row."""
        rows = zip(*(self.column(name) for name in wanted), strict=True)
        return next(i for i, row in enumerate(rows) if row == tuple(wanted.values()))

    def tank_of(self, table: str, row: int) -> int:
        """The row of the tank that a row is about; -1 where none is named yet."""
        if table == "tanks" or TABLES[table].rows_of:
            return row
        tank = self.values.get(self.at(f"{table}_tank", row), "")
        return self.lines.get(tank, -1) if tank else -1

    def place(self, at: office.At) -> tuple[str, str, int]:
        """Table, column and row of a cell that has a name, or stands just above a named column."""
        sheet, row, column = at
        name = self.names.get(at) or self.names[sheet, row + 1, column]
        table = (
            next(key for key in LONGEST_FIRST if name.startswith(f"{key}_"))
            if not name.startswith("const_")
            else "constants"
        )
        return table, name.removeprefix(f"{table}_"), row - self.areas[name][1]


@dataclasses.dataclass(frozen=True)
class Edit:
    """What a person types, what must move, and what must not.

    moves: cells that must move. rows: what the edit is about; in tables by tank only the rows of its tanks may move, in other
    lists only the rows given, and tables that gather from everywhere may move. still: tables that don't move at all, but for
    a column that is named in `but`.
    """

    typed: tuple[tuple[str, int, office.Value | datetime.date], ...]
    moves: tuple[tuple[str, int], ...] = ()
    rows: Mapping[str, Set[int]] = dataclasses.field(default_factory=dict)
    still: Set[str] = frozenset()
    but: Set[str] = frozenset()

    def cells(self, book: Book) -> office.Cells:
        """The typed values by cell."""
        return {
            book.at(name, row): (value - EPOCH).days if isinstance(value, datetime.date) else value
            for name, row, value in self.typed
        }

    def allows(self, book: Book, table: str, column: str, row: int) -> bool:
        """Whether a cell may move. Running counts go on in the rows below."""
        if f"{table}.{column}" in self.but:
            return True
        if table in self.still:
            return False
        if (
            column.startswith("run_")
            or column.removesuffix("_count") in RUN_ON
            or gathers(table)
            or (table, column) in GO_ON
        ):
            return True
        return (book.tank_of(table, row) if is_by_tank(table) else row) in self.rows.get(
            "tanks" if is_by_tank(table) else table, ()
        )


def moving(rows: int | Iterable[int], *names: str) -> tuple[tuple[str, int], ...]:
    """Columns that must move in these rows."""
    return tuple((name, row) for name in names for row in ([rows] if isinstance(rows, int) else rows))


def rows_where(book: Book, name: str, value: str) -> set[int]:
    """The rows in which a column holds a value."""
    return {i for i, found in enumerate(book.column(name)) if found == value}


# --- what a person does ---

CALENDAR = {"maintenance", "week", "week_days", "week_summary", "settings"}
WATER = {"overlap", "overlap_detail", "overlap_bars"}
LOAD = {"stocking", "company", "feeding", "feeding_tanks", "foods"}
LIBRARY = {
    "waters",
    "constants",
    "body_forms",
    "heater_sizes",
    "checks",
    "check_summary",
    "check_values",
    "equations",
    "references",
}


def a_count(book: Book) -> Edit:
    tank, row = "Long wall", book.row(livestock_tank="Long wall", livestock_species="Bronze corydoras")
    line, species, meals = (
        book.row(tanks_tank=tank),
        book.row(species_species="Bronze corydoras"),
        rows_where(book, "feeding_tank", tank),
    )
    foods = {book.row(foods_food=book.column("feeding_food")[i]) for i in meals}
    return Edit(
        typed=(("livestock_animals", row, 31),),
        moves=(
            *moving(row, "livestock_mass_g", "livestock_oxygen_draw_mg_per_h", "livestock_food_g_per_day", "livestock_nitrogen_g_per_day"),
            *moving(line, "stocking_animals", "stocking_mass_g", "stocking_nitrogen_share", "stocking_oxygen_share", "stocking_bottom_share", "stocking_nitrate_peak_mg_per_l"),
            *moving(line, "feeding_tanks_ration_g_per_day", "feeding_tanks_grams_day_g_per_day", "week_tanks_grams_day_g_per_day"),
            *moving(meals, "feeding_grams_meal_g"), *moving(foods, "foods_daily_use_g_per_day", "foods_days_left_day"),
            *moving(species, "species_kept"), *moving(0, "counts_animals"),
        ),
        rows={"tanks": {line}, "species": {species}, "foods": foods},
        still=CALENDAR | WATER | LIBRARY | {"tanks"}, but={"tanks.animals"},
    )  # fmt: skip


def an_own_range(book: Book) -> Edit:
    row, line = book.row(species_species="Cherry barb"), book.row(tanks_tank="Stair niche")
    groups = rows_where(book, "livestock_species", "Cherry barb")
    return Edit(
        typed=(("species_own_temperature_low_degc", row, 18), ("species_own_temperature_high_degc", row, 20), ("species_counts", row, "own")),
        moves=(
            *moving(row, "species_used_temperature_low_degc", "species_used_temperature_high_degc", "species_counts_used", "species_beyond", "species_oxygen_mg_per_h"),
            *moving(groups, "livestock_temperature_high_degc", "livestock_water_verdict"),
            *moving(line, "overlap_temperature_high_degc", "overlap_detail_temperature_high_by", "overlap_detail_temperature_width_k", "overlap_attention"),
        ),
        rows={"tanks": {line}, "species": {row}},
        still=CALENDAR | LOAD | LIBRARY | {"tanks"},
    )  # fmt: skip


def a_dimension(book: Book) -> Edit:
    line, groups = book.row(tanks_tank="Study window"), rows_where(book, "livestock_tank", "Study window")
    return Edit(
        typed=(("tanks_length_cm", line, 100),),
        moves=(
            *moving(line, "tanks_gross_volume_l", "tanks_net_volume_l", "tanks_swim_length_cm", "tanks_filled_mass_kg", "tanks_floor_load_kg_per_m2", "tanks_turnover_per_h"),
            *moving(line, "tanks_heat_loss_w", "tanks_daily_energy_kwh", "stocking_density_g_per_l", "stocking_swim_share", "stocking_nitrogen_share", "week_tanks_litres_l"),
            *moving(groups, "livestock_net_volume_l", "livestock_swim_length_cm"),
        ),
        rows={"tanks": {line}},
        still=CALENDAR | WATER | LIBRARY | {"species", "company", "foods", "feeding", "feeding_tanks"}, but={"week.supplies"},
    )  # fmt: skip


def a_temperature(book: Book) -> Edit:
    tank = "Livebearer bench"
    line, groups, meals = (
        book.row(tanks_tank=tank),
        rows_where(book, "livestock_tank", tank),
        rows_where(book, "feeding_tank", tank),
    )
    foods = {book.row(foods_food=book.column("feeding_food")[i]) for i in meals}
    return Edit(
        typed=(("tanks_temperature_degc", line, 29),),
        moves=(
            *moving(line, "tanks_heat_loss_w", "tanks_daily_energy_kwh", "overlap_temperature_degc", "overlap_detail_temperature_lies", "overlap_attention"),
            *moving(line, "stocking_oxygen_draw_mg_per_h", "stocking_saturation_mg_per_l", "stocking_reserve_h", "feeding_tanks_ration_g_per_day"),
            *moving(groups, "livestock_oxygen_draw_mg_per_h", "livestock_food_g_per_day", "livestock_tank_temperature_degc"),
            *moving(meals, "feeding_grams_meal_g"), *moving(foods, "foods_daily_use_g_per_day"),
        ),
        rows={"tanks": {line}, "foods": foods},
        still=CALENDAR | LIBRARY | {"species", "company"},
    )  # fmt: skip


def the_rooms_range(book: Book) -> Edit:
    row, groups = (
        book.row(species_species="Bristlenose pleco"),
        rows_where(book, "livestock_species", "Bristlenose pleco"),
    )
    return Edit(
        typed=(("settings_range_choice", 0, "own"),),
        moves=(
            *moving(
                row,
                "species_counts_used",
                "species_used_temperature_low_degc",
                "species_used_ph_low",
                "species_used_gh_high_degh",
            ),
            *moving(groups, "livestock_temperature_low_degc"),
        ),
        rows={
            "tanks": {book.row(tanks_tank=book.column("livestock_tank")[i]) for i in groups},
            "species": rows_where(book, "species_counts", ""),
        },
        still=CALENDAR | LOAD | LIBRARY | {"tanks"},
    )


def the_plan_date(book: Book) -> Edit:
    """Young animals have grown until then, and eat more; all else of the load stays."""
    task, food = (
        book.row(maintenance_task="Change water", maintenance_tank="Rack B1"),
        book.row(foods_food="Soft granules"),
    )
    line, group = (
        book.row(tanks_tank="Hall corner"),
        book.row(livestock_tank="Hall corner", livestock_species="Bristlenose pleco"),
    )
    return Edit(
        typed=(("settings_plan_date_typed", 0, datetime.date(2026, 11, 5)),),
        moves=(
            *moving(0, "settings_plan_date", "week_summary_due"), *moving(task, "maintenance_days_late_day", "maintenance_state"),
            *moving(food, "foods_order_by"), *moving(line, "company_in_quarantine"), *moving(group, "livestock_waiting", "livestock_attention"),
            *moving(range(7), "week_days_name"),
        ),
        rows={"tanks": {-1, *range(len(book.column("tanks_tank")))}, "foods": set(range(len(book.column("foods_food")))), "hatching": {0, 1}, "feeds": {0, 1, 2}},
        still=WATER | LIBRARY | {"species", "tanks"},
    )  # fmt: skip


def a_stock(book: Book) -> Edit:
    row = book.row(foods_food="Soft granules")
    return Edit(
        typed=(("foods_stock_g", row, 4),),
        moves=moving(row, "foods_days_left_day", "foods_order_by", "foods_attention"),
        rows={"foods": {row}},
        still=CALENDAR | WATER | LIBRARY | {"fullest", "chosen_measures"},
    )


def a_constant(book: Book) -> Edit:
    row = book.row(constants_key="oxygen_stop")
    lines = {i for i, reserve in enumerate(book.column("stocking_reserve_h")) if reserve != ""}
    return Edit(
        typed=(("constants_value", row, 4.5),),
        moves=moving(lines, "stocking_reserve_h", "stocking_oxygen_share"),
        rows={"tanks": lines, "constants": {row}},
        still=CALENDAR
        | WATER
        | {"species", "tanks", "livestock", "company", "feeding", "feeding_tanks", "foods", "week_tanks", "waters"},
    )


def the_tank_on_its_page(book: Book) -> Edit:
    """Pairs and bars of other sheets follow the page."""
    details = {"mates", "pairs", "reasons", "mates_choice", "overlap_bars", "overlap_choice"}
    return Edit(
        typed=(("card_choice_tank", 0, "Stair niche"),),
        moves=(
            *moving(0, "tank_card_row", "tank_card_net_volume_l", "tank_card_head_said", "tank_card_head_about", "tank_card_residents_species", "tank_card_foods_food",
                    "tank_card_tasks_found", "tank_chart_said", "tank_nitrate_read_mg_per_l", "tank_nitrate_reckoned_mg_per_l", "tank_pairs_told"),
            *moving(range(2), "tank_card_facts_said", "tank_water_temperature"), *moving(range(2), "tank_card_routine_said"),
            *moving(range(3), "tank_card_flags_shown"), *moving((0, 4), "tank_full_told"), *moving((0, 6), "tank_read_told"),
            *moving(range(4), "mates_name", "mates_fine_with"), *moving(0, "mates_choice_shown", "mates_choice_found", "pairs_pair", "reasons_why"),
            *moving(range(2, 6), "overlap_bars_bar"), *moving(0, "overlap_bars_chosen_row", "overlap_bars_temperature_from_degc", "overlap_bars_ph_to"),
        ),
        still={key for key in TABLES if not key.startswith(("tank_", "card_choice"))} - details,
        but={"livestock.in_overlap", *(f"doses.{key}{end}" for key in ("for_change", "for_all") for end in ("", "_shown")), "doses.all_amount", "doses.change_amount"},
    )  # fmt: skip


def the_species_on_the_card(book: Book) -> Edit:
    return Edit(
        typed=(("care_choice_species", 0, "Cardinal tetra"),),
        moves=(
            *moving(0, "care_card_row", "care_card_adult_length_cm", "care_card_head_said", "care_card_kept_tank", "care_card_company_shown", "care_card_breeding_said"),
            *moving(range(4), "care_card_animal_said"), *moving(range(3), "care_card_ranges_said"), *moving((2, 3), "care_card_ranges_drawn"),
        ),
        still={key for key in TABLES if not key.startswith("care_card")},
    )  # fmt: skip


def a_new_group(book: Book) -> Edit:
    row, line, species = (
        book.row(livestock_tank=""),
        book.row(tanks_tank="Rack B2"),
        book.row(species_species="Neon tetra"),
    )
    return Edit(
        typed=(("livestock_tank", row, "Rack B2"), ("livestock_species", row, "Neon tetra"), ("livestock_animals", row, 9)),
        moves=(
            *moving(row, "livestock_mass_g", "livestock_food_g_per_day", "livestock_temperature_low_degc", "livestock_water_verdict"),
            *moving(line, "company_residents", "overlap_residents", "overlap_temperature_low_degc", "overlap_detail_ph_high_by", "stocking_binding", "stocking_mass_g"),
            *moving(line, "feeding_tanks_ration_g_per_day", "tanks_attention"), *moving(species, "species_kept"), *moving(0, "counts_animals", "counts_groups"),
        ),
        rows={"tanks": {line, -1}, "species": {species}},
        still=CALENDAR | LIBRARY | {"foods", "feeding"},
        but={f"breeding.{key}" for key in ("grow_animals", "grow_occupied", "said", "said_watch", "said_count", "attention", "attention_shown")}  # broods are to grow there
        | {f"{table}.{key}" for table in ("open_flags", "cards", "room") for key in ("open_watches", "open_all", "sign", "company")},
    )  # fmt: skip


def a_new_tank(book: Book) -> Edit:
    line, row, species = book.row(tanks_tank=""), book.row(livestock_tank=""), book.row(species_species="Neon tetra")
    typed = {
        "tank": "New shelf", "shape": "box", "measured": "outside", "length_cm": 80, "width_cm": 35, "height_cm": 40, "glass_cm": 0.6, "water_below_rim_cm": 3,
        "substrate_depth_cm": 4, "rock_kg": 2, "wood_kg": 0, "water": "Half and half", "temperature_degc": 23, "lid": "yes", "cycled": "yes",
        "change_share": 0.25, "change_interval_day": 7, "meals_per_day": 2, "fasting_days": 1,
    }  # fmt: skip
    return Edit(
        typed=(
            *((f"tanks_{key}", line, value) for key, value in typed.items()),
            ("livestock_tank", row, "New shelf"), ("livestock_species", row, "Neon tetra"), ("livestock_animals", row, 12),
        ),
        moves=(
            *moving(line, "tanks_net_volume_l", "tanks_filled_mass_kg", "tanks_heater_size_w", "stocking_tank", "stocking_binding", "stocking_nitrogen_share"),
            *moving(line, "overlap_tank", "overlap_temperature_low_degc", "overlap_ph_used", "feeding_tanks_ration_g_per_day", "week_tanks_litres_l"),
            *moving(row, "livestock_mass_g", "livestock_oxygen_draw_mg_per_h", "livestock_net_volume_l"), *moving(0, "counts_tanks", "counts_animals"),
        ),
        rows={"tanks": {line, -1}, "species": {species}},
        still=(CALENDAR - {"week", "week_days", "week_summary"}) | LIBRARY | {"foods", "feeding"},  # its water changes come by themselves
        # A name has its place among all names of the list.
        but={"tanks.in_order", "tanks.names_so_far", "tanks.sorted_row", "tanks.sorted_name"},
    )  # fmt: skip


def a_brood(book: Book) -> Edit:
    row, line, start = book.row(breeding_species=""), book.row(tanks_tank="Rack A2"), datetime.date(2026, 9, 28)
    return Edit(
        typed=(("breeding_species", row, "White cloud minnow"), ("breeding_tank", row, "Rack A2"), ("breeding_date", row, start), ("breeding_eggs", row, 400)),
        moves=(
            *moving(row, "breeding_hatch_on", "breeding_swim_on", "breeding_second_on", "breeding_first_food_is", "breeding_next_on", "breeding_next_do", "breeding_attention"),
            *moving(row, "breeding_sale_on", "breeding_raised", "breeding_litres_day_l", "breeding_nauplii_from", "breeding_jobs_said"),
            *moving(row, "brood_bars_bar", "brood_bars_eggs_day", "brood_bars_first_food_day"),
            *moving(0, "week_summary_due"), *moving(28, "nauplii_days_fry_per_day"),
        ),
        rows={"tanks": {line, -1}},
        still=WATER | LIBRARY | LOAD | {"species", "tanks", "livestock", "changes", "maintenance", "hatching", "feeds", "live_tanks"},
    )  # fmt: skip


def a_warm_brood(book: Book) -> Edit:
    """Warmer water hurries a brood, and nothing but what hangs on its days."""
    row, line = book.row(breeding_species="Yellow lab cichlid"), book.row(tanks_tank="Rack B1")
    return Edit(
        typed=(("breeding_water_temperature_degc", row, 28),),
        moves=moving(row, "breeding_pace", "breeding_hatch_on", "breeding_swim_on", "breeding_adults_on", "breeding_second_on", "breeding_sale_on", "breeding_nauplii_from"),
        rows={"tanks": {line}},
        still=WATER | LIBRARY | LOAD | {"species", "tanks", "livestock", "changes", "maintenance", "hatching", "feeds", "live_tanks", "live_summary"},
    )  # fmt: skip


def adults_out(book: Book) -> Edit:
    """The flag that the brood will be eaten goes, and so does the step."""
    row, line = book.row(breeding_species="Angelfish"), book.row(tanks_tank="Landing bow")
    return Edit(
        typed=(("breeding_adults_out", row, "yes"),),
        moves=(*moving(row, "breeding_out", "breeding_eggs_at_risk", "breeding_next_on", "breeding_next_do"), *moving(0, "attention_summary_act", "week_summary_due")),
        rows={"tanks": {line}},
        still=WATER | LIBRARY | LOAD | {"species", "tanks", "livestock", "changes", "maintenance", "hatching", "feeds", "live_tanks", "live_summary", "nauplii_days"},
    )  # fmt: skip


def a_later_feed(book: Book) -> Edit:
    """Too late for the morning's nauplii: it gets a hatch of its own, from which the evening is fed as well."""
    row, first = book.row(feeds_feed="Midday"), book.row(feeds_feed="Morning")
    return Edit(
        typed=(("feeds_hour_h", row, 14),),
        moves=(
            *moving(row, "feeds_joins", "feeds_age_h", "feeds_energy_left", "feeds_cysts_to_set_g", "feeds_water_l", "feeds_start_hour_h", "feeds_job"),
            *moving(first, "feeds_cysts_to_set_g", "feeds_salt_g", "feeds_slack_h", "feeds_start_from_h"), *moving(2, "feeds_joins", "feeds_age_h", "feeds_cysts_to_set_g"),
        ),
        rows={"feeds": {0, 1, 2}, "hatching": {0}},
        still=WATER | LIBRARY | LOAD | {"species", "tanks", "livestock", "changes", "maintenance", "breeding", "live_tanks", "nauplii_days"},
    )  # fmt: skip


def a_counted_want(book: Book) -> Edit:
    """What a keeper counts takes the place of the plan."""
    row, line = book.row(live_wants_tank=""), book.row(tanks_tank="Rack A1")
    return Edit(
        typed=(("live_wants_tank", row, "Rack A1"), ("live_wants_nauplii_per_day", row, 150_000)),
        moves=(
            *moving(line, "live_tanks_wanted_per_day", "live_tanks_each_feed"), *moving(0, "live_summary_tanks_per_day", "live_summary_cysts_g_per_day"),
            *moving(range(3), "feeds_nauplii"), *moving(0, "hatching_cysts_day_g_per_day", "hatching_days_left_day", "hatching_order_by"), *moving(28, "nauplii_days_total_per_day"),
        ),
        rows={"tanks": {line, -1}, "feeds": {0, 1, 2}, "hatching": {0}},
        still=WATER | LIBRARY | LOAD | {"species", "tanks", "livestock", "changes", "maintenance", "breeding"},
    )  # fmt: skip


def a_tank_for_candidates(book: Book) -> Edit:
    """Another tank is asked about: the sheet Candidates moves, and nothing else."""
    kinds = range(len([kind for kind in book.column("species_species") if kind]))
    asked = TABLES.keys() & {
        "candidates",
        "candidates_asked",
        "candidates_choice",
        "candidates_stops",
        "sought",
        "residents",
        "best",
    }
    return Edit(
        typed=(("candidates_choice_tank", 0, "Study window"), ("candidates_choice_instead_of", 0, "Neon tetra")),
        moves=(*moving(0, "sought_row", "sought_wanted", "candidates_choice_about", "candidates_choice_told", "candidates_asked_about", "candidates_asked_wanted", "best_species", "best_likeness"), *moving(kinds, "candidates_breath_mg_per_h", "candidates_nitrogen_min")),
        still=TABLES.keys() - asked,
    )  # fmt: skip


# Of those that one more edit of the same sheets stands for.
FURTHER = (the_rooms_range, a_constant, a_stock, a_warm_brood, adults_out, a_later_feed)
EDITS = {
    make.__name__: make
    for make in (a_count, an_own_range, a_dimension, a_temperature, the_rooms_range, the_plan_date, a_stock, a_constant, a_tank_for_candidates, the_tank_on_its_page, the_species_on_the_card, a_new_group, a_new_tank,
                 a_brood, a_warm_brood, adults_out, a_later_feed, a_counted_want)
}  # fmt: skip


# --- two programs ---


class IronCalc:
    """The file open in IronCalc: type, read, put back."""

    def __init__(self, book: Book, path: Path) -> None:
        self.book, self.model = book, ironcalc.load_from_xlsx(str(path))
        self.sheets = {sheet["name"]: i for i, sheet in enumerate(self.model.get_worksheets_properties())}

    def _type(self, at: office.At, value: office.Value) -> None:
        sheet, row, column = at
        if value == "":
            self.model.clear_cell_contents(self.sheets[sheet], row, column)
        elif isinstance(value, str):
            self.model.update_cell_with_text(self.sheets[sheet], row, column, value)
        else:
            self.model.update_cell_with_number(self.sheets[sheet], row, column, value)

    def values(self) -> office.Cells:
        """Every formula cell."""
        self.model.evaluate()
        return {at: office.plain(self.model.get_cell_value(self.sheets[at[0]], *at[1:])) for at in self.book.formulas}

    def after(self, typed: office.Cells) -> office.Cells:
        """Every formula cell after something was typed."""
        for at, value in typed.items():
            self._type(at, value)
        found = self.values()
        for at in typed:
            self._type(at, self.book.values.get(at, ""))
        return found


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("live")


def made(path: Path, built: Built) -> Book:
    """What was built, as a file."""
    write(path, built.pages, built.values, built.placing, About(path.stem, {}))
    return Book(path)


@pytest.fixture(scope="module")
def demo() -> Book:
    """The demo with a few ready rows, the end of its log and the species it keeps: enough for an edit, quick to load."""
    edition = EDITIONS["keeper"]()
    plan = Plan(spare_rows=6, plan_date=books.DAY)

    def make(path: Path) -> None:
        with short.answers(*books.LONG_IN_ROOM, "nauplii_days", "breeding_jobs"):
            save(path, compute(edition, books.few("keeper"), plan), plan)

    return Book(books.shared("keeper-live.xlsx", make))


@pytest.fixture(scope="module")
def edits(demo: Book) -> dict[str, Edit]:
    return {name: make(demo) for name, make in EDITS.items()}


def together(demo: Book, edits: dict[str, Edit]) -> list[office.Cells]:
    """As many edits at once as type into different cells: few files for an office program to load."""
    sets: list[office.Cells] = []
    for edit in edits.values():
        cells = edit.cells(demo)
        apart = next((found for found in sets if found.keys().isdisjoint(cells)), None)
        if apart is None:
            sets.append(dict(cells))
        else:
            apart |= cells
    return sets


@pytest.fixture(scope="module")
def program(folder: Path, demo: Book) -> "IronCalc":
    """The demo open in IronCalc. Loading takes longest, so each edit is put back before the next."""
    return IronCalc(demo, addressed(demo, folder / "addressed.xlsx"))


def addressed(book: Book, out: Path, path: Path | None = None) -> Path:
    """A copy of it, or of an edited one, with addresses in the place of names: IronCalc looks a name up along a list at every use."""
    places = {name: "{}!${}${}".format(f"'{sheet}'", get_column_letter(left), top)
              + ("" if top == bottom else f":${get_column_letter(left)}${bottom}")
              for name, (sheet, top, left, bottom, _) in book.areas.items()}  # fmt: skip

    def without_names(formula: re.Match[str]) -> str:
        parts = formula[0].split('"')
        parts[::2] = [WORD.sub(lambda word: places.get(word[0], word[0]), part) for part in parts[::2]]
        return '"'.join(parts)

    return office.changed(path or book.path, out, lambda _, xml: FORMULA.sub(without_names, xml))


class Reckoned(dict[str, office.Cells]):
    """What IronCalc shows after an edit, reckoned when somebody asks for it."""

    def __init__(self, program: "IronCalc", edits: dict[str, Edit]) -> None:
        super().__init__()
        self.program, self.edits = program, edits

    def __missing__(self, name: str) -> office.Cells:
        self[name] = self.program.after(self.edits[name].cells(self.program.book))
        return self[name]


@pytest.fixture(scope="module")
def reckoned(edits: dict[str, Edit], program: "IronCalc") -> Reckoned:
    """Each edit typed into IronCalc."""
    return Reckoned(program, edits)


@pytest.fixture(scope="module")
def mended(folder: Path) -> tuple[Book, Path]:
    """The small room as it was built, and the copy in which everything is mended."""
    book = made(
        folder / "small.xlsx",
        compute(small_room.short_edition(), small_room.records(folder / "small"), Plan(spare_rows=6)),
    )
    return book, office.edited(book.path, folder / "mended.xlsx", Edit(small_room.MENDED).cells(book))


@pytest.fixture(scope="module")
def opened(mended: tuple[Book, Path], folder: Path) -> office.Cells:
    """What IronCalc reckons of the mended room when it opens it."""
    book, after = mended
    return IronCalc(book, addressed(book, folder / "opened.xlsx", after)).values()


@pytest.fixture(scope="module")
def sets(demo: Book, edits: dict[str, Edit]) -> list[office.Cells]:
    """What is typed into each copy that LibreOffice loads."""
    return together(demo, edits)


@pytest.fixture(scope="module")
def in_office(folder: Path, demo: Book, sets: list[office.Cells], mended: tuple[Book, Path]) -> list[office.Cells]:
    """Copies with the edits, and the mended room last, recalculated by LibreOffice in one call."""
    copies = [office.edited(demo.path, folder / f"edited {n}.xlsx", cells) for n, cells in enumerate(sets)]
    return office.recalculated([*copies, mended[1]], folder / "office")


# --- what must hold ---

NAMES = [name for name in EDITS if EDITS[name] not in FURTHER] + also(*(make.__name__ for make in FURTHER))


@pytest.mark.parametrize("name", NAMES)
def test_what_follows_moves(name: str, demo: Book, edits: dict, reckoned: dict) -> None:
    cells = {(column, row): demo.at(column, row) for column, row in edits[name].moves}
    still = [where for where, at in cells.items() if office.same(demo.values.get(at, ""), reckoned[name][at])]
    assert cells
    assert not still, f"did not move: {still}"


@pytest.mark.parametrize("name", NAMES)
def test_nothing_else_moves(name: str, demo: Book, edits: dict, reckoned: dict) -> None:
    moved = {demo.place(at) for at in demo.formulas if not office.same(demo.values.get(at, ""), reckoned[name][at])}
    strange = [where for where in moved if not edits[name].allows(demo, *where)]
    assert not strange, f"{len(strange)} cells moved too: {sorted(strange)[:20]}"


@pytest.mark.office
@pytest.mark.thorough  # in every run tests/test_engines.py and tests/test_gnumeric.py hold programs against each other
def test_both_programs_agree(demo: Book, program: "IronCalc", sets: list[office.Cells], in_office: list) -> None:
    for cells, shown in zip(sets, in_office, strict=False):
        found = office.differences(program.after(cells), shown, demo.formulas)
        assert not found, f"{len(found)} of {len(demo.formulas)} formula cells differ: {found[:10]}"


def test_opening_an_edited_file_is_as_good_as_typing(
    mended: tuple[Book, Path], opened: office.Cells, folder: Path
) -> None:
    """The file as edited, with the old values in its formula cells."""
    book, _ = mended
    typed = IronCalc(book, addressed(book, folder / "typed in.xlsx")).after(Edit(small_room.MENDED).cells(book))
    assert not office.differences(typed, opened, book.formulas)


def attention(book: Book, values: office.Cells) -> list[office.Value]:
    """What Attention lists."""
    return [said for said in book.column("attention_what", values) if said]


def test_a_mended_room_is_quiet(mended: tuple[Book, Path], opened: office.Cells) -> None:
    """Each flag can be put right; then every one of them is gone."""
    book, after = mended[0], opened
    assert book.column("attention_serious")[0] == "▲ Act"
    said = {
        name: [text for text in book.column(name, after) if text] for name in book.areas if name.endswith("_attention")
    }
    assert {name: texts for name, texts in said.items() if texts} == {}
    assert attention(book, after) == []
    assert after[book.at("counts_verdict")] == "nothing needs attention"


@pytest.mark.office
@pytest.mark.thorough
def test_a_mended_room_is_quiet_in_an_office_program_too(
    mended: tuple[Book, Path], opened: office.Cells, in_office: list
) -> None:
    assert not office.differences(opened, in_office[-1], mended[0].formulas)


def test_the_blank_set_is_quiet_and_says_where_to_begin(folder: Path) -> None:
    edition = EDITIONS["keeper"]()
    book = made(folder / "blank.xlsx", compute(edition, books.few("keeper", "blank"), Plan(spare_rows=6)))
    assert [at for at in book.formulas if str(book.values.get(at, "")).startswith("#")] == []
    assert attention(book, book.values) == []
    assert [book.values[book.at(f"attention_summary_{level}")] for level in ("act", "watch", "note")] == [0, 0, 0]
    assert str(book.values[book.at("counts_verdict")]).startswith("nothing")
    named = str(book.values[book.at("attention_summary_steps")]).split(", ")
    assert named[:3] == ["Waters", "Tanks", "Livestock"]
    assert {"Foods", "Feeding", "Maintenance"} < set(named) <= {at[0] for at in book.formulas}
