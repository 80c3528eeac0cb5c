"""The tank in view on its page, looked up once."""

from workbook.sheets.fullest import MEASURES
from workbook.sheets.growing import HORIZONS
from workbook.sheets.log import MEASURED_KEYS
from workbook.sheets.pages import COUNT, WORDS
from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.sheets.tank_bars import of_the_tank
from workbook.tables import Computed, Look, Pulled, Table, logic, row, text
from workbook.tables.formula import filled
from workbook.tables.idioms import row_of
from workbook.tables.template import column, here

PULLED = (
    "tank",
    "place",
    "shape",
    "length",
    "width",
    "height",
    "net_volume",
    "temperature",
    "water",
    "filled_mass",
    "filter_flow",
    "heater_size",
    "change_share",
    "change_interval",
    "meals",
    "fasting_days",
    "tank_note",
    "water_nitrate",
)

OF_OTHERS = (
    "company.residents",
    "company.run_end",
    "stocking.animals",
    "stocking.binding",
    "stocking.binding_share",
    *(f"stocking.binding_share_{horizon}" for horizon, _ in HORIZONS),
    *(f"stocking.{key}_share" for key, _ in MEASURES),
    "stocking.nitrate_interval",
    "changes.nitrate_now",
    "changes.nitrate_trough",
    "changes.rise_day",
    "readings.nitrate_row",
    "live_tanks.wanted",
    "stocking.reserve",
    "week_tanks.litres",
    "feeding_tanks.grams_day",
    "open_flags.all_lines",
    "next_change.next_change",
    "next_change.recipe",
)


def rows_before(places: str, row: str, room: str) -> str:
    """Formula text: how many rows stand before those of a row, where each place is that row times the room it takes."""
    return filled('COUNTIF({places},"<"&{row}*{room})', places=places, row=row, room=room)


def scale(p: Parameter, end: str) -> Computed:
    """One end of the scale: what any resident bears, widened to what the tank is kept at."""
    word, side, other, widest = ("from", "low", "high", "MIN") if end == "start" else ("to", "high", "low", "MAX")
    formula = p.logic(
        widest + "({of_residents},{kept},{other_end})",
        p.unit,
        needs=("*_low", "*_high"),
        of_residents=column("tank_card_residents", f"{p.key}_{side}"),
        other_end=here(f"{p.key}_{other}"),
    )
    return Computed(f"{p.key}_{end}", f"{p.label}: scale {word}", formula, look=Look(working=True, show=p.show))


IN_VIEW = Computed(
    "in_view",
    "Tank shown",
    logic('IF({card_choice.tank}="",{view.tank}&"",{card_choice.tank})', copes=True),
    kind=text(),
    look=WORDS,
)

TANK = Table(
    "tank_card",
    title="The chosen tank",
    form=True,
    row_name=("row",),
    purpose="",
    columns=(
        IN_VIEW,
        Computed("row", "Its row", row_of("{in_view}", "{tanks.tank[]}"), kind=row("tanks"), look=COUNT),
        *(Pulled(key_, via="row") for key_ in PULLED),
        *(Pulled(name.partition(".")[2], via="row", of=name) for name in OF_OTHERS),
        *(
            Pulled(f"{p.key}_{part}", via="row", of=f"overlap_detail.{p.key}_{part}")
            for p in PARAMETERS
            for part in ("low", "high", "low_by", "high_by")
        ),
        *(Pulled(f"{p.key}_used", via="row") for p in PARAMETERS[1:]),
        *(
            Pulled(f"read_{key_}{ours}", via="row", of=f"readings.{key_}{theirs}")
            for key_ in MEASURED_KEYS
            for ours, theirs in (("", ""), ("_on", "_date"))
        ),
        *(scale(p, end) for p in PARAMETERS for end in ("start", "end")),
        *(made for p in PARAMETERS for made in of_the_tank(p)),
        Computed(
            "foods_before",
            "Feeding rows of tanks above",
            logic(rows_before("{feeding.in_tank[]}", "{row}", "10^6"), "1"),
            look=COUNT,
        ),
        Computed(
            "foods",
            "Foods",
            logic(rows_before("{feeding.in_tank[]}", "({row}+1)", "10^6") + "-{foods_before}", "1"),
            look=COUNT,
        ),
        Computed(
            "tasks_before",
            "Tasks of tanks above",
            logic(rows_before("{maintenance.in_tank[]}", "{row}", "10^6*10^5"), "1"),
            look=COUNT,
        ),
        Computed(
            "tasks",
            "Tasks",
            logic(rows_before("{maintenance.in_tank[]}", "({row}+1)", "10^6*10^5") + "-{tasks_before}", "1"),
            look=COUNT,
        ),
    ),
)
