"""Cards: a short card of every tank, three to a page, to cut out and pin up."""

from workbook.sheets.pages import COUNT, WORDS, or_unknown
from workbook.sheets.parameters import PARAMETERS
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.idioms import all_said, in_rows_with, of_run, pieces
from workbook.tables.schema import SEPARATOR
from workbook.tables.sheet import Band

# What is said of a tank itself, most deadly first; what is said of its animals comes from the roll.
SAYING = ("readings", "stocking", "changes", "tanks", "overlap", "feeding_tanks")
NEW_LINE, EMPTY_LINE = "CHAR(10)", "CHAR(10)&CHAR(10)"
# No longer sentence than has room on a card.
ROOM = 300


def said(key_: str, label: str, level: str) -> Computed:
    """All that is said of a tank at one level."""
    return Computed(key_, label, in_rows_with("tank", all_said([f"{{{table}_{level}}}" for table in SAYING], SEPARATOR)), kind=text(), look=WORDS)


KEPT_AT = '&", "&'.join(f'"{p.label} "&{or_unknown(f"{p.key}_used")}' for p in PARAMETERS[1:])
FACTS = f"&{NEW_LINE}&".join((
    'IF({place}="","place: unknown",{place})',
    f'{or_unknown("net_volume")}&" net, set to "&{or_unknown("temperature")}',
    KEPT_AT,
)) + f"&{EMPTY_LINE}&" + f"&{NEW_LINE}&".join((
    f'"Food: "&{or_unknown("grams_day")}&" as fed"',
    f'"Meals: "&{or_unknown("meals")}&"; fasting days: "&{or_unknown("fasting_days")}',
    f'"Change "&{or_unknown("change_share")}&" ("&{or_unknown("litres")}&") every "&{or_unknown("change_interval")}',
    '"Power cut: "&IF({reserve}="","no hours reckoned","oxygen for "&{@words.reserve})',
)) + f'&{EMPTY_LINE}&"Unplug before hands go in. Gloves; no siphon by mouth. Never release animals, plants or water."'  # fmt: skip

FIRST = f'LEFT({{most}},SEARCH("{SEPARATOR}",{{most}}&"{SEPARATOR}")-1)'

CARDS = Table("cards", title="", rows_of="tanks", row_name=("tank",), purpose="", row_height=300, a_page=3, columns=(
    Pulled("tank", via="tanks", look=Look(style="card name")),
    Computed("facts", "Water and routine", logic(FACTS, needs=("tank",)), kind=text(), look=Look(style="card text")),
    Computed("company", "Who lives in it, what needs attention", logic(
        f'IF({{who}}="","No animals live in it.",{or_unknown("animals")}&" in all: "&{{who}})&{EMPTY_LINE}&'
        f'IF({{most}}="","Nothing needs attention.","▲ "&{{acts}}&" to act on, ◆ "&{{watches}}&" to watch"&{NEW_LINE}&{{short}}&IF({{short}}={{first}},""," …"))', needs=("tank",)), kind=text(), look=Look(style="card text")),
    *(Pulled(key_, via="tanks") for key_ in ("place", "net_volume", "temperature", *(f"{p.key}_used" for p in PARAMETERS[1:]), "change_share", "change_interval", "meals", "fasting_days")),
    *(Pulled(of.partition(".")[2], via="tanks", of=of) for of in ("week_tanks.litres", "stocking.reserve", "stocking.animals", "feeding_tanks.grams_day", "company.residents", "company.run_end")),
    *(Pulled(f"{table}_{level}", via="tanks", of=f"{table}.said_{level}", label=f"{table}: {level}") for table in SAYING for level in ("act", "watch", "note")),
    Computed("who", "Who lives in it", of_run("{roll.kept[]}"), kind=text(), look=WORDS),
    Computed("of_animals", "Said of its animals", of_run("{roll.to_act[]}"), kind=text(), look=WORDS),
    said("said_now", "To act on", "act"), said("said_soon", "To watch", "watch"), said("said_too", "To note", "note"),
    Computed("most", "Most serious first", all_said(["{said_now}", "{of_animals}", "{said_soon}", "{said_too}"], SEPARATOR), kind=text(), look=WORDS),
    Computed("first", "The first of it", logic(FIRST, copes=True), kind=text(), look=WORDS),
    Computed("short", "As much as has room", logic(f"LEFT({{first}},{ROOM})", copes=True), kind=text(), look=WORDS),
    Computed("acts", "How many to act on", logic(f'{pieces("{said_now}", SEPARATOR)}+{pieces("{of_animals}", SEPARATOR)}', "1", needs=("tank",)), look=COUNT),
    Computed("watches", "How many to watch", logic(pieces("{said_soon}", SEPARATOR), "1", needs=("tank",)), look=COUNT),
))  # fmt: skip

SHEET = Sheet("Cards", role="printable", portrait=True, frozen_columns=0, grid=(21, 36, 33), bands=(Band(((CARDS,),)),),
              purpose="A short card of every tank, three to a page, to cut out and pin up. Tanks added on a page that is not full are printed too; for more, build again.")
