"""Growing: what young animals measure by now, in some weeks and when they are grown, and how full that makes a tank."""

from collections.abc import Iterator

from workbook.equations import feeding, gases, mass, metabolism, nitrogen, rearing
from workbook.sheets.company import of_tank
from workbook.tables import Computed, Look, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula
from workbook.tables.idioms import only_if
from workbook.tables.template import here

HIDDEN, SHARE = Look(working=True, show="0.00"), Look(working=True, show="0%")
FINE = Look(working=True, show="0.0000")

# Key and words of each day that is looked at, besides today.
HORIZONS = (("later", "after growing on"), ("grown", "when all are grown"))

LATER = rearing.length_after(length="{length}", adult="{adult_length}", days="{const.growth_ahead}")
AT = {"later": LATER, "grown": logic("{adult_length}", "cm")}


def length_at(horizon: str, words: str) -> Computed:
    """Length on that day: a young animal's grows, any other stays."""
    young = logic('IF({young}="yes",{then},{length})', "cm", then=AT[horizon], needs=("length", "young"))
    return Computed(f"length_{horizon}", f"Length {words}", young, look=HIDDEN)


def load_at(horizon: str, words: str) -> Iterator[Column]:
    """What the group of that length weighs, breathes and gives off, fed as it is now."""
    longer = mass.of_longer(
        mass="{mass_each}", length="{length}", longer=here(f"length_{horizon}"), exponent="{mass_exponent}"
    )
    yield Computed(
        f"mass_{horizon}",
        f"Mass of one {words}",
        logic('IF({young}="yes",{longer},{mass_each})', "g", longer=longer, needs=("mass_each", "young")),
        look=FINE,
    )
    each = metabolism.routine_oxygen(
        resting=metabolism.resting_oxygen(mass=here(f"mass_{horizon}"), temperature="{tank_temperature}")
    )
    yield Computed(
        f"draw_{horizon}", f"Oxygen draw {words}", metabolism.of_group(each=each, animals="{living}"), look=HIDDEN
    )
    food = feeding.with_growth(ration=feeding.ration(oxygen=here(f"draw_{horizon}")), factor="{feed_factor_used}")
    yield Computed(
        f"nitrogen_{horizon}",
        f"Ammonia nitrogen {words}",
        nitrogen.ammonia_from_food(food=food, protein="{protein}"),
        look=FINE,
    )


# Columns of Livestock: from the day on which a length was measured to the plan date, and on from there.
MEASURED_SINCE = Computed(
    "days_grown", "Days since it was measured", logic("MAX(0,{settings.plan_date}-{measured_on})", "day"), look=HIDDEN
)
YOUNG = Computed(
    "young",
    "Still growing",
    logic(
        "IF(AND(COUNT({length_now},{adult_length})=2,SUM({length_now})>{const.fry_length},"
        'SUM({length_now})<SUM({adult_length})),"yes","no")',
        needs=("species", "const.fry_length"),
    ),
    kind=text(),
    look=HIDDEN,
)
BY_NOW = Computed(
    "length_by_now",
    "Length it has by now",
    only_if(
        '{young}="yes"',
        rearing.length_after(length="{length_now}", adult="{adult_length}", days="{days_grown}"),
    ),
    look=HIDDEN,
    help="Grown from the day on which it was measured; blank where no day was typed.",
)
OF_GROUPS: tuple[Column, ...] = (
    MEASURED_SINCE,
    YOUNG,
    BY_NOW,
    *(column for horizon, words in HORIZONS for column in (length_at(horizon, words), *load_at(horizon, words))),
)
SUMMED = tuple(
    (f"{what}_{horizon}", unit, f"{label} {words}")
    for horizon, words in HORIZONS
    for what, unit, label in (("draw", "mg/h", "Oxygen draw"), ("nitrogen", "g/day", "Ammonia nitrogen"))
)


def ammonia_at(horizon: str) -> Formula:
    """Ammonia nitrogen a day on that day, mean of the week."""
    return nitrogen.with_fasting(ammonia=here(f"nitrogen_{horizon}"), fasting_days="{fasting_days}")


def changes_at(horizon: str, words: str) -> Iterator[Column]:
    """What must be changed on that day against what is planned."""
    yield Computed(f"draw_{horizon}", f"Oxygen draw {words}", of_tank(f"draw_{horizon}", "mg/h", "0"), look=HIDDEN)
    yield Computed(
        f"nitrogen_{horizon}",
        f"Ammonia nitrogen {words}",
        of_tank(f"nitrogen_{horizon}", "g/day", "0"),
        look=FINE,
    )
    rise = nitrogen.nitrate_rise(
        ammonia=ammonia_at(horizon), days="{change_interval}", volume="{net_volume}", yield_="{yield_used}"
    )
    yield Computed(
        f"rise_{horizon}",
        f"Nitrate rise {words}",
        nitrogen.rise_after_plants(rise=rise, uptake="{uptake}", days="{change_interval}"),
        look=HIDDEN,
    )
    needed = nitrogen.change_needed(
        rise=here(f"rise_{horizon}"), target="{settings.nitrate_target}", source="{water_nitrate}"
    )
    yield Computed(
        f"nitrogen_share_{horizon}",
        f"Water change {words}",
        logic(
            "IF({animals}=0,0,IF({settings.nitrate_target}>{water_nitrate},{needed}/{change_share},10^2))",
            "1",
            needed=needed,
        ),
        look=SHARE,
    )


def oxygen_at(horizon: str, words: str) -> Iterator[Column]:
    """The hours wanted without aeration against those there are on that day."""
    breath, reserve = here(f"draw_{horizon}"), here(f"reserve_{horizon}")
    draw = logic(
        "{of_animals}+{of_filter}",
        "mg/h",
        of_animals=breath,
        of_filter=nitrogen.nitrification_oxygen(ammonia=ammonia_at(horizon)),
    )
    yield Computed(f"draw_of_all_{horizon}", f"Oxygen draw of all {words}", draw, look=HIDDEN)
    yield Computed(
        f"reserve_{horizon}",
        f"Hours without aeration {words}",
        only_if(
            f"{breath}>0",
            gases.oxygen_reserve(saturation="{saturation}", volume="{net_volume}", draw=here(f"draw_of_all_{horizon}")),
        ),
        look=HIDDEN,
    )
    yield Computed(
        f"oxygen_share_{horizon}",
        f"Oxygen {words}",
        logic(
            'IF({draw}=0,0,IF({reserve}="","",{const.oxygen_reserve_wanted}/MAX({reserve},1/10^2)))',
            "1",
            draw=breath,
            reserve=reserve,
            needs=(f"draw_{horizon}", "const.oxygen_reserve_wanted"),
        ),
        look=SHARE,
    )


def tank_at(horizon: str, words: str, measures: tuple[str, ...]) -> Iterator[Column]:
    """How full the tank is on that day: by its changes and its oxygen anew, by the other measures as they are."""
    yield from changes_at(horizon, words)
    yield from oxygen_at(horizon, words)
    yield Computed(
        f"binding_share_{horizon}",
        f"Its share {words}",
        logic(
            'IF(COUNT({changes},{oxygen})<2,"",MAX({changes},{oxygen},{others}))',
            "1",
            copes=True,
            changes=here(f"nitrogen_share_{horizon}"),
            oxygen=here(f"oxygen_share_{horizon}"),
            others=[here(f"{key}_share") for key in measures if key not in {"nitrogen", "oxygen"}],
        ),
        look=SHARE,
        help="The greatest share of a limit, with young animals grown and fed as now.",
    )
