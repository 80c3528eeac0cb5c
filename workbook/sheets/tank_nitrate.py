"""Nitrate of the tank in view: what was read, and what is reckoned for its next changes; drawn on its page."""

from workbook.equations import nitrogen
from workbook.tables import Chart, Charts, Computed, Look, Series, Table, date, logic, text
from workbook.tables.formula import filled

HIDDEN, COUNT, DAY = Look(working=True, show="0.00"), Look(working=True, show="0"), Look(working=True, width=11)
LINES = 13

# Of each two lines after the first, one is just before a change and one just after it.
CHANGE = "INT(({line}-2)/2)"
FIRST_CHANGE = "MAX({settings.plan_date},SUM({tank_card.next_change}))"
LEVEL = filled(
    "IF(ISNUMBER({tank_card.nitrate_now}),{tank_card.nitrate_now}+{tank_card.rise_day}*({day}-{settings.plan_date})"
    "-{tank_card.nitrate_interval},{tank_card.nitrate_trough})",
    day=FIRST_CHANGE,
)

NITRATE = Table(
    "tank_nitrate",
    title="Nitrate of the tank in view",
    lines=LINES,
    row_name=("read_on",),
    purpose="",
    columns=(
        # A point drawn once more where there are no older readings: no program draws a line to it.
        Computed(
            "reading",
            "Row of the log",
            logic(
                'IF({line}=1,{tank_card.nitrate_row},IF({above.reading}="","",'
                'IF(INDEX({log.before_row[]},{above.reading})="",{above.reading},'
                "INDEX({log.before_row[]},{above.reading}))))",
                "1",
                copes=True,
            ),
            seed='""',
            look=COUNT,
        ),
        Computed("read_on", "Read on", logic("INDEX({log.date[]},{reading})", "date"), kind=date(), look=DAY),
        Computed("read", "Nitrate read", logic("INDEX({log.nitrate[]},{reading})", "mg/L"), look=HIDDEN),
        Computed(
            "start",
            "One rise before the next change",
            logic(LEVEL, "mg/L", needs=("tank_card.nitrate_interval", "tank_card.rise_day", "settings.plan_date")),
            look=HIDDEN,
        ),
        Computed(
            "before",
            "Just before the change",
            nitrogen.level_after_changes(
                start="{start}",
                rise="{tank_card.nitrate_interval}",
                share="{tank_card.change_share}",
                source="{tank_card.water_nitrate}",
                number=f"MAX(0,{CHANGE})",
            ),
            look=HIDDEN,
        ),
        Computed(
            "after",
            "Just after it",
            nitrogen.level_after_change(
                before="{before}", share="{tank_card.change_share}", source="{tank_card.water_nitrate}"
            ),
            look=HIDDEN,
        ),
        Computed(
            "day",
            "Day",
            logic(
                "IF({line}=1,IF(ISNUMBER({tank_card.nitrate_now}),{settings.plan_date},{first}),"
                "{first}+{change}*{tank_card.change_interval})",
                "date",
                needs=("before", "tank_card.change_interval", "settings.plan_date"),
                first=FIRST_CHANGE,
                change=CHANGE,
            ),
            kind=date(),
            look=DAY,
        ),
        Computed(
            "reckoned",
            "Nitrate reckoned",
            logic(
                "IF({line}=1,IF(ISNUMBER({tank_card.nitrate_now}),{tank_card.nitrate_now},{before}),"
                "IF(MOD({line},2)=0,{before},{after}))",
                "mg/L",
                needs=("before", "after"),
            ),
            look=HIDDEN,
        ),
        Computed(
            "target",
            "Target",
            logic("{settings.nitrate_target}", "mg/L", needs=("day", "settings.nitrate_target")),
            look=HIDDEN,
        ),
    ),
)

CHART = Charts(
    "tank_charts",
    (
        Chart(
            "",
            axis="mg/L",
            over_time=True,
            days="near",
            days_axis="read, then reckoned; dashed: target",
            legend=False,
            width=284,
            height=148,
            low=0,
            describes=(
                "Points over time: nitrate of the tank in view as it was read, and as it is reckoned before and after "
                "its next six changes, with the target."
            ),
            series=(
                Series("read", "tank_nitrate.read_on", "tank_nitrate.read", "value"),
                Series("reckoned", "tank_nitrate.day", "tank_nitrate.reckoned", "range"),
                Series("target", "tank_nitrate.day", "tank_nitrate.target", "shared"),
            ),
        ),
    ),
    rows=9,
)

HEAD = Table(
    "tank_chart",
    title="",
    lines=1,
    row_name=("said",),
    purpose="",
    row_height=23,
    columns=(
        Computed(
            "said",
            "What the chart shows",
            logic('"Nitrate, mg/L: "&IF({tank_card.row}="","no tank",{tank_card.tank})', copes=True),
            kind=text(),
            look=Look(style="page head", span=3),
        ),
    ),
)
