"""For a buyer: which lines of the stock list fit the tank somebody has at home, how many, and why others do not."""

from workbook.sheets.buyer_lines import LINES
from workbook.sheets.buyer_question import ANSWER, BEST, COMPANY_THERE, COUNT, LIVE, QUESTION
from workbook.tables import Computed, Look, Sheet, Table, logic, text
from workbook.tables.idioms import cell_of, nth_row
from workbook.tables.kinds import row
from workbook.tables.template import here


def of_line(key_: str, label: str, look: Look, found: str) -> Computed:
    """A text of the line that stands there."""
    return Computed(key_, label, cell_of(here(f"{found}[]"), "{found}"), kind=text(), look=look)


LIST = Table(
    "buyer_list",
    title="What fits",
    lines=BEST,
    row_name=("name",),
    single=True,
    purpose="What lies nearest to the middle of its ranges stands first.",
    columns=(
        of_line("name", "Species", Look("What fits, best first", 24), "stock.name"),
        of_line("how_many", "How many", Look("What fits, best first", 10), "buyer_lines.how_many"),
        Computed(
            "price",
            "Each",
            cell_of("{stock.price[]}", "{found}", "currency"),
            look=Look("What fits, best first", 9, "0.00"),
        ),
        of_line("tank", "Stands in", Look("What fits, best first", 15), "stock.tank"),
        of_line("code", "Code", Look("What fits, best first", 9), "stock.code"),
        of_line("caution", "Tell the buyer", Look("What fits, best first", 36), "stock.caution"),
        of_line("reasons", "It wants", Look("What fits, best first", 90), "buyer_lines.reasons"),
        Computed(
            "found",
            "Its row",
            logic(
                'IF({line}>COUNT({ranks}),"",MATCH(LARGE({ranks},{line}),{ranks},0))',
                "1",
                copes=True,
                ranks="{buyer_lines.rank[]}",
            ),
            kind=row("stock"),
            look=COUNT,
        ),
    ),
)

REFUSED = Table(
    "buyer_not",
    title="What does not fit",
    lines=BEST,
    row_name=("name",),
    single=True,
    purpose="The first lines of Stock list that may be sold, but not to this buyer.",
    columns=(
        of_line("name", "Species", Look("What does not fit, and why", 24), "stock.name"),
        of_line("why_not", "Why not", Look("What does not fit, and why", 70), "buyer_lines.why_not"),
        Computed("found", "Its row", nth_row("{line}", "{buyer_lines.not_no[]}"), kind=row("stock"), look=COUNT),
    ),
)

SHEET = Sheet(
    "For a buyer",
    role="choice",
    blocks=(LIST, REFUSED, LIVE, COMPANY_THERE, LINES),
    left=(QUESTION, ANSWER),
    new_page_before=("buyer_not",),
    purpose=(
        "Type the buyer's tank, its water and who lives there; "
        "the sheet lists what may be sold today and fits, with how many and why."
    ),
    notes=(
        (
            "Judged by the same ranges, sizes, mouths, tempers and oxygen as every other sheet, grown size counted. "
            "What is not typed is not judged: ask."
        ),
        (
            "A tank must be cycled before anything moves in. Planning estimates: they do not replace talking to the "
            "buyer. Restricted species: local law. Animals, plants and water are never released."
        ),
    ),
)
