"""What the chart of the Log draws: the chosen reading of the chosen tank, and the band to aim at."""

from workbook.equations import conversions
from workbook.sheets.in_view import tank_shown
from workbook.sheets.log import CHOSEN, COUNT, HIDDEN, LABELS
from workbook.sheets.parameters import KEYS
from workbook.tables import Chart, Computed, Look, Series, Table, Typed, choice, date, logic, text
from workbook.tables.formula import filled
from workbook.tables.idioms import cell_of, row_of
from workbook.tables.template import column, here

CHOICE = Table(
    "log_choice",
    title="What the chart draws",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=(
        *tank_shown("Tank of the readings", "The chart follows."),
        Computed(
            "title", "Chart", logic('{parameter}&" of "&{in_view}'), kind=text(), look=Look(width=22, runs_on=True)
        ),
        Typed("parameter", "Reading", choice(*LABELS), look=Look(width=22), help="Pick what to draw."),
    ),
)


def band(end: str) -> str:
    """Formula text: the end of the band to aim at: the shared range, or zero to the target."""
    return filled(
        "CHOOSE({chosen},{shared},0,0,{nitrate})",
        chosen=CHOSEN,
        shared=[cell_of(column("overlap_detail", f"{key}_{end}"), "{chosen_row}") for key in KEYS],
        nitrate="0" if end == "low" else 'IF({settings.nitrate_target}="","",{settings.nitrate_target})',
    )


def as_shown(key: str, label: str) -> Computed:
    """A value to draw, in the unit of the file.

    Which reading is drawn is chosen there, so only the cell knows whether it is a temperature.
    """
    return Computed(
        f"{key}_drawn",
        label,
        logic(
            "IF({in_fahrenheit},{converted},{value})",
            in_fahrenheit='AND({about.units}="us",{log_choice.parameter}="Temperature")',
            converted=conversions.celsius_to_fahrenheit(value=logic(here(key), "degC")),
            value=here(key),
        ),
        look=HIDDEN,
    )


DRAWN = Table(
    "log_drawn",
    title="What the chart draws",
    lines=120,
    row_name=("day",),
    purpose="",
    columns=(
        Computed("chosen_row", "Row of the chosen tank", row_of("{log_choice.in_view}", "{tanks.tank[]}"), look=COUNT),
        Computed(
            "reading",
            "Row of the log",
            logic(
                'IF({line}>COUNT({drawn}),"",'
                "MOD(SMALL({drawn},{line}+MAX(0,COUNT({drawn})-ROWS({log_drawn.line[]}))),10^6))",
                "1",
                copes=True,
                drawn="{log.in_chart[]}",
            ),
            look=COUNT,
        ),
        Computed(
            "day", "Date", cell_of("{log.date[]}", "{reading}", "date"), kind=date(), look=Look(working=True, width=11)
        ),
        Computed("value", "Reading", cell_of("{log.charted[]}", "{reading}"), look=HIDDEN),
        Computed(
            "band_low", "Aim from", logic('IF({reading}="","",{band})', copes=True, band=band("low")), look=HIDDEN
        ),
        Computed(
            "band_high", "Aim to", logic('IF({reading}="","",{band})', copes=True, band=band("high")), look=HIDDEN
        ),
        as_shown("value", "Reading as drawn"),
        as_shown("band_low", "Aim from, as drawn"),
        as_shown("band_high", "Aim to, as drawn"),
    ),
)

CHART = Chart(
    "log_choice.title",
    axis="value, in the unit of its column",
    over_time=True,
    width=640,
    height=380,
    days="day",
    describes=(
        "Points over time: the chosen reading of the chosen tank, with the lower and upper end of the band to aim at."
    ),
    series=(
        Series("Reading", "log_drawn.day", "log_drawn.value_drawn", "value"),
        Series("Aim from", "log_drawn.day", "log_drawn.band_low_drawn", "shared"),
        Series("Aim to", "log_drawn.day", "log_drawn.band_high_drawn", "shared"),
    ),
)
