"""The next water change of each tank: on which day, how much, and of which waters it is made."""

from workbook.sheets.log import CHANGE_WATER
from workbook.sheets.so_far import running_list
from workbook.sheets.week_days import DAY_NAME, NAMES
from workbook.tables import Computed, Look, Pulled, Table, date, logic, pulled, row, text
from workbook.tables.formula import filled
from workbook.tables.idioms import at_the_end, cell_of, in_rows_with, row_of, taken_as
from workbook.tables.template import column, quoted, said

COUNT, WORDS, DAY = Look(working=True, show="0"), Look(working=True, width=18), Look(working=True, width=11)
# Litres are said as they are measured out: bucket by bucket from ten on, in small tanks by the jug.
LITRES = Look(working=True, show="0.0")
MONTHS = ",".join(
    f'"{name}"' for name in ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
)
CHANGES_HERE = "{maintenance.tank_row[]},{line},{maintenance.changes_water[]},1"


def day_in_words(day: str) -> str:
    """Formula text: a day of the coming week as Thu 8, a later one as 19 Nov."""
    return filled(
        'IF({day}<{settings.plan_date}+7,{name},DAY({day})&" "&CHOOSE(MONTH({day}),{months}))',
        name=filled(DAY_NAME, date=day, names=NAMES),
        day=day,
        months=MONTHS,
    )


def of_water(key_: str, label: str, unit: str = "") -> Computed:
    """A column of Waters in the row of the water that the tank is filled with."""
    formula = cell_of(column("waters", key_), "{water_row}", unit)
    kind = {} if unit else {"kind": text()}
    return Computed(key_, label, formula, look=LITRES if unit else WORDS, **kind)  # type: ignore[arg-type]


def measured_out(litres: str) -> str:
    """Formula text: litres rounded as people measure them out."""
    return filled("ROUND({amount},IF({litres}<10,1,0))", amount=litres)


def in_few_letters(key_: str) -> str:
    """Formula text: litres or gallons in words; which gallons, a US file says everywhere."""
    return filled('SUBSTITUTE({words},"US ","")', words=said(key_))


NEXT_CHANGE = Table(
    "next_change",
    title="Next water change",
    rows_of="tanks",
    row_name=("tank",),
    purpose="Day, litres and recipe of the next change.",
    columns=(
        Pulled("tank", via="tanks", look=Look(working=True, width=16)),
        *pulled("tanks", "standing", "water"),
        Pulled("water_row", via="tanks"),
        Pulled("change_interval", via="tanks"),
        Pulled("litres", via="tanks", of="week_tanks.litres"),
        Computed(
            "last_change",
            "Last in the Log",
            logic(
                'IF(SUMIFS({log.one[]},{changed},{log.date[]},">0")=0,"",_xlfn.MAXIFS({log.date[]},{changed}))',
                "date",
                needs=("tank",),
                changed="{log.tank_row[]},{line},{log.is_change[]},1",
            ),
            kind=date(),
            look=DAY,
        ),
        Computed(
            "planned",
            "Rows of Maintenance that plan it",
            logic(
                "SUMIFS({maintenance.one[]},{here},{maintenance.next_due[]},{known})",
                "1",
                needs=("tank",),
                here=CHANGES_HERE,
                known=quoted(">0"),
            ),
            look=COUNT,
        ),
        Computed(
            "by_interval",
            "By its interval",
            logic(
                '_xlfn.IFS({standing}="no","",{last_change}="",{settings.plan_date},'
                "1=1,INT({last_change}+{change_interval}))",
                "date",
                needs=("change_interval", "settings.plan_date"),
            ),
            kind=date(),
            look=DAY,
            help="Today where no change stands in the Log; none while the tank is only planned.",
        ),
        Computed(
            "next_change",
            "Next change",
            logic(
                "IF({planned}>0,"
                "_xlfn.MINIFS({maintenance.next_due[]},{here},{maintenance.next_due[]},{known}),{by_interval})",
                "date",
                needs=("planned",),
                here=CHANGES_HERE,
                known=quoted(">0"),
            ),
            kind=date(),
            look=DAY,
            help="As Maintenance plans it; where that has no change of this tank, by the interval on Tanks.",
        ),
        Computed("days_late", "Days late", logic("{settings.plan_date}-{next_change}", "day"), look=COUNT),
        Computed(
            "first_day",
            "First day of this week, by its interval",
            taken_as(
                logic(
                    'IF({planned}>0,"",MAX({next_change},{settings.plan_date})-{settings.plan_date})',
                    "day",
                    needs=("planned", "next_change", "settings.plan_date"),
                ),
                "1",
            ),
            look=COUNT,
            help="Blank where Maintenance has it: then it stands in the week from there.",
        ),
        Computed(
            "order",
            "Order in the week",
            logic('IF({first_day}<7,{first_day}+1/2+{line}/10^6,"")', "1"),
            look=Look(working=True, show="0.000000"),
        ),
        Computed("late", "Late by its interval", logic('IF({first_day}="","",MAX(0,{days_late}))', "day"), look=COUNT),
        Computed(
            "change_task",
            "Row of its task",
            in_rows_with("tank", row_of(quoted(CHANGE_WATER), "{tasks.task[]}")),
            kind=row("tasks"),
            look=COUNT,
        ),
        Pulled("usual_minutes", via="change_task", label="Usual minutes"),
        Pulled("usual_supplies", via="change_task", label="Usual supplies"),
        *running_list(
            "late_changes",
            "Late by their interval so far, after the late tasks",
            "SUM({late})>0",
            '{change}&{tank}&" ("&{late}&" d)"',
            after=(
                str(at_the_end("{maintenance.late_tasks_count[]}").text),
                at_the_end("{maintenance.late_tasks[]}").text,
            ),
            change=quoted(f"{CHANGE_WATER}: "),
        ),
        Computed(
            "due",
            "Due, by day and row",
            logic('IF({days_late}>=0,{days_late}+1-{line}/10^6,"")', "1"),
            look=Look(working=True, show="0.000000"),
        ),
        of_water("first_water", "First water of its blend"),
        of_water("second_water", "Second water of its blend"),
        of_water("share_used", "First water's share", "1"),
        Computed("poured", "Litres to pour", logic(measured_out("{litres}"), "L"), look=LITRES),
        Computed(
            "poured_first",
            "Litres of the first",
            logic(measured_out("{litres}*{share_used}"), "L", needs=("litres", "share_used")),
            look=LITRES,
        ),
        Computed("poured_second", "Litres of the second", logic("ROUND({poured}-{poured_first},1)", "L"), look=LITRES),
        Computed(
            "blend",
            "Both waters of its blend",
            logic(
                'IF({poured_first}>0,{first}&" "&{first_water},"")&IF({poured_first}*{poured_second}>0," + ","")'
                '&IF({poured_second}>0,{second}&" "&{second_water},"")',
                needs=("poured_first", "poured_second", "first_water", "second_water"),
                first=in_few_letters("poured_first"),
                second=in_few_letters("poured_second"),
            ),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "recipe",
            "Of which waters",
            logic(
                'IF({blend}<>"",{blend},IF({poured}="",{water}&"",{all}&LEFT(" ",LEN({water}))&{water}))',
                needs=("tank",),
                all=in_few_letters("poured"),
            ),
            kind=text(),
            look=WORDS,
        ),
    ),
)
