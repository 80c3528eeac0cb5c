"""Labels: what each shelf label says, and sheets of them in common sizes, to print on plain or on ready-cut paper."""

from typing import NamedTuple

from workbook.tables import Computed, Look, Pulled, Sheet, Table, Typed, choice, logic, row, text
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import cell, in_rows_with, joined, picked
from workbook.tables.sheet import Band, Paper
from workbook.tables.template import column, here

LABELS = 480  # a whole number of rows in every size
LINES = ("name", "latin", "facts", "foot", "price")
# Pixels of a letter of 10 points where it is widest, and the letters that stand for a cell's padding.
WIDEST_LETTER, PADDING = 7.42, 0.72
COUNT, WORDS, SAID = Look(working=True, show="0"), Look(working=True, width=16), Look("On the label", 24)


class Size(NamedTuple):
    """A common size of label: its name and paper, how many across and down, pixels of its width and of each line."""

    key: str
    title: str
    says: str
    look: str
    paper: Paper
    across: int
    down: int
    width: int
    lines: tuple[int, int, int, int, int]


SIZES = (
    Size(
        "a4_24",
        "Labels A4 24",
        "24 on a sheet of A4, each 70 by 36 mm.",
        "medium",
        Paper("A4", 0, 0, 0.177, 0.15),
        3,
        8,
        264,
        (32, 18, 34, 16, 36),
    ),
    Size(
        "a4_8",
        "Labels A4 8",
        "8 on a sheet of A4, each 105 by 70 mm.",
        "large",
        Paper("A4", 0, 0, 0.335, 0.3),
        2,
        4,
        396,
        (64, 34, 70, 28, 68),
    ),
    Size(
        "letter_30",
        "Labels Letter 30",
        "30 on a sheet of US Letter, each 2 5/8 by 1 inch.",
        "small",
        Paper("Letter", 0.1875, 0, 0.5, 0.45),
        3,
        10,
        264,
        (23, 14, 22, 12, 25),
    ),
    Size(
        "letter_10",
        "Labels Letter 10",
        "10 on a sheet of US Letter, each 4 by 2 inches.",
        "wide",
        Paper("Letter", 0.15, 0, 0.5, 0.45),
        2,
        5,
        400,
        (46, 24, 50, 20, 52),
    ),
)

FIELDS = (
    ("show_latin", "Scientific name", ""),
    ("show_length", "What it grows to", ""),
    ("show_group", "Smallest group", ""),
    ("show_temperature", "Temperature", ""),
    ("show_ph", "pH", ""),
    ("show_code", "Code", ""),
    ("show_sale", "May be sold from", "Only while it is in quarantine."),
    ("show_price", "Price", "In the currency typed on Start."),
)
CHOICE = Table(
    "label_choice",
    title="What the labels say",
    form=True,
    chosen=True,
    row_name=("show_latin",),
    purpose="",
    columns=(
        *(Typed(key_, label, choice("yes", "no"), look=Look(width=12), help=said) for key_, label, said in FIELDS),
        Computed(
            "wanted",
            "Labels wanted",
            logic("SUM({stock.label[]})", "1"),
            look=Look(show="0"),
            help="Typed line by line under Labels on Stock list.",
        ),
        Computed(
            "shown",
            "Made",
            logic('IF({wanted}>ROWS({labels.line[]}),"◆ only the first "&ROWS({labels.line[]}),"all of them")'),
            kind=text(),
            look=Look(width=22, status=True),
        ),
    ),
)


def told(field: str, test: str, words: str) -> tuple[str, str]:
    """Test and text of a part of a label, if it was chosen."""
    return filled('AND({label_choice.show_*}="yes",{test})', each=field, test=test), words


def if_chosen(field: str, test: str, words: str) -> Formula:
    """One part, blank unless it was chosen."""
    return logic('IF(AND({label_choice.show_*}="yes",{test}),{words},"")', each=field, test=test, words=words)


# Cents as a whole number: no office program may show the decimals of its own language.
MONEY = filled(
    'INT({cents}/100)&"."&TEXT(MOD({cents},100),"00")&IF({settings.currency}="",""," "&{settings.currency})',
    cents="ROUND({price}*100,0)",
)

LIST = Table(
    "labels",
    title="Every label",
    lines=LABELS,
    row_name=("name",),
    single=True,
    purpose="In the order of Stock list; a line for which more labels are wanted stands as many times.",
    columns=(
        Computed(
            "row",
            "Its row",
            logic('IF({line}>SUM({stock.label[]}),"",COUNTIF({stock.label_from[]},"<="&{line}))', "1", copes=True),
            kind=row("stock"),
            look=COUNT,
        ),
        Pulled("name", via="row", label="Name", look=SAID),
        Computed(
            "latin",
            "Scientific name",
            in_rows_with("row", if_chosen("latin", '{scientific}<>""', "{scientific}")),
            kind=text(),
            look=SAID,
        ),
        Computed(
            "facts",
            "What it wants",
            in_rows_with(
                "row",
                joined(
                    told("length", '{adult_length}<>""', '"grows to "&{@words.adult_length}'),
                    told("group", "SUM({group_min})>1", '"group of "&{group_min}&" or more"'),
                    told(
                        "temperature",
                        "COUNT({used_temperature_low},{used_temperature_high})=2",
                        '{@words.used_temperature_low}&" to "&{@words.used_temperature_high}',
                    ),
                    told(
                        "ph",
                        "COUNT({used_ph_low},{used_ph_high})=2",
                        '"pH "&{@words.used_ph_low}&" to "&{@words.used_ph_high}',
                    ),
                    between=", ",
                ),
            ),
            kind=text(),
            look=Look("On the label", 60),
        ),
        Computed(
            "foot",
            "Code and sale",
            in_rows_with(
                "row",
                joined(
                    told("code", '{code}<>""', "{code}"),
                    told("sale", "SUM({waiting})=1", '"for sale from "&{@words.quarantine_until}'),
                    between="   ",
                ),
            ),
            kind=text(),
            look=SAID,
        ),
        Computed(
            "price_said",
            "Price",
            in_rows_with("row", if_chosen("price", "COUNT({price})=1", MONEY)),
            kind=text(),
            look=Look("On the label", 12),
        ),
        *(
            Pulled(key_, via="row", look=WORDS)
            for key_ in ("code", "price", "waiting", "quarantine_until", "species", "species_row")
        ),
        *(
            Pulled(key_, via="species", look=WORDS)
            for key_ in (
                "scientific",
                "adult_length",
                "group_min",
                "used_temperature_low",
                "used_temperature_high",
                "used_ph_low",
                "used_ph_high",
            )
        ),
    ),
)

SHOWN = ("name", "latin", "facts", "foot", "price_said")


def sheet_of(size: Size) -> Sheet:
    """A sheet of labels of one size: five lines make a label, so many stand side by side."""
    # Programs reckon the width of a letter differently: no column may come out wider than its label anywhere.
    grid = tuple(size.width / WIDEST_LETTER - PADDING for _ in range(size.across))

    def label(place: int) -> Computed:
        number = f"({here('band')}*{size.across}+{place})"
        lines = [cell(column("labels", key_), number) for key_ in SHOWN]
        said = logic(picked("{part}", lines), copes=True)
        return Computed(f"label_{place}", "", said, kind=text(), look=Look(style=f"label {size.look} facts"))

    rows = LABELS // size.across * len(LINES)
    columns = tuple(label(place) for place in range(1, size.across + 1))
    table = Table(
        f"labels_{size.key}",
        title="",
        lines=rows,
        row_name=("label_1",),
        purpose="",
        a_page=size.down * len(LINES),
        turns=tuple((f"label {size.look} {part}", pixels) for part, pixels in zip(LINES, size.lines, strict=True)),
        columns=(
            *columns,
            Computed(
                "band",
                "Rows of labels above",
                logic("INT(({line}-1)/{lines_each})", "1", lines_each=str(len(LINES))),
                look=COUNT,
            ),
            Computed(
                "part",
                "Line of the label",
                logic("{line}-{band}*{lines_each}", "1", lines_each=str(len(LINES))),
                look=COUNT,
            ),
        ),
    )
    return Sheet(
        size.title,
        role="printable",
        portrait=True,
        frozen_columns=0,
        grid=grid,
        bands=(Band(((table,),)),),
        paper=size.paper,
        purpose=f"{size.says} Print at 100 %, without fitting to the page. Only labels are printed.",
    )


SHEET = Sheet(
    "Labels",
    role="printable",
    blocks=(LIST,),
    left=(CHOICE,),
    purpose=(
        "What stands on each shelf label. Type under Labels on Stock list how many you want; "
        "then print the sheet of your size."
    ),
    notes=(
        "On plain paper: print and cut along the hairlines.",
        "On ready-cut paper: print one sheet on plain paper first and hold the two against the light.",
        "Programs and printers differ: widen the columns of the label sheet until they meet.",
    ),
)
SHEETS = tuple(sheet_of(size) for size in SIZES)
