"""Maintenance: what must be done how often, when it is next due, and how late it is."""

from workbook.tables import Computed, Flag, Look, Said, Sheet, Table, Typed, count, date, link, logic, number, text

TASK, DUE = Look("The task", 10, "0"), Look("When it is due", 11, "0")

MAINTENANCE = Table("maintenance", title="Maintenance", row_name=("task", "tank"), purpose="One row for each task of a tank, or of the whole room (type all).", columns=(
    Typed("task", "Task", text(), required=True, look=Look("The task", 36)),
    Typed("tank", "Tank", link("tanks", "all"), required=True, look=Look("The task", 18), help="Pick a tank, or type all for the whole room."),
    Typed("every_days", "Every", count(1, 3650), unit="day", required=True, look=TASK),
    Typed("last_done", "Last done", date(), look=Look("The task", 11), help="Blank: due today."),
    Computed("next_due", "Next due", logic("IF({every_days}=\"\",\"\",IF({last_done}=\"\",{settings.plan_date},{last_done}+{every_days}))", "date", copes=True), kind=date(), look=DUE),
    Computed("days_late", "Days late", logic("MAX(0,{settings.plan_date}-{next_due})", "day"), look=DUE),
    Computed("state", "State", logic('IF({days_late}>0,IF({days_late}>{const.days_very_late},"◆ very late","◆ late"),'
                                     'IF({next_due}={settings.plan_date},"due today",IF({next_due}-{settings.plan_date}<={const.soon_days},"due soon","later")))'), kind=text(), look=Look("When it is due", 13, status=True)),
    Said(look=Look("When it is due", 46)),
    Typed("minutes", "Minutes", number(0, 1440), unit="min", look=Look("The task", 9, "0")),
    Typed("supplies", "Supplies", text(), look=Look("The task", 26)),
    Typed("task_note", "Note", text(), look=Look("The task", 40)),
    Computed("first_day", "First day of this week", logic("MAX({next_due},{settings.plan_date})-{settings.plan_date}", "1"), look=Look(working=True, show="0")),
    Computed("order", "Order in the week", logic('IF({first_day}<7,{first_day}+{line}/10^6,"")', "1"), look=Look(working=True, width=11, show="0.000000")),
    Computed("in_tank", "Tank, date and line", logic("{tank_row}*10^6*10^5+{next_due}*10^5+{line}", "1"), look=Look(working=True, width=16, show="0"), help="The order of the tank cards."),
    Flag("very_late", "Task very late", seriousness="watch", when="{days_late}>{const.days_very_late}", why="it was due on {next_due}", do="Do it today, or type the date you did it; lengthen the interval if it was never needed so often."),
    Flag("late", "Task late", seriousness="watch", when="AND({days_late}>0,{days_late}<={const.days_very_late})", why="it was due on {next_due}", do="Do it, then type the date under Last done."),
))

SHEET = Sheet("Maintenance", role="input", blocks=(MAINTENANCE,), frozen_columns=2,
              purpose="Tasks with their rhythm. Type the date under Last done; the next date, how late it is and This week follow.",
              notes=("Electricity: test residual-current (ground-fault) protection, keep drip loops, unplug before hands go in. Gloves for open cuts, never start a siphon by mouth, wash afterwards.",))
