"""The path of nitrate over the next twelve water changes of a chosen tank."""

from workbook.equations import nitrogen
from workbook.sheets import log_chart
from workbook.sheets.in_view import tank_shown
from workbook.tables import Chart, Charts, Computed, Look, Series, Table, logic, text
from workbook.tables.idioms import cell, row_of
from workbook.tables.template import here

HIDDEN, COUNT = Look(working=True, show="0.00"), Look(working=True, show="0")

CHOICE = Table(
    "path_choice",
    title="Tank for the path",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=(
        *tank_shown("Tank for the path", "The chart shows its next twelve changes, the first of them today."),
        Computed(
            "title",
            "Chart",
            logic('"Nitrate over the next twelve changes: "&{in_view}'),
            kind=text(),
            look=Look(width=22, runs_on=True),
        ),
    ),
)


def chosen(column: str) -> str:
    """A column of Water changes in the row of the chosen tank."""
    return cell(here(f"{column}[]"), "{chosen_row}")


PATH = Table(
    "path",
    title="The next twelve changes",
    lines=13,
    row_name=("number",),
    purpose="",
    columns=(
        Computed("chosen_row", "Row of the chosen tank", row_of("{path_choice.in_view}", "{tanks.tank[]}"), look=COUNT),
        Computed("number", "Change", logic("{line}-1", "1", copes=True), look=COUNT),
        Computed(
            "start",
            "One rise before today",
            logic(
                "IF(ISNUMBER({now}),{now}-{rise},{after_a_change})",
                "mg/L",
                needs=("chosen_row", "rise"),
                now=chosen("changes.nitrate_now"),
                after_a_change=chosen("changes.nitrate_trough"),
            ),
            look=HIDDEN,
        ),
        Computed(
            "rise",
            "Rise between changes",
            logic(chosen("stocking.nitrate_interval"), "mg/L", needs=("chosen_row",)),
            look=HIDDEN,
        ),
        Computed(
            "share", "Share changed", logic(chosen("changes.change_share"), "1", needs=("chosen_row",)), look=HIDDEN
        ),
        Computed(
            "source",
            "Source nitrate",
            logic(chosen("changes.water_nitrate"), "mg/L", needs=("chosen_row",)),
            look=HIDDEN,
        ),
        Computed(
            "before",
            "Before the change",
            nitrogen.level_after_changes(
                start="{start}", rise="{rise}", share="{share}", source="{source}", number="{number}"
            ),
            look=HIDDEN,
        ),
        Computed(
            "after",
            "After the change",
            nitrogen.level_after_change(before="{before}", share="{share}", source="{source}"),
            look=HIDDEN,
        ),
        Computed(
            "target",
            "Target",
            logic("{settings.nitrate_target}", "mg/L", needs=("before", "settings.nitrate_target")),
            look=HIDDEN,
        ),
    ),
)

CHARTS = Charts(
    "path_charts",
    (
        Chart(
            "Nitrate over the next twelve changes",
            axis="nitrate, mg/L",
            over_time=True,
            days="number",
            days_axis="change number, 0 is today",
            width=640,
            height=380,
            low=0,
            describes=(
                "Lines: nitrate of the chosen tank before and after each of the next twelve planned changes, "
                "and the target."
            ),
            series=(
                Series("Before the change", "path.number", "path.before", "value"),
                Series("After the change", "path.number", "path.after", "range"),
                Series("Target", "path.number", "path.target", "shared"),
            ),
        ),
        log_chart.CHART,
    ),
    columns=10,
    across=1,
    on_paper=False,
)
