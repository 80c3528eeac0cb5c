"""The tank chosen on Candidates: its row of every answer, looked up once, and what follows for any candidate."""

from workbook.equations import feeding, headroom, nitrogen
from workbook.sheets.filters import COUNT, HIDDEN, MEASURES, TEXT, WHO
from workbook.sheets.parameters import KEYS, PARAMETERS, Parameter
from workbook.sheets.sought_company import WHO_LIVES_THERE
from workbook.sheets.sought_like import WANTED
from workbook.tables import Computed, Table, logic, pulled, row, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import in_rows_with, joined, row_of
from workbook.tables.template import for_each, here, of, quoted


def limit(key: str, chosen: str, label: str, unit: str) -> tuple[Column, Column]:
    """What passes a filter lies over the one, not over the other; without a filter what is not known, 0, passes too."""
    typed = of("candidates_choice", chosen)
    return (
        Computed(
            f"{key}_over",
            f"{label} over",
            logic('IF({typed}="",0-1,0)', unit, copes=True, typed=typed),
            look=COUNT,
        ),
        Computed(
            f"{key}_most",
            f"{label} at most",
            logic('IF({typed}="",10^6,{typed})', unit, copes=True, typed=typed),
            look=HIDDEN,
        ),
    )


def of_tank(*keys: str, table: str = "") -> tuple[Column, ...]:
    """What stands in the row of the chosen tank."""
    return pulled("row", *keys, table=table)


def shared(p: Parameter) -> tuple[Column, ...]:
    """The water that the residents leave of one parameter, who sets its ends, and what the tank is kept at."""
    parts = ("low", "high", "low_by", "high_by", "width")
    return (*of_tank(*(f"{p.key}_{part}" for part in parts), table="overlap_detail"), *of_tank(p.kept))


def freed(key: str, label: str, part: str) -> Computed:
    """The part of a load that goes with the kind that can't be had."""
    return Computed(
        key,
        label,
        logic(
            "IF(SUM({residents.*[]})>0,SUMIFS({residents.*[]},{residents.gone[]},1)/SUM({residents.*[]}),0)",
            "1",
            needs=("row",),
            each=part,
        ),
        look=HIDDEN,
        help="0 while nothing is sought in place of another, or it does not live there.",
    )


def share(key: str, label: str, template: str, unit: str = "1", help: str = "") -> Computed:  # noqa: A002
    """A number that candidates are reckoned from."""
    return Computed(key, label, logic(template, unit), look=HIDDEN, help=help)


def nitrate_rise(ammonia: Formula | str) -> Formula:
    """What nitrate rises by between two water changes."""
    return nitrogen.nitrate_rise(
        ammonia=ammonia, days="{change_interval}", volume="{net_volume}", yield_="{yield_used}"
    )


# Of an oxygen draw of 1 mg/h: all that follows is in proportion to it.
AMMONIA_OF_ONE = nitrogen.with_fasting(
    ammonia=nitrogen.ammonia_from_food(food=feeding.ration(oxygen="1"), protein="{protein}"),
    fasting_days="{fasting_days}",
)
DRAW_OF_ONE = logic("1+{bacteria}", "mg/h", bacteria=nitrogen.nitrification_oxygen(ammonia=AMMONIA_OF_ONE))

FILTERS: tuple[Column, ...] = (
    Computed(
        "row",
        "Row of the tank",
        row_of("{candidates_choice.in_view}", "{tanks.tank[]}"),
        kind=row("tanks"),
        look=COUNT,
    ),
    Computed(
        "wanted",
        "Row of the species wanted",
        row_of("{candidates_choice.instead_of}", "{species.species[]}"),
        kind=row("species"),
        look=COUNT,
    ),
    Computed(
        "just",
        "Row of the one kind",
        row_of("{candidates_choice.just}", "{species.species[]}"),
        kind=row("species"),
        look=COUNT,
    ),
    Computed(
        "zone",
        "Zone that passes",
        logic('IF({candidates_choice.zone}="any","",{candidates_choice.zone}&"")', copes=True),
        kind=text(),
        look=WHO,
    ),
    *limit("length", "longest", "Length", "cm"),
    *limit("temper", "temper_most", "Temper", "1"),
    Computed("easy", "Only easy ones", logic('IF({candidates_choice.easy}="yes",1,0)', "1", copes=True), look=COUNT),
)

OF_TANK: tuple[Column, ...] = (
    *of_tank("tank", "net_volume", "plan_area", "swim_length", "change_share", "change_interval", "fasting_days"),
    *of_tank("cycled"),
    *of_tank(
        *(
            "animals",
            "ammonia",
            "uptake",
            "yield_used",
            "water_nitrate",
            "saturation",
            "oxygen_draw",
            "draw",
            "bottom_wanted",
        ),
        *("binding", "binding_share"),
        *(f"{key}_share" for key, _ in MEASURES),
        table="stocking",
    ),
    *of_tank("protein", table="feeding_tanks"),
    *of_tank("residents", "run_end", "in_quarantine", table="company"),
    *(column for p in PARAMETERS for column in shared(p)),
)


LIMITS: tuple[Column, ...] = (
    freed("freed_nitrogen", "Freed of ammonia", "nitrogen"),
    freed("freed_oxygen", "Freed of oxygen draw", "oxygen_draw"),
    freed("freed_bottom", "Freed of the bottom", "bottom_wanted"),
    Computed("rise", "Nitrate rise between changes, before plants", nitrate_rise("{ammonia}"), look=HIDDEN),
    share("taken", "Nitrate that plants take between changes", "{uptake}*{change_interval}/7", "mg/L"),
    Computed(
        "rise_by_breath",
        "Nitrate rise for each mg of oxygen an hour",
        nitrate_rise(AMMONIA_OF_ONE),
        look=HIDDEN,
    ),
    Computed(
        "draw_by_breath",
        "Draw with bacteria for each mg of oxygen an hour",
        DRAW_OF_ONE,
        look=HIDDEN,
    ),
    Computed(
        "carried_nitrate",
        "Nitrate rise that the changes carry",
        headroom.nitrate_carried(target="{settings.nitrate_target}", source="{water_nitrate}", share="{change_share}"),
        look=HIDDEN,
    ),
    Computed(
        "carried_draw",
        "Oxygen draw that the water carries",
        headroom.draw_carried(saturation="{saturation}", volume="{net_volume}"),
        look=HIDDEN,
    ),
    share(
        "nitrate_full",
        "Water change taken",
        "IF({carried_nitrate}>0,({rise}*(1-{freed_nitrogen})-{taken})/{carried_nitrate},10^2)",
        help="Share of the limit; below zero plants take more than there is.",
    ),
    share(
        "nitrate_by_breath",
        "Share for each mg of oxygen an hour",
        "IF({carried_nitrate}>0,{rise_by_breath}/{carried_nitrate},1)",
    ),
    share(
        "oxygen_full",
        "Oxygen taken",
        "IF({carried_draw}>0,({oxygen_draw}*(1-{freed_oxygen})+({draw}-{oxygen_draw})*(1-{freed_nitrogen}))"
        "/{carried_draw},10^2)",
    ),
    share(
        "oxygen_by_breath",
        "Share for each mg of oxygen an hour",
        "IF({carried_draw}>0,{draw_by_breath}/{carried_draw},1)",
    ),
    share("bottom_full", "Bottom taken", "{bottom_wanted}*(1-{freed_bottom})/{plan_area}"),
    share(
        "swim_full",
        "Swim room of those who stay",
        "MAX({residents.room_wanted[]},0)*(1-{const.nominal_allowance})/{swim_length}",
    ),
    share(
        "volume_full",
        "Volume of those who stay",
        "MAX({residents.litres_wanted[]},0)*(1-{const.nominal_allowance})/{net_volume}",
    ),
    *(
        Computed(
            f"thin_{p.key}",
            f"Narrow {p.word}",
            p.logic("{narrow}-1/10^6", p.step, needs=("row", "const.narrow_*")),
            look=HIDDEN,
        )
        for p in PARAMETERS
    ),
    Computed(
        "ready",
        "Constants are there",
        logic("1", "1", needs=("row", "const.temper_clash", "const.temper_watch", *(f"thin_{key}" for key in KEYS))),
        look=COUNT,
    ),
)


def told(key: str, label: str, *parts: tuple[str, str], between: str = "; ") -> Computed:
    """What is to be said of the chosen tank, joined."""
    return Computed(key, label, in_rows_with("row", joined(*parts, between=between)), kind=text(), look=TEXT)


NEEDED = (
    ("net_volume", "its net volume"),
    ("temperature", "its set temperature"),
    *((p.kept, f"its {p.label}") for p in PARAMETERS[1:]),
    ("plan_area", "its water surface"),
    ("swim_length", "its longest swim"),
    ("change_share", "its water change"),
    ("change_interval", "how often water is changed"),
    ("fasting_days", "its fasting days"),
    ("water_nitrate", "nitrate of its source water"),
    ("draw", "what its animals breathe"),
    ("ammonia", "what its animals give off"),
    ("bottom_wanted", "the floor its animals want"),
    ("settings.nitrate_target", "the nitrate target (Start)"),
    ("settings.altitude", "the altitude (Start)"),
)
MIND_FIRST: tuple[Column, ...] = (
    told(
        "lacking", "Unknown of the tank", *((here(key) + '=""', quoted(words)) for key, words in NEEDED), between=", "
    ),
    told(
        "over",
        "Over a limit already",
        *(
            (
                for_each([key], "ROUND(SUM({*_share}),2)>1"),
                filled('{measure}&ROUND({share}*10^2,0)&" %"', measure=quoted(f"{label} "), share=here(f"{key}_share")),
            )
            for key, label in MEASURES
        ),
        between=", ",
    ),
    told(
        "at_odds",
        "Residents share none",
        *((p.filled("SUM({*_width})<0"), quoted(p.word)) for p in PARAMETERS),
        between=", ",
    ),
    told(
        "care",
        "Care for every candidate",
        ('{cycled}="no"', '"it is not cycled: add animals only once ammonia and nitrite stay at zero"'),
        ('{cycled}=""', '"nothing says whether it is cycled: test ammonia and nitrite first"'),
        (
            "SUM({half_known})>0",
            '"not all is known of "&{half_known}&" of its groups, so what they want or do may be missed: '
            'complete them on Species and Livestock"',
        ),
        (
            "SUM({residents})>ROWS({residents.line[]})",
            '"only its first "&ROWS({residents.line[]})&" groups are looked at one by one"',
        ),
    ),
    told(
        "mind",
        "What to mind first",
        ('{lacking}<>""', '"unknown: "&{lacking}&" (type it on Tanks, Waters or Livestock)"'),
        ('{over}<>""', '"already over its limit: "&{over}'),
        ('{at_odds}<>""', '"its residents share no "&{at_odds}&": part them first (Overlap)"'),
        ('{care}<>""', "{care}"),
        ("SUM({in_quarantine})>0", '"a group in it is in quarantine: wait until that ends"'),
    ),
    Computed(
        "about",
        "What it is",
        logic(
            '{tank}&": "&IF({net_volume}="","volume unknown",{@words.net_volume}&" net")'
            '&", "&IF({temperature}="","temperature unknown",{@words.temperature})'
            '&", "&IF(SUM({residents})=0,"empty",{residents}&" groups with "&{animals}&" animals")'
            '&IF({binding_share}="",", load unknown",'
            'IF(SUM({residents})=0,"",", "&{@words.binding_share}&" full by "&{binding}))',
            needs=("row", "tank"),
        ),
        kind=text(),
        look=TEXT,
    ),
)

SOUGHT = Table(
    "sought",
    title="The tank that was chosen",
    purpose="",
    lines=1,
    row_name=("tank",),
    columns=(*FILTERS, *OF_TANK, *WANTED, *LIMITS, *WHO_LIVES_THERE, *MIND_FIRST),
)
