"""Foods: what is in the cupboard and the freezer, what it costs and how long it lasts."""

from workbook.equations import feeding, reorder
from workbook.sheets.so_far import running_list
from workbook.tables import Computed, Flag, Look, Said, Sheet, Table, Typed, choice, date, key, logic, number, text
from workbook.tables.idioms import counted, only_if

FOOD, USE = Look("The food", 10, "0.00"), Look("How long it lasts", 11, "0.00")

PIECES = ("cube", "wafer", "tablet", "stick", "pinch")

FOODS = Table(
    "foods",
    title="Foods",
    row_name=("food",),
    enough=("food", "food_form", "protein", "dry_matter"),
    often=(
        "food",
        "food_form",
        "stock",
        "pack_mass",
        "pack_price",
        "protein",
        "dry_matter",
        "spoon_mass",
        "piece",
        "piece_mass",
        "particle",
        "food_note",
    ),
    first="days_left",
    purpose="One row for each food.",
    columns=(
        Typed("food", "Food", key(), required=True, look=Look("The food", 26)),
        Typed(
            "food_form",
            "Form",
            choice("flake", "granule", "wafer", "powder", "frozen", "freeze-dried", "live", "fresh"),
            look=Look("The food", 12),
        ),
        Typed("stock", "On hand", number(0, 100000), unit="g", look=Look("The food", 10, "0.0", bought=True)),
        Said(look=Look("How long it lasts", 46)),
        Computed(
            "daily_use",
            "Use a day",
            logic("SUMIFS({feeding.grams_mean[]},{feeding.food_row[]},{line})", "g/day"),
            look=USE,
            help="Mean of the week over all tanks, as fed.",
        ),
        Computed(
            "days_left",
            "Days of stock",
            only_if("{daily_use}>0", reorder.days_of_stock(stock="{stock}", use="{daily_use}")),
            look=Look(USE.group, 10, "0"),
        ),
        Computed(
            "order_by",
            "Order by",
            only_if(
                "{days_left}<10^4", logic("{settings.plan_date}+INT(ROUND({days_left},6))-{settings.lead_days}", "date")
            ),
            kind=date(),
            look=Look(USE.group, 12),
            help="So that it arrives before the stock ends.",
        ),
        Computed(
            "monthly_cost",
            "Cost a month",
            reorder.monthly_cost(use="{daily_use}", price="{pack_price}", pack="{pack_mass}"),
            look=USE,
            help="In the room's currency.",
        ),
        Computed(
            "protein_dry",
            "Protein of dry matter",
            feeding.protein_of_dry_matter(label="{protein}", dry_matter="{dry_matter}"),
            look=Look(USE.group, 9, "0%"),
        ),
        Typed(
            "protein",
            "Protein on the label",
            number(0, 1),
            unit="1",
            look=Look("The food", 9, "0%"),
            help="Share as fed, such as 45 %.",
        ),
        Typed(
            "dry_matter",
            "Dry matter",
            number(0.01, 1),
            unit="1",
            look=Look("The food", 9, "0%"),
            help="Dry foods 90 to 95 %, frozen and live 10 to 20 %: 100 % less the moisture on the label.",
        ),
        Typed(
            "spoon_mass",
            "Level teaspoon",
            number(0.01, 20),
            unit="g",
            look=FOOD,
            help="Weigh your own: level it off at 4.93 mL.",
        ),
        Typed(
            "piece",
            "Piece",
            choice(*PIECES),
            look=Look("The food", 8),
            help="What it is given by, where it comes in pieces or is taken by the pinch.",
        ),
        Typed(
            "piece_mass",
            "One piece",
            number(0.001, 100),
            unit="g",
            look=FOOD,
            help="Weigh ten of your own; of frozen food a pack shared out over its cubes.",
        ),
        Typed("particle", "Particle size", number(0.005, 100), unit="mm", look=FOOD, help="As fed, after crushing."),
        Typed("pack_price", "Price of a pack", number(0, 100000), unit="1", look=FOOD),
        Typed("pack_mass", "Pack", number(0.1, 100000), unit="g", look=Look("The food", 9, "0.0", bought=True)),
        Typed("food_note", "Note", text(), look=Look("The food", 44)),
        Typed(
            "food_source",
            "Where its figures are from",
            text(),
            look=Look("The food", 34),
            help="The label, a published table, or memory. The label of your own pack knows better.",
        ),
        Computed(
            "unknown_rows",
            "Rows of the plan not known",
            logic(
                "{rows}-{known_rows}",
                "1",
                rows=counted("{feeding.food_row[]}"),
                known_rows=counted("{feeding.food_row[]}", '{feeding.grams_mean[]},">-1E+9"'),
            ),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "hatched_here",
            "Hatched here from cysts",
            logic(counted("{hatching.food_row[]}"), "1"),
            look=Look(working=True, show="0"),
        ),
        *running_list(
            "foods_wanted",
            "To order so far",
            '{none_left}&{runs_out}<>""',
            '{food}&IF({none_left}="",": lasts "&{@words.days_left},": none left")',
        ),
        Flag(
            "understated",
            "Use understated",
            seriousness="note",
            when="{unknown_rows}>0",
            why=(
                "rows of the feeding plan for it that can't be reckoned: {unknown_rows}; "
                "so it is used up faster than shown"
            ),
            do="Complete those tanks: volume, temperature, meals, fasting days; and dry matter of the food.",
        ),
        Flag(
            "none_left",
            "Out of stock",
            gathered=True,
            seriousness="watch",
            when="AND({stock}<=0,{daily_use}>0)",
            why="it stands in the feeding plan, but none is left",
            do="Order it, or put another food in its place on Feeding.",
        ),
        Flag(
            "runs_out",
            "Order now",
            gathered=True,
            seriousness="watch",
            when="AND({stock}>0,{order_by}<={settings.plan_date})",
            why="the stock lasts {days_left}, an order takes {settings.lead_days}",
            do="Order it today.",
        ),
        Flag(
            "cannot_reckon",
            "Food data missing",
            seriousness="note",
            copes=True,
            when='AND({food}<>"",OR({protein}="",{dry_matter}=""))',
            why=(
                "the default protein counts for it while protein or dry matter is missing; "
                "without dry matter its grams stay blank"
            ),
            do="Type both from the label.",
        ),
        Flag(
            "more_than_dry",
            "Protein above dry matter",
            seriousness="act",
            when="{protein}>{dry_matter}",
            why="protein {protein} cannot be more than dry matter {dry_matter}",
            do="Check both on the label.",
        ),
    ),
)

SHEET = Sheet(
    "Foods",
    role="input",
    blocks=(FOODS,),
    purpose=(
        "Foods with what is in them; beside it how fast the tanks use them up, when to order and what a month costs."
    ),
)
