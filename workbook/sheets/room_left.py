"""Room left: what each display tank can still take, by every measure of Stocking and species by species."""

from dataclasses import replace

from workbook.equations import feeding, headroom, metabolism, nitrogen
from workbook.sheets.fullest import MEASURES
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.formula import Formula
from workbook.tables.idioms import only_if
from workbook.tables.template import here, quoted

TANK, SHARE, MONEY, LINE = (
    Look("Each tank", 9, "0"),
    Look("Share of each limit, as it is", 10, "0%", measure="load"),
    Look("Its stock", 11, "0.00"),
    Look("Each line of animals", 9, "0"),
)
FITS, BY = replace(SHARE, measure="fit"), Look("Until the limit of each measure", 11, "0")
COUNT, HIDDEN = Look(working=True, show="0"), Look(working=True, show="0.0000")

TANKS = Table(
    "room_tanks",
    title="Each display tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="The mixed species there, as it is: 100 % is the limit.",
    columns=(
        Pulled("tank", via="tanks", look=Look("Each tank", 20)),
        Pulled("animals", via="tanks", of="stocking.animals", look=TANK),
        Pulled("residents", via="tanks", of="company.residents", label="Lines", look=TANK),
        Pulled("binding", via="tanks", of="stocking.binding", look=Look("Each tank", 14)),
        *(
            Pulled(
                f"{key}_share",
                via="tanks",
                of=f"stocking.{key}_share",
                look=FITS if key in {"swim", "volume"} else SHARE,
            )
            for key, _ in MEASURES
        ),
        Computed(
            "value_cost",
            "At cost",
            logic("SUMIFS({stock.value_cost[]},{stock.tank_row[]},{line})", "currency", needs=("tank",)),
            look=MONEY,
            help="All that stands there, plants too; lines without a cost count for nothing.",
        ),
        Computed(
            "value_price",
            "At price",
            logic("SUMIFS({stock.value_price[]},{stock.tank_row[]},{line})", "currency", needs=("tank",)),
            look=MONEY,
        ),
        Computed(
            "rise",
            "Nitrate rise of its animals",
            nitrogen.nitrate_rise(
                ammonia="{ammonia}", days="{change_interval}", volume="{net_volume}", yield_="{yield_used}"
            ),
            look=HIDDEN,
        ),
        Pulled("ammonia", via="tanks", of="stocking.ammonia"),
        Pulled("change_interval", via="tanks"),
        Pulled("net_volume", via="tanks"),
        Pulled("yield_used", via="tanks", of="changes.yield_used"),
    ),
)


def shared_out(carried: Formula, taken: str, each: str) -> Formula:
    """How many animals share what a tank carries beyond what is taken, each taking so much."""
    return logic("({carried}-({taken}))/{each_takes}", "1", carried=carried, taken=taken, each_takes=here(each))


BOUND = "{by_nitrate}:{by_bottom}"
NAMES = tuple(quoted(label) for key, label in MEASURES if key in {"nitrogen", "oxygen", "bottom"})

LINES = Table(
    "room_lines",
    title="Each line",
    rows_of="stock",
    row_name=("code",),
    purpose="How many more of the same its tank can take, all else as it is.",
    columns=(
        Pulled("code", via="stock", look=Look("Each line of animals", 11)),
        Pulled("species", via="stock", look=Look("Each line of animals", 24)),
        Pulled("tank", via="stock", look=Look("Each line of animals", 18)),
        Pulled("animals", via="stock", label="In it now", look=LINE),
        Computed(
            "more",
            "More it could take",
            logic(
                'IF({too_small}<>"",0,MAX(0,INT(ROUND(MIN({by_each_measure}),6))))',
                "1",
                needs=("by_nitrate", "by_oxygen", "bottom_wanted"),
                by_each_measure=BOUND,
            ),
            look=LINE,
            help="Of this species and size; company and water are judged on Livestock and Overlap.",
        ),
        Computed(
            "limit",
            "Then the limit is",
            logic(
                'IF({too_small}<>"",{too_small},CHOOSE(MATCH(MIN({by_each_measure}),{by_each_measure},0),{names}))',
                needs=("more",),
                by_each_measure=BOUND,
                names=NAMES,
            ),
            kind=text(),
            look=Look("Each line of animals", 15),
        ),
        Computed(
            "short",
            "Short of its group",
            logic("MAX(0,{group_min}-{together})", "1"),
            look=LINE,
            help="How many more it wants for its smallest group, all lines of the tank counted.",
        ),
        Computed(
            "by_nitrate",
            "Water change",
            only_if(
                "{settings.nitrate_target}>{water_nitrate}",
                shared_out(
                    headroom.nitrate_carried(
                        target="{settings.nitrate_target}", source="{water_nitrate}", share="{change_share}"
                    ),
                    "{rise}-{uptake}*{change_interval}/7",
                    "rise_each",
                ),
                "0",
            ),
            look=BY,
            help="Below zero: so many too many already.",
        ),
        Computed(
            "by_oxygen",
            "Oxygen",
            shared_out(headroom.draw_carried(saturation="{saturation}", volume="{net_volume}"), "{draw}", "draw_each"),
            look=BY,
        ),
        Computed(
            "by_bottom",
            "Bottom room",
            only_if("{bottom_each}>0", shared_out(logic("{plan_area}", "cm2"), "{bottom_wanted}", "bottom_each")),
            look=BY,
            help="Blank: it wants no bottom of its own.",
        ),
        Pulled("tank_row", via="stock"),
        Computed(
            "too_small",
            "Tank too small for it",
            logic(
                'IF({swim_length}<{length_wanted}*(1-{const.nominal_allowance}),"Swim room",'
                'IF({net_volume}<{volume_min}*(1-{const.nominal_allowance}),"Volume",""))'
            ),
            kind=text(),
            look=Look(working=True, width=12),
        ),
        Computed(
            "oxygen_each",
            "Oxygen draw of one",
            metabolism.routine_oxygen(
                resting=metabolism.resting_oxygen(mass="{mass_each}", temperature="{temperature}")
            ),
            look=HIDDEN,
        ),
        Computed(
            "food_each",
            "Dry food of one",
            feeding.with_growth(ration=feeding.ration(oxygen="{oxygen_each}"), factor="{feed_factor_used}"),
            look=Look(working=True, show="0.000000"),
        ),
        Computed(
            "ammonia_each",
            "Ammonia nitrogen of one",
            nitrogen.with_fasting(
                ammonia=nitrogen.ammonia_from_food(food="{food_each}", protein="{protein}"),
                fasting_days="{fasting_days}",
            ),
            look=Look(working=True, show="0.000000"),
        ),
        Computed(
            "rise_each",
            "Nitrate rise by one",
            nitrogen.nitrate_rise(
                ammonia="{ammonia_each}", days="{change_interval}", volume="{net_volume}", yield_="{yield_used}"
            ),
            look=HIDDEN,
        ),
        Computed(
            "draw_each",
            "Oxygen draw by one",
            logic("{oxygen_each}+{bacteria}", "mg/h", bacteria=nitrogen.nitrification_oxygen(ammonia="{ammonia_each}")),
            look=HIDDEN,
        ),
        Computed(
            "bottom_each",
            "Bottom for one",
            logic("({bottom_factor}*{adult_length})^2", "cm2"),
            look=Look(working=True, show="0.0"),
        ),
        *(
            Pulled(key, via="stock", of=f"livestock.{key}")
            for key in (
                "mass_each",
                "feed_factor_used",
                "protein",
                "adult_length",
                "bottom_factor",
                "length_wanted",
                "volume_min",
                "group_min",
                "together",
            )
        ),
        *(
            Pulled(key, via="tank", of=f"stocking.{key}")
            for key in (
                "saturation",
                "draw",
                "uptake",
                "bottom_wanted",
                "water_nitrate",
                "change_share",
                "change_interval",
                "fasting_days",
                "yield_used",
                "net_volume",
                "swim_length",
                "plan_area",
                "temperature",
            )
        ),
        Pulled("rise", via="tank", of="room_tanks.rise"),
    ),
)

SHEET = Sheet(
    "Room left",
    blocks=(TANKS,),
    frozen_columns=1,
    purpose=(
        "Which display tank is how full by every measure, what stops it first, and what its stock is worth. "
        "Line by line: Room by line."
    ),
    notes=("Planning estimates, good to about a third: test the water and watch the animals.",),
)
BY_LINE = Sheet(
    "Room by line",
    blocks=(LINES,),
    frozen_columns=3,
    purpose="Before a delivery: of each line of animals, how many more its tank could take, and what stops it first.",
    notes=(
        "How many more holds for one line at a time: what one takes, the others no longer have.",
        "A freshly stocked tank takes weeks until its filter follows; test ammonia and nitrite.",
    ),
)
