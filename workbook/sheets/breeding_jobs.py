"""Jobs of the week that the broods ask for, one a line."""

from workbook.sheets.brood_steps import COUNT, DAY, SEPARATOR, WORDS
from workbook.tables import Computed, Look, Table, date, logic, text
from workbook.tables.idioms import cell, cell_of, iso_date, piece, piece_number, pieces, taken_as
from workbook.tables.template import column


def of_event(key_: str) -> str:
    """A column of Breeding in the row of the job's event."""
    return cell(column("breeding", key_), "{event_row}")


JOBS = Table(
    "breeding_jobs",
    title="Jobs of the week",
    lines=40,
    row_name=("task",),
    purpose="What the broods ask for within seven days; This week shows it.",
    columns=(
        Computed(
            "job_on", "From", piece_number(of_event("jobs_on"), "{job_no}", SEPARATOR, "date"), kind=date(), look=DAY
        ),
        Computed(
            "task",
            "Job",
            logic(
                '{species}&" of "&{day}&": "&{job}',
                needs=("job_no",),
                species=of_event("species"),
                day=iso_date(of_event("date")),
                job=piece(of_event("jobs_said"), "{job_no}", SEPARATOR),
            ),
            kind=text(),
            look=Look(working=True, width=40),
        ),
        Computed("tank", "Tank", cell_of("{breeding.tank[]}", "{event_row}"), kind=text(), look=WORDS),
        Computed(
            "event_row",
            "Row of its event",
            logic(
                'IF({line}>MAX({breeding.jobs_run[]}),"",SUMIFS({breeding.one[]},{breeding.jobs_run[]},"<"&{line})+1)',
                "1",
                copes=True,
            ),
            look=COUNT,
        ),
        Computed(
            "job_no",
            "Which of its jobs",
            logic(
                "{jobs}-({jobs_so_far}-{line})",
                "1",
                needs=("event_row",),
                jobs=pieces(of_event("jobs_on"), SEPARATOR),
                jobs_so_far=of_event("jobs_run"),
            ),
            look=COUNT,
        ),
        Computed("every_days", "Every", piece_number(of_event("jobs_every"), "{job_no}", SEPARATOR, "day"), look=COUNT),
        Computed(
            "first_day", "First day", taken_as(logic("MAX(0,{job_on}-{settings.plan_date})", "day"), "1"), look=COUNT
        ),
        Computed("days_late", "Late by", logic("MAX(0,{settings.plan_date}-{job_on})", "day"), look=COUNT),
        Computed(
            "order",
            "Order in the week",
            logic("{first_day}+1/10+{line}/10^6", "1"),
            look=Look(working=True, width=11, show="0.000000"),
        ),
    ),
)
