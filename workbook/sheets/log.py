"""Log: readings and work, tank by tank and day by day; beside it the newest of each, and a chart."""

from workbook.equations import ammonia, carbonate, conversions, nitrogen
from workbook.sheets.parameters import KEYS
from workbook.tables import (
    Chart,
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Series,
    Sheet,
    Table,
    Typed,
    choice,
    count,
    date,
    link,
    logic,
    number,
    text,
)
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.idioms import cell_of, count_of_rows, first_known, joined, nth_row, only_if, position, row_of
from workbook.tables.template import column, for_each, here, quoted, starred

KITS = ("N", "NH3", "NH4")
READ, WORK = Look("Readings, before the day's water change", 9, "0.0"), Look("Work", 10, "0")
SAYS, HIDDEN, COUNT = Look("What they say", 10, "0.000"), Look(working=True, show="0.000"), Look(working=True, show="0")
# Limits of sense: what no aquarium water reads. A cell refuses more, a pasted one is flagged.
MEASURED = (
    ("temperature", "Temperature", "degC", -2, 45, "0.0"),
    ("ph", "pH", "1", 2, 12, "0.0#"),
    ("gh", "GH", "degH", 0, 90, "0.0"),
    ("kh", "KH", "degH", 0, 90, "0.0"),
    ("ammonia", "Ammonia", "mg/L", 0, 50, "0.00"),
    ("nitrite", "Nitrite", "mg/L", 0, 100, "0.00"),
    ("nitrate", "Nitrate", "mg/L", 0, 1000, "0"),
)
MEASURED_AS = {"nitrite": " (NO2)", "nitrate": " (NO3)"}
MEASURED_KEYS = tuple(key for key, *_ in MEASURED)
LABELS = tuple(label for _, label, *_ in MEASURED)
CHOSEN = position("{log_choice.parameter}", LABELS, otherwise=str(len(LABELS)))


def typed() -> tuple[Typed, ...]:
    """The readings."""
    return tuple(
        Typed(
            key,
            label + MEASURED_AS.get(key, ""),
            number(low, high),
            unit=unit,
            look=Look(READ.group, 12 if key == "temperature" else 9, show),
        )
        for key, label, unit, low, high, show in MEASURED
    )


def total_ammonia() -> Computed:
    """Total ammonia as nitrogen, by what the kit reads."""
    return Computed(
        "total",
        "Total ammonia as nitrogen",
        logic(
            "CHOOSE({kit},{ammonia},{from_nh3},{from_nh4})",
            "mg/L",
            needs=("ammonia",),
            kit=position("{settings.ammonia_kit}", KITS, otherwise="1"),
            from_nh3=ammonia.nitrogen_from_ammonia(reading="{ammonia}"),
            from_nh4=ammonia.nitrogen_from_ammonium(reading="{ammonia}"),
        ),
        look=SAYS,
        help="By the kit chosen on Start.",
    )


def out_of_sense() -> Computed:
    """Readings that no water gives."""
    tests = (
        (
            filled("AND(COUNT({*})=1,OR({*}<({low}),{*}>{high}))", each=key, low=str(low), high=str(high)),
            quoted(label),
        )
        for key, label, _, low, high, _ in MEASURED
    )
    return Computed(
        "no_sense", "Out of all sense", joined(*tests, between=", "), kind=text(), look=Look(working=True, width=14)
    )


def charted() -> Computed:
    """The reading that the chart draws; blank where it was not taken."""
    return Computed(
        "charted",
        "Value to draw",
        logic(
            "CHOOSE({chosen},{readings})",
            needs=("tank_row", "date"),
            chosen=CHOSEN,
            readings=for_each(MEASURED_KEYS, 'IF({*}="","",{*})'),
        ),
        look=HIDDEN,
    )


EARLIER_NITRATE = '{log.tank_row[]},{tank_row},{log.order[]},"<"&{order},{log.nitrate[]},">-1E+9"'
OWN = nitrogen.own_yield(
    measured="{nitrate_change}", ammonia="{ammonia_a_day}", days="{days_since}", volume="{net_volume}"
)

LOG = Table(
    "log",
    example={
        "date": "2026-03-31",
        "tank": "Window tank",
        "temperature": 25,
        "ph": 7.2,
        "ammonia": 0,
        "nitrite": 0,
        "nitrate": 15,
        "litres_changed": 20,
    },
    title="Log",
    row_name=("tank", "date"),
    spare_rows=10,
    purpose="One row for each day on which a tank was tested or worked on.",
    columns=(
        Typed("date", "Date", date(), required=True, look=Look("When and where", 11)),
        Typed("tank", "Tank", link("tanks"), required=True, look=Look("When and where", 20)),
        *typed(),
        Typed(
            "litres_changed",
            "Water changed",
            number(0, 50000),
            unit="L",
            look=Look("Work", 9, "0.0"),
            help="0 or blank: none.",
        ),
        Typed(
            "task",
            "Task done",
            link("tasks"),
            look=Look("Work", 26),
            help="A task of the list: Maintenance takes its date from here. One row for each.",
        ),
        Typed("work", "Other work", text(), look=Look("Work", 30)),
        Typed("losses", "Losses", count(0, 10000), unit="1", look=Look("Work", 7, "0")),
        total_ammonia(),
        Computed(
            "toxic_share",
            "Toxic share of it",
            ammonia.toxic_share(temperature="{temperature_used}", ph="{ph_used}"),
            look=Look(SAYS.group, 9, "0.00%"),
            help="At the reading's own pH and temperature, or else at those the tank is kept at.",
        ),
        Computed("toxic", "Toxic ammonia", ammonia.toxic_amount(total="{total}", share="{toxic_share}"), look=SAYS),
        Computed(
            "toxic_verdict",
            "Which is",
            logic(
                '_xlfn.IFS({toxic}>={const.toxic_act},"▲ act now",{toxic}>={const.toxic_caution},"◆ too much",'
                '{toxic}>0,"○ not zero",1=1,"none")'
            ),
            kind=text(),
            look=Look(SAYS.group, 12, status=True),
        ),
        Computed(
            "nitrate_change",
            "Nitrate since last reading",
            logic("{nitrate}-{nitrate_before}", "mg/L"),
            look=Look(SAYS.group, 10, "0"),
        ),
        Computed("days_since", "Days since it", logic("{date}-{date_before}", "day"), look=Look(SAYS.group, 8, "0")),
        Said(look=Look(SAYS.group, 36)),
        Typed("log_note", "Note", text(), look=Look("Note", 40)),
        Pulled("tank_temperature", via="tank", of="temperature", label="Tank's temperature"),
        Pulled("tank_ph", via="tank", of="ph_used", label="Tank's pH"),
        Pulled("net_volume", via="tank"),
        Pulled("ammonia_a_day", via="tank", of="stocking.ammonia", label="Ammonia nitrogen from food"),
        Computed(
            "temperature_used",
            "Temperature reckoned with",
            first_known("{temperature}", "{tank_temperature}", unit="degC"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "ph_used",
            "pH reckoned with",
            first_known("{ph}", "{tank_ph}", unit="1"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "order",
            "Order in time",
            logic("{date}*10^6+{line}", "1", needs=("date", "tank_row")),
            look=Look(working=True, width=14, show="0"),
        ),
        Computed(
            "before",
            "Last nitrate reading",
            logic(
                'IF(SUMIFS({log.one[]},{earlier_nitrate})=0,"",_xlfn.MAXIFS({log.order[]},{earlier_nitrate}))',
                "1",
                needs=("order", "nitrate"),
                earlier_nitrate=EARLIER_NITRATE,
            ),
            look=Look(working=True, width=14, show="0"),
        ),
        Computed("before_row", "Its row", logic("MOD({before},10^6)", "1"), look=COUNT),
        Computed(
            "date_before",
            "Its date",
            logic("INDEX({log.date[]},{before_row})", "date"),
            kind=date(),
            look=Look(working=True, width=11),
        ),
        Computed("nitrate_before", "Nitrate then", logic("INDEX({log.nitrate[]},{before_row})", "mg/L"), look=COUNT),
        Computed(
            "changed_between",
            "Water changed between",
            logic(
                "SUMIFS({log.litres_changed[]},{log.tank_row[]},{tank_row},"
                '{log.order[]},">="&{before},{log.order[]},"<"&{order})',
                "L",
                needs=("before", "order"),
            ),
            look=HIDDEN,
        ),
        Computed(
            "pair_yield",
            "Yield of the pair",
            only_if(
                "AND({changed_between}=0,{days_since}>={const.pair_days_least},{ammonia_a_day}>0)",
                logic("MAX(0-10,MIN(10,{own_yield}))", "1", own_yield=OWN),
            ),
            look=HIDDEN,
            help=(
                "Rise measured against the rise if all nitrogen stayed as nitrate; "
                "only where no water was changed between."
            ),
        ),
        Computed("pair_key", "Yield by tank", logic("{tank_row}*10^2+{pair_yield}", "1"), look=HIDDEN),
        out_of_sense(),
        charted(),
        Computed(
            "in_chart",
            "In the chart",
            logic(
                '{above.in_chart}+IF(AND({tank}<>"",{tank}={log_choice.tank},COUNT({charted})=1),1,0)', "1", copes=True
            ),
            seed="0",
            look=COUNT,
        ),
        Flag(
            "senseless",
            "Reading out of all sense",
            seriousness="act",
            when='{no_sense}<>""',
            why="no aquarium water reads so: {no_sense}",
            do="Check the cell: a decimal point, or two values swapped.",
        ),
        Flag(
            "future",
            "Date still to come",
            seriousness="note",
            when="{date}>{settings.plan_date}",
            why="{date} lies after the plan date",
            do="Check the date.",
        ),
    ),
)


def newest(key: str, label: str, unit: str, show: str) -> tuple[Column, ...]:
    """The newest reading of one parameter, found by date however the rows are sorted."""
    taken = starred('{log.tank_row[]},{line},{log.order[]},">0",{log.*[]},">-1E+9"', key)
    row = logic('IF(SUMIFS({log.one[]},{taken})=0,"",MOD(_xlfn.MAXIFS({log.order[]},{taken}),10^6))', "1", taken=taken)
    value = logic("INDEX({log.*[]},{*_row})", unit, each=key)
    day = logic("INDEX({log.date[]},{*_row})", "date", each=key)
    return (
        Computed(f"{key}_row", f"Row of {label}", row, look=COUNT),
        Computed(key, label, value, look=Look("Newest readings", 12 if key == "temperature" else 9, show)),
        Computed(f"{key}_date", f"{label}: on", day, kind=date(), look=Look(working=True, width=11)),
    )


def of_ammonia(key: str, label: str, unit: str, look: Look) -> Computed:
    """What the log says at the newest ammonia reading."""
    return Computed(key, label, cell_of(column("log", key), "{ammonia_row}", unit), look=look)


DATES = for_each(MEASURED_KEYS, "{*_date}")
AT = {"temperature": "{reading_temperature}", "ph": "{reading_ph}"}

READINGS = Table(
    "readings",
    title="Newest readings",
    rows_of="tanks",
    row_name=("tank",),
    purpose="The newest reading of each tank.",
    columns=(
        Pulled("tank", via="tanks", look=Look(working=True, width=16)),
        *(made for m in MEASURED for made in newest(m[0], m[1], m[2], m[5])),
        Computed(
            "tested_on",
            "Last tested",
            logic('IF(COUNT({dates})=0,"",MAX({dates}))', "date", needs=("tank",), dates=DATES),
            kind=date(),
            look=Look("Newest readings", 11),
        ),
        Computed(
            "days_since_test",
            "Days since",
            logic("{settings.plan_date}-{tested_on}", "day"),
            look=Look("Newest readings", 8, "0"),
        ),
        of_ammonia("total", "Ammonia as nitrogen", "mg/L", Look("Newest ammonia", 10, "0.00")),
        of_ammonia("toxic", "Toxic part", "mg/L", Look("Newest ammonia", 10, "0.000")),
        Computed(
            "acute",
            "Acute criterion",
            ammonia.acute_criterion(**AT),
            look=Look("For caution only: EPA 2013, wild waters", 10, "0.00"),
            help="One-hour average for wild communities; an aquarium's own target is zero.",
        ),
        Computed(
            "chronic",
            "Chronic criterion",
            ammonia.chronic_criterion(**AT),
            look=Look("For caution only: EPA 2013, wild waters", 10, "0.00"),
        ),
        Computed(
            "chronic_share",
            "Ammonia against it",
            logic("{total}/{chronic}", "1"),
            look=Look("For caution only: EPA 2013, wild waters", 10, "0%"),
        ),
        Computed(
            "carbon_dioxide",
            "Carbon dioxide",
            carbonate.carbon_dioxide(kh="{kh}", ph="{ph}", temperature="{temperature_used}"),
            look=Look("Carbon dioxide from KH and pH", 10, "0.0"),
            help=(
                "Only where carbonate is the only buffer: wood, peat and phosphate make it read high; "
                "0.1 pH is a quarter of it."
            ),
        ),
        Computed(
            "trade_rule",
            "By the trade's rule",
            carbonate.trade_rule(kh="{kh}", ph="{ph}"),
            look=Look("Carbon dioxide from KH and pH", 10, "0.0"),
        ),
        Said(look=Look("Carbon dioxide from KH and pH", 50)),
        Pulled("animals", via="tanks"),
        Pulled("cycled", via="tanks"),
        Pulled("set_temperature", via="tanks", of="temperature"),
        Pulled("nitrate_now", via="tanks", of="changes.nitrate_now"),
        Computed("tests", "Rows in the log", count_of_rows("{log.tank_row[]}"), look=COUNT),
        Computed(
            "temperature_used",
            "Temperature reckoned with",
            first_known("{temperature}", "{set_temperature}", unit="degC"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "reading_temperature",
            "Temperature at that reading",
            cell_of("{log.temperature_used[]}", "{ammonia_row}", "degC"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "reading_ph",
            "pH at that reading",
            cell_of("{log.ph_used[]}", "{ammonia_row}", "1"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "ammonia_level",
            "Ammonia: 1 seen, 2 toxic",
            logic("IF({total}>0,IF(N({toxic})>={const.toxic_act},2,1),0)", "1", needs=("total", "const.toxic_act")),
            look=COUNT,
        ),
        Computed(
            "toxic_said",
            "Toxic part in words",
            logic(
                'IF(ISNUMBER({toxic}),ROUND({toxic},3)&" mg/L of it toxic",{unknown})',
                unknown=quoted("how much of it is toxic is unknown without pH and temperature"),
                needs=("total",),
            ),
            kind=text(),
            look=Look(working=True, width=16),
        ),
        Flag(
            "toxic_act",
            "Toxic ammonia",
            seriousness="act",
            when="{ammonia_level}=2",
            why="{toxic} of toxic ammonia on {ammonia_date}, at pH {reading_ph}",
            do=(
                "Change water at once, stop feeding, aerate; find the cause: dead animal, filter, new medicine. "
                "Test again tomorrow."
            ),
        ),
        Flag(
            "ammonia_seen",
            "Ammonia not zero",
            seriousness="watch",
            when="{ammonia_level}=1",
            why="{total} of ammonia nitrogen on {ammonia_date}, {toxic_said}; the target is zero",
            do="Feed less, change water, look after the filter; while cycling test daily.",
        ),
        Flag(
            "nitrite_seen",
            "Nitrite not zero",
            seriousness="act",
            when="AND({nitrite}>0,{animals}>0)",
            why="{nitrite} of nitrite on {nitrite_date}; the target is zero",
            do="Change water, feed little, test daily. Salt or medicines only by their label and a veterinarian.",
        ),
        Flag(
            "cycling",
            "Cycling without animals",
            seriousness="note",
            when='AND({cycled}="no",{animals}=0)',
            why="not cycled yet, and no animals in it",
            do=(
                "Feed the filter with a little ammonia by the product's label, test every few days; "
                "cycled once ammonia and nitrite are at zero a day after a dose."
            ),
        ),
        Flag(
            "nitrate_high",
            "Nitrate above the target",
            seriousness="watch",
            when="AND(ROUND({nitrate_now},0)>{settings.nitrate_target},{nitrate_now}<={settings.nitrate_act})",
            why=(
                "{nitrate} on {nitrate_date}, about {nitrate_now} reckoned for today; "
                "the target is {settings.nitrate_target}"
            ),
            do="See Water changes for how many changes bring it back.",
        ),
        Flag(
            "nitrate_too_high",
            "Nitrate far above the target",
            seriousness="act",
            when="{nitrate_now}>{settings.nitrate_act}",
            why=(
                "{nitrate} on {nitrate_date}, about {nitrate_now} reckoned for today; "
                "above {settings.nitrate_act} is the time to act"
            ),
            do="Change water in several steps, not at one go; see Water changes.",
        ),
        Flag(
            "old_test",
            "Not tested for long",
            seriousness="note",
            when="AND({animals}>0,{days_since_test}>{const.test_days})",
            why="last tested on {tested_on}",
            do="Test it, and write it into the log.",
        ),
        Flag(
            "never_tested",
            "Not in the log yet",
            seriousness="note",
            when="AND({animals}>0,{tests}=0,COUNTA({log.tank[]})>0)",
            why="no reading of it stands in the log",
            do="Test ammonia, nitrite, nitrate, pH, GH and KH, and write them down.",
        ),
        Flag(
            "gas_high",
            "Carbon dioxide high",
            seriousness="watch",
            when="AND({animals}>0,{carbon_dioxide}>{const.carbon_dioxide_caution})",
            why="KH and pH make it {carbon_dioxide}, if carbonate is the only buffer",
            do=(
                "Watch for gasping, aerate at night; check the pH and KH tests first. Cylinders: "
                "secured, room ventilated."
            ),
        ),
    ),
)

CHOICE = Table(
    "log_choice",
    title="What the chart draws",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=(
        Typed("tank", "Tank", link("tanks"), look=Look(width=22), help="Pick a tank; the chart follows."),
        Computed("title", "Chart", logic('{parameter}&" of "&{tank}'), kind=text(), look=Look(width=22)),
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
        Computed("chosen_row", "Row of the chosen tank", row_of("{log_choice.tank}", "{tanks.tank[]}"), look=COUNT),
        Computed(
            "reading",
            "Row of the log",
            nth_row("({line}+MAX(0,MAX({log.in_chart[]})-ROWS({log_drawn.line[]})))", "{log.in_chart[]}"),
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

SHEET = Sheet(
    "Log",
    role="input",
    blocks=(LOG,),
    frozen_columns=2,
    purpose=(
        "Write down what you measure and do, in any order; "
        "the newest of each tank is found by its date, and drawn on Water changes."
    ),
    notes=(
        (
            "Test in the morning, before the water change. "
            "Gloves for open cuts, never start a siphon by mouth, wash afterwards. Tests can be off by a colour step: "
            "repeat what surprises you."
        ),
    ),
)
