"""Feeding: how much each tank gets, of what, at each meal, in grams and spoons."""

from workbook.equations import feeding, nitrogen, reorder
from workbook.sheets.so_far import running_list
from workbook.tables import Computed, Flag, Look, Pulled, Said, Sheet, Table, Typed, link, logic, number, pulled, text
from workbook.tables.formula import filled
from workbook.tables.idioms import first_said, only_if, spoken, sum_of_rows, taken_as

PLAN, MEAL, TANK = Look("The plan", 9, "0%"), Look("Each meal", 10, "0.00"), Look("Each tank", 10, "0.00")


def parts(number: str) -> str:
    """Formula text: a number of pieces or spoons, to the nearest part that can be measured out."""
    return filled("ROUND({number}/{part},0)*{part}", number=number, part="{const.measured_part}")


IN_PIECES = logic(
    'IF({pieces_meal}<{const.measured_part},"less than "&{least}&" "&{piece},'
    '{said}&" "&{piece}&IF({rounded}>1,REPT("e",({piece}="pinch")*1)&"s",""))',
    needs=("pieces_meal", "piece", "const.measured_part"),
    least=spoken("{const.measured_part}", 2),
    said=spoken(parts("{pieces_meal}"), 2),
    rounded=parts("{pieces_meal}"),
)
IN_SPOONS = only_if(
    "{spoons_meal}>={const.measured_part}",
    logic(
        '{said}&" teaspoon"&IF({rounded}>1,"s","")',
        said=spoken(parts("{spoons_meal}"), 2),
        rounded=parts("{spoons_meal}"),
    ),
)

FEEDING = Table(
    "feeding",
    example={"tank": "Window tank", "food": "Flake, everyday", "share": 1},
    title="Feeding plan",
    row_name=("tank", "food"),
    purpose="One row for each food that a tank gets.",
    spare_rows=2,
    columns=(
        Typed("tank", "Tank", link("tanks"), required=True, look=Look("The plan", 20)),
        Typed("food", "Food", link("foods"), required=True, look=Look("The plan", 26)),
        Typed(
            "share",
            "Share of the ration",
            number(0, 1),
            unit="1",
            required=True,
            look=PLAN,
            help="By dry matter; the shares of a tank add up to 100 %.",
        ),
        Computed(
            "grams_meal",
            "Each meal",
            feeding.per_meal(daily="{as_fed}", meals="{meals}"),
            look=Look(MEAL.group, 10, "0.000"),
            help="As fed, on a feeding day.",
        ),
        Computed(
            "measured",
            "or about",
            first_said("{in_pieces}", "{in_spoons}"),
            kind=text(),
            look=Look(MEAL.group, 16),
            help="In pieces where it comes in pieces, else in level teaspoons from a quarter up, rounded to quarters.",
        ),
        Computed(
            "as_fed",
            "A day",
            feeding.as_fed(dry="{dry}", dry_matter="{dry_matter}"),
            look=Look(MEAL.group, 10, "0.000"),
        ),
        Said(look=Look("Each meal", 44)),
        Typed("feeding_note", "Note", text(), look=Look("The plan", 30)),
        Pulled("ration", via="tank", of="feeding_tanks.ration", label="Tank's dry ration"),
        Pulled("meals", via="tank"),
        Pulled("fasting_days", via="tank"),
        Pulled("mouth_min", via="tank", of="company.mouth_min", label="Finest food wanted"),
        Pulled("mouth_who", via="tank", of="company.mouth_who", label="by"),
        *pulled("food", "protein_dry", "dry_matter", "spoon_mass", "piece", "piece_mass", "particle"),
        Computed(
            "in_tank",
            "Tank and line",
            logic("{tank_row}*10^6+{line}", "1"),
            look=Look(working=True, width=11, show="0"),
            help="The order of the page of one tank.",
        ),
        Computed(
            "pieces_meal",
            "Pieces each meal",
            feeding.pieces(mass="{grams_meal}", piece_mass="{piece_mass}"),
            look=Look(working=True, show="0.000"),
        ),
        Computed(
            "spoons_meal",
            "Level teaspoons each meal",
            feeding.spoons(mass="{grams_meal}", spoon_mass="{spoon_mass}"),
            look=Look(working=True, show="0.000"),
        ),
        Computed("in_pieces", "In pieces", IN_PIECES, kind=text(), look=Look(working=True, width=16)),
        Computed("in_spoons", "In spoons", IN_SPOONS, kind=text(), look=Look(working=True, width=16)),
        Computed("dry", "Dry a day", logic("{ration}*{share}", "g/day"), look=Look(working=True, show="0.000")),
        Computed(
            "grams_mean",
            "Mean a day over the week",
            nitrogen.with_fasting(ammonia="{as_fed}", fasting_days="{fasting_days}"),
            look=Look(working=True, show="0.000"),
        ),
        Pulled("pack_price", via="food"),
        Pulled("pack_mass", via="food"),
        Computed(
            "cost",
            "Cost a month",
            reorder.monthly_cost(use="{grams_mean}", price="{pack_price}", pack="{pack_mass}"),
            look=Look(working=True, show="0.00"),
        ),
        Pulled("hatched_here", via="food"),
        Computed(
            "hatched_row",
            "Tank, where it is hatched here",
            logic('IF({hatched_here}>0,{tank_row},"")', "1"),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "protein_counted",
            "Protein reckoned with",
            logic('IF({protein_dry}="",{const.protein_default},{protein_dry})', "1", needs=("food",)),
            look=Look(working=True, show="0%"),
        ),
        Computed(
            "protein_part",
            "Its part of the protein",
            logic("{share}*{protein_counted}", "1"),
            look=Look(working=True, show="0.000"),
        ),
        *running_list(
            "coarse_foods",
            "Too coarse so far",
            '{too_coarse}<>""',
            '{row_label}&" for "&{mouth_who}',
        ),
        Flag(
            "too_coarse",
            "Particle too coarse",
            gathered=True,
            seriousness="watch",
            when="AND({share}>0,{particle}>{mouth_min})",
            why="its particles of {particle} are more than {mouth_who} takes, {mouth_min}",
            do="Crush or sieve it, or give those a finer food as well.",
        ),
    ),
)

BY_TANK = Table(
    "feeding_tanks",
    title="Feeding by tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="What each tank gets.",
    columns=(
        Pulled("tank", via="tanks", look=Look("Each tank", 20)),
        Pulled("ration", via="tanks", of="stocking.food", label="Dry ration a day", look=Look(TANK.group, 10, "0.000")),
        Pulled("meals", via="tanks", look=TANK),
        Pulled("fasting_days", via="tanks", look=TANK),
        Computed(
            "mass_share",
            "Of body mass",
            taken_as(logic('IF({mass}>0,{ration}/{mass},"")', "1/day"), "1"),
            look=Look(TANK.group, 9, "0.0%"),
            help="Customary: 1 to 3 %, up to 5 % for tiny fish.",
        ),
        Computed(
            "shares",
            "Shares add up to",
            logic("SUMIFS({feeding.share[]},{feeding.tank_row[]},{line})", "1"),
            look=Look(TANK.group, 9, "0%"),
        ),
        Computed(
            "protein",
            "Protein of the mix",
            logic(
                'IF({shares}>0,IF({protein_parts}="","",{protein_parts}/{shares}),{const.protein_default})',
                "1",
                needs=("shares", "const.protein_default"),
            ),
            look=Look(TANK.group, 9, "0%"),
            help="Of dry matter; the default where no food is planned.",
        ),
        Computed(
            "protein_day", "Protein a day", logic("{ration}*{protein}", "g/day"), look=Look(TANK.group, 10, "0.000")
        ),
        Computed(
            "grams_day",
            "As fed a day",
            sum_of_rows("{feeding.tank_row[]}", "{feeding.as_fed[]}", "g/day"),
            look=Look(TANK.group, 10, "0.000"),
        ),
        Computed(
            "monthly_cost",
            "Cost a month",
            sum_of_rows("{feeding.tank_row[]}", "{feeding.cost[]}"),
            look=Look(TANK.group, 10, "0.00"),
        ),
        Said(look=Look("Each tank", 46)),
        Pulled("mass", via="tanks", of="stocking.mass"),
        Computed(
            "protein_parts",
            "Parts of the protein",
            sum_of_rows("{feeding.tank_row[]}", "{feeding.protein_part[]}", "1"),
            look=Look(working=True, show="0.000"),
        ),
        Flag(
            "shares_off",
            "Food shares do not add up",
            gathered=True,
            seriousness="watch",
            when="AND({shares}>0,ABS({shares}-1)>{const.share_tolerance})",
            why="the shares of its foods add up to {shares}",
            do="Set them so that they add up to 100 %.",
        ),
        Flag(
            "no_food",
            "No food planned",
            gathered=True,
            seriousness="watch",
            when="AND({ration}>0,{shares}=0)",
            why="its animals want {ration}, but no food is planned for it",
            do="Add a row for this tank to the feeding plan.",
        ),
    ),
)

SHEET = Sheet(
    "Feeding",
    role="input",
    blocks=(FEEDING,),
    frozen_columns=2,
    purpose="Ration that covers everyday life at the tank's temperature, shared out over its foods and meals.",
    notes=(
        (
            "An estimate to start from: what is gone in about two minutes is enough; siphon off the rest. "
            "Fasting days: fish still give off ammonia."
        ),
    ),
)

TANKS_SHEET = Sheet(
    "Food by tank",
    role="detail",
    blocks=(BY_TANK,),
    purpose="What the foods of each tank add up to: its ration, its shares, the protein in them and what they cost.",
)
