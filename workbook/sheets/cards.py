"""Cards: a short card of every tank, three to a page, to cut out and pin up."""

from workbook.sheets.pages import WORDS, or_unknown
from workbook.sheets.parameters import PARAMETERS
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.formula import filled
from workbook.tables.idioms import of_run
from workbook.tables.sheet import Band
from workbook.tables.template import quoted

NEW_LINE, EMPTY_LINE = "CHAR(10)", "CHAR(10)&CHAR(10)"
# No longer sentence than has room on a card.
ROOM = 300


def lines(*texts: str) -> str:
    """Formula text: one text below the other."""
    return f"&{NEW_LINE}&".join(texts)


def with_values(template: str, *keys: str) -> str:
    """Formula text: a template in which the keys stand for values in words, or the word unknown."""
    return filled(template, **{key_: or_unknown(key_) for key_ in keys})


KEPT_AT = '&", "&'.join(
    filled("{name}&{value}", name=quoted(f"{p.label} "), value=or_unknown(p.kept)) for p in PARAMETERS[1:]
)
WATER = lines(
    'IF({place}="","place: unknown",{place})',
    with_values('{net_volume}&" net, set to "&{temperature}', "net_volume", "temperature"),
    KEPT_AT,
)
ROUTINE = lines(
    with_values('"Food: "&{grams_day}&" as fed"', "grams_day"),
    with_values('"Meals: "&{meals}&"; fasting days: "&{fasting_days}', "meals", "fasting_days"),
    with_values(
        '"Change "&{change_share}&" ("&{litres}&") every "&{change_interval}',
        "change_share",
        "litres",
        "change_interval",
    ),
    '"Power cut: "&IF({reserve}="","no hours reckoned","oxygen for "&{@words.reserve})',
)
ALWAYS = quoted("Unplug before hands go in. Gloves; no siphon by mouth. Never release animals, plants or water.")
FACTS = f"&{EMPTY_LINE}&".join((WATER, ROUTINE, ALWAYS))

CARDS = Table(
    "cards",
    title="",
    rows_of="tanks",
    row_name=("tank",),
    purpose="",
    row_height=300,
    a_page=3,
    columns=(
        Pulled("tank", via="tanks", look=Look(style="card name")),
        Computed(
            "facts", "Water and routine", logic(FACTS, needs=("tank",)), kind=text(), look=Look(style="card text")
        ),
        Computed(
            "company",
            "Who lives in it, what needs attention",
            logic(
                'IF({who}="","No animals live in it.",{how_many}&" in all: "&{who})&{empty_line}'
                '&IF({open_all}=0,"Nothing needs attention.",'
                '"▲ "&{open_acts}&" to act on, ◆ "&{open_watches}&" to watch, ○ "&{open_notes}&" to note"'
                '&{new_line}&{short}&IF({short}={worst_sentence},""," …"))',
                needs=("tank", "open_all"),
                how_many=or_unknown("animals"),
                empty_line=EMPTY_LINE,
                new_line=NEW_LINE,
            ),
            kind=text(),
            look=Look(style="card text"),
        ),
        *(
            Pulled(key_, via="tanks")
            for key_ in (
                "place",
                "net_volume",
                "temperature",
                *(f"{p.key}_used" for p in PARAMETERS[1:]),
                "change_share",
                "change_interval",
                "meals",
                "fasting_days",
            )
        ),
        *(
            Pulled(of.partition(".")[2], via="tanks", of=of)
            for of in (
                "week_tanks.litres",
                "stocking.reserve",
                "stocking.animals",
                "feeding_tanks.grams_day",
                "company.residents",
                "company.run_end",
                "open_flags.open_all",
                "open_flags.open_acts",
                "open_flags.open_watches",
                "open_flags.open_notes",
                "open_flags.worst_sentence",
            )
        ),
        Computed("who", "Who lives in it", of_run("{roll.kept[]}"), kind=text(), look=WORDS),
        Computed(
            "short",
            "As much as has room",
            logic("LEFT({worst_sentence},{room})", copes=True, room=str(ROOM)),
            kind=text(),
            look=WORDS,
        ),
    ),
)

SHEET = Sheet(
    "Cards",
    role="printable",
    portrait=True,
    frozen_columns=0,
    grid=(21, 36, 33),
    bands=(Band(((CARDS,),)),),
    purpose=(
        "A short card of every tank, three to a page, to cut out and pin up. "
        "Tanks added on a page that is not full are printed too; for more, build again."
    ),
)
