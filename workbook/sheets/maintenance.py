"""Maintenance: what must be done how often, when it is next due, how late it is; and a list of tasks to pick from."""

from workbook.sheets.log import CHANGE_WATER
from workbook.sheets.so_far import running_list
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
    key,
    link,
    logic,
    number,
    text,
)
from workbook.tables.idioms import POSITIVE, first_known, first_said, in_rows_with, only_if, taken_as
from workbook.tables.template import quoted

# Rows of the Log in which this task was done, in any tank or in this one.
DONE_ANYWHERE = '{log.task_row[]},{task_row},{log.date[]},">0"'
DONE_HERE = DONE_ANYWHERE + ",{log.tank_row[]},{tank_row}"
TASK, DUE, USED = Look("The task", 10, "0"), Look("When it is due", 11, "0"), Look("What counts", 9, "0")

MAINTENANCE = Table(
    "maintenance",
    example={"task": "Change water", "tank": "Window tank", "last_done": "2026-03-31"},
    title="Maintenance",
    row_name=("task", "tank"),
    first="next_due",
    purpose="One row for each task of a tank, or of the whole room (type all).",
    columns=(
        Typed(
            "task",
            "Task",
            text(suggests="tasks"),
            required=True,
            look=Look("The task", 36),
            help="Pick one of the task list, which then fills in what you leave blank, or type your own.",
        ),
        Typed(
            "tank",
            "Tank",
            link("tanks", "all"),
            required=True,
            look=Look("The task", 18),
            help="Pick a tank, or type all for the whole room.",
        ),
        Typed(
            "every_days",
            "Every",
            count(1, 3650),
            unit="day",
            look=TASK,
            help="Blank: as the task list says, of a tank's water change as Tanks says.",
        ),
        Typed(
            "last_done",
            "Last done",
            date(),
            look=Look("The task", 11),
            help="Blank: as the Log says; due today if that says nothing either.",
        ),
        Computed(
            "next_due",
            "Next due",
            logic(
                'IF(OR({every}="",{tank_standing}="no"),"",IF({done}="",{settings.plan_date},INT({done}+{every})))',
                "date",
                copes=True,
            ),
            kind=date(),
            look=DUE,
        ),
        Computed("days_late", "Days late", logic("MAX(0,{settings.plan_date}-{next_due})", "day"), look=DUE),
        Computed(
            "state",
            "State",
            logic(
                '_xlfn.IFS({days_late}>{const.days_very_late},"◆ very late",{days_late}>0,"◆ late",'
                '{next_due}={settings.plan_date},"due today",'
                '{next_due}-{settings.plan_date}<={const.soon_days},"due soon",1=1,"later")'
            ),
            kind=text(),
            look=Look("When it is due", 13, status=True),
        ),
        Said(look=Look("When it is due", 46)),
        Typed(
            "minutes",
            "Minutes",
            number(0, 1440),
            unit="min",
            look=Look("The task", 9, "0"),
            help="Blank: as the task list says.",
        ),
        Typed("supplies", "Supplies", text(), look=Look("The task", 26), help="Blank: as the task list says."),
        Typed("task_note", "Note", text(), look=Look("The task", 40)),
        Computed(
            "every",
            "Every",
            first_known("{every_days}", "{tank_days}", "{usual_days}", unit="day", test=POSITIVE),
            look=USED,
            help="Your own interval, or else that of the task list; of a tank's water change that on Tanks.",
        ),
        Computed("minutes_used", "Minutes", first_known("{minutes}", "{usual_minutes}", unit="min"), look=USED),
        Computed(
            "supplies_used",
            "Supplies",
            in_rows_with("task", first_said("{supplies}", "{usual_supplies}")),
            kind=text(),
            look=Look(USED.group, 26),
        ),
        Computed(
            "done",
            "Last done",
            logic(
                'IF(COUNT({last_done},{logged_on},{watered_on})=0,"",MAX({last_done},{logged_on},{watered_on}))',
                "date",
                copes=True,
            ),
            kind=date(),
            look=Look(USED.group, 11),
            help="The later of what you typed and what the Log says; litres in the Log are a water change.",
        ),
        Pulled("task_caution", via="task", label="Caution", look=Look(USED.group, 60)),
        Pulled("usual_days", via="task", label="Usual interval"),
        Pulled("tank_standing", via="tank", of="standing", label="Its tank stands"),
        Pulled("tank_interval", via="tank", of="change_interval", label="Interval of its tank"),
        Computed(
            "tank_days",
            "Interval of its water changes",
            only_if("SUM({changes_water})=1", logic("{tank_interval}", "day")),
            look=Look(working=True, show="0.0"),
        ),
        Pulled("usual_minutes", via="task", label="Usual minutes"),
        Pulled("usual_supplies", via="task", label="Usual supplies"),
        Computed(
            "logged",
            "Rows of the Log",
            logic(
                'IF({tank_row}="",SUMIFS({log.one[]},{in_any}),SUMIFS({log.one[]},{in_this}))',
                "1",
                needs=("task_row", "tank"),
                in_any=DONE_ANYWHERE,
                in_this=DONE_HERE,
            ),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "logged_on",
            "Newest of them",
            only_if(
                "{logged}>0",
                logic(
                    'IF({tank_row}="",_xlfn.MAXIFS({log.date[]},{in_any}),_xlfn.MAXIFS({log.date[]},{in_this}))',
                    "date",
                    needs=("logged",),
                    in_any=DONE_ANYWHERE,
                    in_this=DONE_HERE,
                ),
            ),
            kind=date(),
            look=Look(working=True, width=11),
        ),
        Computed(
            "changes_water",
            "A tank's water change: 1",
            logic(
                "IF(AND({task}={change},{tank_row}<>{nothing}),1,0)",
                "1",
                needs=("task", "tank"),
                change=quoted(CHANGE_WATER),
                nothing='""',
            ),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "watered_on",
            "Newest litres in the Log",
            logic(
                "IF(SUM({changes_water})=0,{nothing},IF(SUMIFS({log.one[]},{watered})=0,{nothing},"
                "_xlfn.MAXIFS({log.date[]},{watered})))",
                "date",
                needs=("changes_water",),
                watered='{log.tank_row[]},{tank_row},{log.is_change[]},1,{log.date[]},">0"',
                nothing='""',
            ),
            kind=date(),
            look=Look(working=True, width=11),
        ),
        Computed(
            "only_typed",
            "Water changed, but not in the Log: 1",
            logic(
                "IF(OR({changes_water}=0,COUNT({last_done})=0),0,IF(SUMIFS({log.one[]},{that_day})>0,0,1))",
                "1",
                needs=("changes_water",),
                that_day="{log.tank_row[]},{tank_row},{log.is_change[]},1,{log.date[]},{last_done}",
            ),
            look=Look(working=True, show="0"),
            help="It counts for nitrate with the share planned on Tanks.",
        ),
        Computed(
            "first_day",
            "First day of this week",
            taken_as(logic("MAX({next_due},{settings.plan_date})-{settings.plan_date}", "day"), "1"),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "order",
            "Order in the week",
            logic('IF({first_day}<7,{first_day}+{line}/10^6,"")', "1"),
            look=Look(working=True, width=11, show="0.000000"),
        ),
        Computed(
            "in_tank",
            "Tank, date and line",
            logic("{tank_row}*10^6*10^5+{next_due}*10^5+{line}", "1"),
            look=Look(working=True, width=16, show="0"),
            help="The order of the page of one tank.",
        ),
        *running_list("late_tasks", "Late so far", "SUM({days_late})>0", '{row_label}&" ("&{days_late}&" d)"'),
        Flag(
            "no_interval",
            "Interval missing",
            seriousness="watch",
            copes=True,
            when='AND({task}<>"",{tank}<>"",{every}="")',
            why="neither this row nor the task list says how often it is done, so it is never due",
            do="Type every how many days, or pick a task of the list.",
        ),
        Flag(
            "very_late",
            "Task very late",
            gathered=True,
            seriousness="watch",
            when="{days_late}>{const.days_very_late}",
            why="it was due on {next_due}",
            do="Do it today, or type the date you did it; lengthen the interval if it was never needed so often.",
        ),
        Flag(
            "late",
            "Task late",
            gathered=True,
            seriousness="watch",
            when="AND({days_late}>0,{days_late}<={const.days_very_late})",
            why="it was due on {next_due}",
            do="Do it, then type the date under Last done.",
        ),
    ),
)

SHEET = Sheet(
    "Maintenance",
    role="input",
    blocks=(MAINTENANCE,),
    frozen_columns=2,
    purpose=(
        "Tasks with their rhythm. Type the date under Last done, or the task in the Log; "
        "the next date, how late it is and This week follow."
    ),
    notes=(
        (
            "Electricity: test residual-current (ground-fault) protection, keep drip loops, "
            "unplug before hands go in. Gloves for open cuts, never start a siphon by mouth, wash afterwards."
        ),
    ),
)

LIST = Look("Usual", 10, "0")

TASKS = Table(
    "tasks",
    title="Task list",
    given=True,
    row_name=("task",),
    purpose="Change what does not suit your room; Maintenance follows where its own cell is blank.",
    columns=(
        Typed("task", "Task", key(), locked=True, look=Look("The task", 42)),
        Typed("usual_days", "Every", count(1, 3650), unit="day", look=LIST),
        Typed("usual_minutes", "Minutes", number(0, 1440), unit="min", look=LIST),
        Typed("usual_supplies", "Supplies", text(), look=Look("Usual", 34)),
        Typed("task_caution", "Caution", text(), locked=True, look=Look("Usual", 84)),
        Typed("task_confidence", "How sure", text(), locked=True, look=Look("Usual", 18)),
    ),
)

LIST_SHEET = Sheet(
    "Task list",
    role="reference",
    blocks=(TASKS,),
    purpose="Tasks of a fish room with their usual interval, minutes and supplies, to pick from on Maintenance.",
    notes=(
        (
            "Intervals and minutes are common practice for a mid-sized tank, no published source. "
            "Labels, local codes and licensed trades overrule the cautions here."
        ),
    ),
)
