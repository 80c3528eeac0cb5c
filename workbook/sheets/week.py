"""The week ahead: what is due on each day, to print, pin up and tick off."""

from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.idioms import cell_of

DAYS = 7
NAMES = '"Mon","Tue","Wed","Thu","Fri","Sat","Sun"'


def day(n: int) -> Computed:
    """One day: a box to tick where the task falls on it. The day's name stands in the header."""
    date = f"({{settings.plan_date}}+{n})"
    due = f"AND({n}>={{first_day}},MOD({n}-{{first_day}},{{every_days}})=0)"
    return Computed(f"day_{n + 1}", "Today" if n == 0 else "", logic(f'IF({due},"☐","")'), kind=text(), look=Look("Tick when done", 7),
                    seed=f'CHOOSE(WEEKDAY({date},2),{NAMES})&" "&DAY({date})')


WEEK = Table("week", title="This week", lines=80, row_name=("task",), purpose="Late tasks stand under today.", columns=(
    Computed("task", "Task", cell_of("{maintenance.task[]}", "{row}"), kind=text(), look=Look("Task", 40)),
    Computed("tank", "Tank", cell_of("{maintenance.tank[]}", "{row}"), kind=text(), look=Look("Task", 18)),
    *(day(n) for n in range(DAYS)),
    Computed("minutes", "Minutes", cell_of("{maintenance.minutes_used[]}", "{row}", "min"), look=Look("Task", 8, "0")),
    Computed("late", "Days late", logic('IF({days_late}>0,{days_late},"")', "day"), look=Look("Task", 7, "0")),
    Computed("supplies", "Supplies", cell_of("{maintenance.supplies_used[]}", "{row}"), kind=text(), look=Look("Task", 26)),
    Computed("row", "Row of Maintenance", logic('IF({line}>COUNT({maintenance.order[]}),"",MATCH(SMALL({maintenance.order[]},{line}),{maintenance.order[]},0))', "1", copes=True), look=Look(working=True, show="0")),
    Computed("first_day", "First day", cell_of("{maintenance.first_day[]}", "{row}", "1"), look=Look(working=True, show="0")),
    Computed("every_days", "Every", cell_of("{maintenance.every[]}", "{row}", "day"), look=Look(working=True, show="0")),
    Computed("days_late", "Late by", cell_of("{maintenance.days_late[]}", "{row}", "day"), look=Look(working=True, show="0")),
))


def of_day(text_: str) -> str:
    """Formula text: the same for the column of each day, picked by the line."""
    return f"CHOOSE({{line}},{','.join(text_.replace('@', str(n)) for n in range(1, DAYS + 1))})"


BY_DAY = Table("week_days", title="Minutes by day", lines=DAYS, row_name=("name",), purpose="How long each day takes.", columns=(
    Computed("name", "Day", logic(f"CHOOSE(WEEKDAY({{settings.plan_date}}+{{line}}-1,2),{NAMES})&\" \"&DAY({{settings.plan_date}}+{{line}}-1)"), kind=text(), look=Look("Each day", 9)),
    Computed("tasks", "Tasks", logic(of_day('COUNTIF({week.day_@[]},"☐")'), "1"), look=Look("Each day", 7, "0")),
    Computed("minutes", "Minutes", logic(of_day('SUMIFS({week.minutes[]},{week.day_@[]},"☐")'), "min"), look=Look("Each day", 9, "0")),
))

BY_TANK = Table("week_tanks", title="Tank by tank", rows_of="tanks", row_name=("tank",), purpose="Food and water of each tank; the foods stand on Feeding.", columns=(
    Pulled("tank", via="tanks", look=Look("Each tank", 20)),
    Pulled("grams_day", via="tanks", of="feeding_tanks.grams_day", label="Food a day, as fed", look=Look("Each tank", 9)),
    Pulled("meals", via="tanks", look=Look("Each tank", 8)),
    Pulled("fasting_days", via="tanks", label="Fasting days", look=Look("Each tank", 8)),
    Computed("litres", "Water at a change", logic("{net_volume}*{change_share}", "L"), look=Look("Each tank", 9, "0.0")),
    Pulled("change_interval", via="tanks", label="every", look=Look("Each tank", 7)),
    Pulled("net_volume", via="tanks"),
    Pulled("change_share", via="tanks"),
))

SUMMARY = Table("week_summary", title="The week at a glance", form=True, row_name=("due",), purpose="", columns=(
    Computed("due", "Tasks due in seven days", logic("COUNT({maintenance.order[]})", "1"), look=Look(show="0")),
    Computed("minutes", "Minutes in all", logic("SUM({week_days.minutes[]})", "min"), look=Look(show="0")),
    Computed("shown", "Listed below", logic('IF({due}>ROWS({week.line[]}),"◆ only the first "&ROWS({week.line[]})&" tasks","all of them")'), kind=text(), look=Look(width=22, status=True)),
))

SHEET = Sheet("This week", role="printable", blocks=(WEEK, BY_DAY, BY_TANK), forms=(SUMMARY,), new_page_before=("week_days",), frozen_columns=0,
              purpose="From the plan date on: what is due on which day. Print it, pin it up, tick it off; then type the dates on Maintenance.")
