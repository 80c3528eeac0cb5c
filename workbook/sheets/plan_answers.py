"""What a plan makes of each tank that it touches, now and then side by side, and what comes to speak against it."""

from workbook.equations import headroom, nitrogen
from workbook.sheets.fullest import MEASURES
from workbook.sheets.parameters import KEYS, PARAMETERS, Parameter
from workbook.tables import Computed, Look, Pulled, Table, logic, pulled, row, text
from workbook.tables.columns import Column
from workbook.tables.completing import ARROW, SEPARATOR
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import joined, only_if, piece, pieces
from workbook.tables.template import here, quoted, said

CLASHES_TOLD = 14
COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=18)
NAME = Look(style="page strong", span=2)


def page(show: str = "0", span: int = 1, *, measure: str = "") -> Look:
    """A number on the page."""
    return Look(style="page number", show=show, span=span, measure=measure)


def words(span: int = 1) -> Look:
    """A text on the page."""
    return Look(style="page text", span=span)


def both(key: str, of: str, label: str, look: Look) -> tuple[Pulled, Pulled]:
    """What a column of the living room says of the tank, and what the plan makes of it."""
    return (
        Pulled(f"{key}_now", via="own_row", of=of, label=label, look=look),
        Pulled(f"{key}_then", via="plan_tanks", of=f"plan_{of}", label="", look=look),
    )


def with_unit(key: str, of: str, label: str, show: str, span: int = 1) -> tuple[Column, ...]:
    """The same, told with its unit: on a page no row of units stands above."""
    told = (
        Computed(
            f"{key}_{when}_told",
            label if when == "now" else "",
            logic(said(f"{key}_{when}"), needs=(f"{key}_{when}",)),
            kind=text(),
            look=Look(style="page strong", span=span),
        )
        for when in ("now", "then")
    )
    return (*told, *both(key, of, label, Look(working=True, show=show)))


OWN_ROW = Pulled("own_row", via="plan_tanks", look=COUNT)
THE_TANK: tuple[Column, ...] = (Pulled("tank", via="plan_tanks", label="", look=NAME), OWN_ROW)

# What fits above a narrow column.
SHORT = {"nitrogen": "Change", "swim": "Swim", "bottom": "Bottom"}

OVER = tuple(
    (
        filled("ROUND(SUM({then}),2)>1", then=here(f"{key}_then")),
        filled(
            '{measure}&ROUND({then}*10^2,0)&" %"&IF(COUNT({now})=1," (now "&ROUND({now}*10^2,0)&" %)","")',
            measure=quoted(f"{label.lower()} "),
            then=here(f"{key}_then"),
            now=here(f"{key}_now"),
        ),
    )
    for key, label in MEASURES
)


def shares_none(key: str, label: str, now: str) -> Computed:
    """The parameters in which nothing suits all who would live there."""
    test = filled("AND(SUM({*_width})<0,{now})", now=now, each="*")
    parts = ((p.filled(test), quoted(p.word)) for p in PARAMETERS)
    return Computed(key, label, joined(*parts, between=", "), kind=text(), look=WORDS)


# A verdict about some of the animals must say so.
MORE_THAN_HAVE_ROOM = (
    "IF(MAX({plan_found.in_plan[]})>ROWS({plan_livestock.line[]})-ROWS({plan_lines.line[]}),"
    '"○ not all groups have room here: plan for fewer tanks; ","")'
)

FULL = Table(
    "plan_full",
    title="Tank",
    rows_of="plan_tanks",
    listed=False,
    row_name=("tank",),
    purpose="",
    columns=(
        *THE_TANK,
        Computed(
            "verdict",
            "In short",
            logic(
                '{too_many}&IF(COUNT({binding_share_then})=0,"○ load unknown; ","")'
                '&IF({against}="","fits","◆ "&{against})',
                needs=("tank",),
                too_many=MORE_THAN_HAVE_ROOM,
            ),
            kind=text(),
            look=words(3),
        ),
        *both("animals", "stocking.animals", "Animals", page()),
        *(
            one
            for key, label in MEASURES
            for one in both(
                key,
                f"stocking.{key}_share",
                SHORT.get(key, label),
                page("0%", measure="fit" if key in {"swim", "volume"} else "load"),
            )
        ),
        *both("binding", "stocking.binding", "Binds", words(2)),
        Pulled("binding_share_then", via="plan_tanks", of="plan_stocking.binding_share", look=COUNT),
        *(Pulled(f"{k}_width", via="plan_tanks", of=f"plan_overlap_detail.{k}_width", look=COUNT) for k in KEYS),
        *(Pulled(f"{k}_width_now", via="own_row", of=f"overlap_detail.{k}_width", look=COUNT) for k in KEYS),
        Computed(
            "new_here",
            "Clashes that come",
            logic("SUMIFS({plan_livestock.new_count[]},{plan_livestock.tank_row[]},{line})", "1", needs=("tank",)),
            look=COUNT,
        ),
        shares_none("no_more", "Shares no more", "SUM({*_width_now})>=0"),
        shares_none("still_none", "Shares none, as now", "SUM({*_width_now})<0"),
        Computed(
            "against",
            "What speaks against it",
            joined(
                ('{no_more}<>""', '"no shared "&{no_more}'),
                *OVER,
                ("SUM({new_here})>0", '{new_here}&IF({new_here}=1," new clash"," new clashes")'),
                ('{still_none}<>""', '"still no shared "&{still_none}'),
            ),
            kind=text(),
            look=WORDS,
        ),
    ),
)

# What tells how many animals more or fewer a tank would carry; a line of the plan reads it.
RISE = nitrogen.nitrate_rise(
    ammonia="{ammonia}",
    days="{change_interval}",
    volume="{net_volume}",
    yield_="{yield_used}",
)
CARRIED = headroom.nitrate_carried(
    target="{settings.nitrate_target}",
    source="{water_nitrate}",
    share="{change_share}",
)
PART = Look(working=True, show="0.000")
CARRIES = Table(
    "plan_room",
    title="What each tank would carry",
    rows_of="plan_tanks",
    listed=False,
    row_name=("tank",),
    purpose="",
    columns=(
        Pulled("tank", via="plan_tanks", look=WORDS),
        *(
            Pulled(key, via="plan_tanks", of=f"plan_stocking.{key}", look=PART)
            for key in ("ammonia", "change_interval", "net_volume", "yield_used", "water_nitrate", "change_share")
        ),
        Pulled("uptake", via="plan_tanks", of="plan_stocking.uptake", look=PART),
        Computed("rise", "Nitrate rise before plants", RISE, look=PART),
        Computed("carried", "Rise that the changes carry", CARRIED, look=PART),
        Computed(
            "nitrogen_full",
            "Share of it taken",
            only_if(
                "{carried}>0",
                headroom.rise_taken(rise="{rise}", uptake="{uptake}", days="{change_interval}", carried="{carried}"),
            ),
            look=PART,
            help="Below nothing where plants take more than comes.",
        ),
        Computed("nitrogen_gross", "The same before plants", logic("{rise}/{carried}", "1"), look=PART),
    ),
)

CARE = Table(
    "plan_care",
    title="Tank needs",
    rows_of="plan_tanks",
    listed=False,
    row_name=("tank",),
    purpose="",
    columns=(
        *THE_TANK,
        *with_unit("food", "stocking.food", "Food", "0.000"),
        *with_unit("net_volume", "tanks.net_volume", "Water", "0.0"),
        *with_unit("filled_mass", "tanks.filled_mass", "Filled mass", "0", 2),
        *with_unit("nitrate_peak", "stocking.nitrate_peak", "Nitrate", "0.0", 2),
        *with_unit("change_needed", "stocking.change_needed", "Change", "0%"),
        *both("reserve", "stocking.reserve", "Hours of air", page("0.0")),
        *with_unit("heater_size", "tanks.heater_size", "Heater", "0"),
    ),
)


def shared(p: Parameter, when: str) -> Formula:
    """What all who live there share, and who sets its ends; where they share none, who wants what."""
    low, high = (here(f"{when}_{p.key}_{end}") for end in ("low", "high"))
    return logic(
        'IF(COUNT({low},{high})=0,"not known",IF(COUNT({low})=1,{low_said}&{low_by},"")'
        '&IF(COUNT({low},{high})=2," to ","")&IF(COUNT({high})=1,{high_said}&{high_by},""))',
        needs=("tank",),
        low=low,
        high=high,
        low_said=said(f"{when}_{p.key}_low"),
        high_said=said(f"{when}_{p.key}_high"),
        low_by=filled('" ("&{by}&")"', by=here(f"{when}_{p.key}_low_by")),
        high_by=filled('" ("&{by}&")"', by=here(f"{when}_{p.key}_high_by")),
    )


NOW_AND_THEN = (("now", "own_row", "overlap_detail"), ("then", "plan_tanks", "plan_overlap_detail"))
WATER = tuple(
    Table(
        f"plan_water_{p.key}",
        title="Suits all",
        rows_of="plan_tanks",
        listed=False,
        row_name=("tank",),
        purpose="",
        columns=(
            *THE_TANK,
            *(
                Computed(f"{p.key}_{when}", f"{p.label} {when}", shared(p, when), kind=text(), look=words(span))
                for when, span in (("now", 5), ("then", 14))
            ),
            *(
                Pulled(
                    f"{when}_{p.key}_{what}",
                    via=via,
                    of=f"{table}.{p.key}_{what}",
                    look=Look(working=True, show=p.show),
                )
                for what in ("low", "high", "low_by", "high_by")
                for when, via, table in NOW_AND_THEN
            ),
        ),
    )
    for p in PARAMETERS
)

CLASHES = Table(
    "plan_clashes",
    title="Clash",
    lines=CLASHES_TOLD,
    listed=False,
    row_name=("who",),
    purpose="",
    columns=(
        Computed("change", "", logic('IF({is_new}=1,"comes","ceases")', needs=("is_new",)), kind=text(), look=words()),
        Pulled("who", via="group", of="species", label="Who", look=Look(style="page strong", span=2)),
        Pulled("tank", via="group", label="Tank", look=Look(style="page text")),
        Computed(
            "why",
            "Why, and what helps",
            logic(
                "IF({is_new}=1,{sentence},LEFT({sentence},SEARCH({arrow},{sentence})-1))",
                needs=("is_new", "sentence"),
                arrow=quoted(ARROW),
            ),
            kind=text(),
            look=words(17),
        ),
        Computed(
            "group",
            "Its row",
            logic(
                'IF({line}>MAX({runs}),"",COUNTIF({runs},"<"&{line})+1)',
                "1",
                copes=True,
                runs="{plan_livestock.told_run[]}",
            ),
            kind=row("plan_livestock"),
            look=COUNT,
        ),
        *pulled("group", "new", "gone", "new_count", "told_run"),
        Computed(
            "nth",
            "Which of its own",
            logic("{new_count}+{gone_count}-({told_run}-{line})", "1", gone_count=pieces("{gone}", SEPARATOR),
                  needs=("new_count", "told_run")),
            look=COUNT,
        ),
        Computed("is_new", "Comes", logic("IF({nth}<={new_count},1,0)", "1"), look=COUNT),
        Computed(
            "sentence",
            "Sentence",
            logic(
                "IF({is_new}=1,{of_new},{of_gone})",
                needs=("is_new",),
                of_new=piece("{new}", "{nth}", SEPARATOR),
                of_gone=piece("{gone}", "({nth}-{new_count})", SEPARATOR),
            ),
            kind=text(),
            look=WORDS,
        ),
    ),
)  # fmt: skip
