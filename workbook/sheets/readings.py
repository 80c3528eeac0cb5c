"""The newest readings of each tank, and what they warn of."""

from workbook.equations import ammonia, carbonate
from workbook.sheets.log import COUNT, MEASURED, MEASURED_KEYS, SENSE
from workbook.tables import Computed, Flag, Look, Pulled, Said, Table, date, logic, text
from workbook.tables.columns import Column
from workbook.tables.idioms import cell_of, count_of_rows, first_known, only_if, spoken, within
from workbook.tables.template import column, for_each, quoted, starred


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
            only_if(
                within(SENSE["ph"], "{ph}"),
                carbonate.carbon_dioxide(kh="{kh}", ph="{ph}", temperature="{temperature_used}"),
            ),
            look=Look("Carbon dioxide from KH and pH", 10, "0.0"),
            help=(
                "Only where carbonate is the only buffer: wood, peat and phosphate make it read high; "
                "0.1 pH is a quarter of it."
            ),
        ),
        Computed(
            "trade_rule",
            "By the trade's rule",
            only_if(within(SENSE["ph"], "{ph}"), carbonate.trade_rule(kh="{kh}", ph="{ph}")),
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
            first_known("{temperature}", "{set_temperature}", unit="degC", test=within(SENSE["temperature"])),
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
            logic("IF({total}>0,IF(SUM({toxic})>={const.toxic_act},2,1),0)", "1", needs=("total", "const.toxic_act")),
            look=COUNT,
        ),
        Computed(
            "toxic_said",
            "Toxic part in words",
            logic(
                'IF(ISNUMBER({toxic}),{level}&" mg/L of it toxic",{unknown})',
                level=spoken("{toxic}", 3),
                unknown=quoted("how much of it is toxic is unknown without pH and temperature"),
                needs=("total",),
            ),
            kind=text(),
            look=Look(working=True, width=16),
        ),
        Flag(
            "toxic_act",
            "Toxic ammonia",
            gathered=True,
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
            gathered=True,
            seriousness="watch",
            when="{ammonia_level}=1",
            why="{total} of ammonia nitrogen on {ammonia_date}, {toxic_said}; the target is zero",
            do="Feed less, change water, look after the filter; while cycling test daily.",
        ),
        Flag(
            "nitrite_seen",
            "Nitrite not zero",
            gathered=True,
            seriousness="act",
            when="AND({nitrite}>0,{animals}>0)",
            why="{nitrite} of nitrite on {nitrite_date}; the target is zero",
            do="Change water, feed little, test daily. Salt or medicines only by their label and a veterinarian.",
        ),
        Flag(
            "cycling",
            "Cycling without animals",
            gathered=True,
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
            gathered=True,
            seriousness="watch",
            when=(
                "AND({nitrate_now}>{settings.nitrate_target}*(1+{const.nitrate_slack}),"
                "{nitrate_now}<={settings.nitrate_act})"
            ),
            why=(
                "{nitrate} on {nitrate_date}, about {nitrate_now} reckoned for today; "
                "the target is {settings.nitrate_target}"
            ),
            do="Change water: Water changes says how many changes bring it back.",
        ),
        Flag(
            "nitrate_too_high",
            "Nitrate far above the target",
            gathered=True,
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
            gathered=True,
            seriousness="note",
            when="AND({animals}>0,{days_since_test}>{const.test_days})",
            why="last tested on {tested_on}",
            do="Test it, and write it into the log.",
        ),
        Flag(
            "never_tested",
            "Not in the log yet",
            gathered=True,
            seriousness="note",
            when="AND({animals}>0,{tests}=0,ROWS({log.tank[]})-COUNTBLANK({log.tank[]})>0)",
            why="no reading of it stands in the log",
            do="Test ammonia, nitrite, nitrate, pH, GH and KH, and write them down.",
        ),
        Flag(
            "gas_high",
            "Carbon dioxide high",
            gathered=True,
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
