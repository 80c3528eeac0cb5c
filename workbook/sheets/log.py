"""Log: readings and work, tank by tank and day by day; beside it the newest of each, and a chart."""

from workbook.equations import ammonia, nitrogen
from workbook.sheets.groups import offer
from workbook.tables import (
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Sheet,
    Table,
    Typed,
    count,
    date,
    link,
    logic,
    number,
    pulled,
    text,
)
from workbook.tables.formula import filled
from workbook.tables.idioms import first_known, joined, only_if, position, within
from workbook.tables.template import for_each, quoted

KITS = ("N", "NH3", "NH4")
# The task of the list that is a water change.
CHANGE_WATER = "Change water"

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

SENSE = {key: (low, high) for key, _, _, low, high, _ in MEASURED}

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
    enough=("date", "tank"),
    spare_rows=16,  # as many as a year of weekly entries on a dozen tanks
    yearly="tanks.change_interval",
    newest="date",
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
            help="0 or blank: none; beside the task Change water the planned share.",
        ),
        Typed(
            "task",
            "Task done",
            link("tasks"),
            look=Look("Work", 26),
            help="A task of the list: Maintenance takes its date from here. One row for each.",
        ),
        Typed("work", "Other work", text(), look=Look("Work", 30)),
        Typed(
            "species",
            "Species",
            link("species"),
            look=Look("Losses and arrivals", 20),
            help="Who died or came: Livestock then says how many there are now. One row for each.",
        ),
        Typed("losses", "Losses", count(0, 10000), unit="1", look=Look("Losses and arrivals", 7, "0")),
        Typed("arrivals", "Arrivals", count(0, 10000), unit="1", look=Look("Losses and arrivals", 8, "0")),
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
        *pulled("tank", "net_volume", "change_share"),
        Pulled("ammonia_a_day", via="tank", of="stocking.ammonia", label="Ammonia nitrogen from food"),
        Computed(
            "temperature_used",
            "Temperature reckoned with",
            first_known("{temperature}", "{tank_temperature}", unit="degC", test=within(SENSE["temperature"])),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "ph_used",
            "pH reckoned with",
            first_known("{ph}", "{tank_ph}", unit="1", test=within(SENSE["ph"])),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "is_change",
            "A water change: 1",
            logic(
                "IF(OR(SUM({litres_changed})>0,{task}={change}),1,0)",
                "1",
                needs=("date", "tank_row"),
                change=quoted(CHANGE_WATER),
            ),
            look=COUNT,
        ),
        Computed(
            "water_out",
            "Water changed",
            logic(
                'IF(SUM({litres_changed})>0,{litres_changed},IF(COUNT({net_volume},{change_share})<2,"",{planned}))',
                "L",
                copes=True,
                planned="{net_volume}*{change_share}*SUM({is_change})",
            ),
            look=HIDDEN,
            help="As typed; where only the task Change water is named, the share planned on Tanks.",
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
                'SUMIFS({log.water_out[]},{log.tank_row[]},{tank_row},{log.order[]},">="&{before},'
                '{log.order[]},"<"&{order})+SUM({net_volume})*SUM({change_share})*SUMIFS({maintenance.only_typed[]},'
                '{maintenance.tank_row[]},{tank_row},{maintenance.last_done[]},">="&{date_before},'
                '{maintenance.last_done[]},"<"&{date})',
                "L",
                needs=("before", "order", "date_before"),
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
            logic('IF(AND({tank}<>"",{tank}={log_choice.in_view},COUNT({charted})=1),{order},"")', "1", copes=True),
            look=Look(working=True, width=14, show="0"),
            help="Its order in time: the chart draws by date, in whatever order rows stand.",
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

SHEET = Sheet(
    "Log",
    role="input",
    blocks=(LOG,),
    forms=(offer("log"),),
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
