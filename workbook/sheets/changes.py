"""Water changes: what the routine leads to, how fast nitrate and carbonate move, and each tank's own yield."""

from workbook.equations import blending, carbonate, nitrogen
from workbook.sheets import log_chart, readings
from workbook.sheets.nitrate_path import CHARTS, CHOICE, PATH
from workbook.sheets.so_far import running_list
from workbook.sheets.tank_nitrate import NITRATE
from workbook.tables import Computed, Flag, Look, Pulled, Said, Sheet, Table, logic, pulled, text
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import count_of_rows, only_if
from workbook.tables.template import quoted

RUN, NOW, CARBONATE, OWN = (
    Look("In the long run", 10, "0.0"),
    Look("From the newest reading", 10, "0.0"),
    Look("Carbonate (KH)", 10, "0.00"),
    Look("The tank teaches", 10, "0.00"),
)

HIDDEN, COUNT = Look(working=True, show="0.00"), Look(working=True, show="0")

# With all the water changed the logarithm would be that of 0.
BACK = nitrogen.changes_to_reach(
    start="{nitrate_now}",
    steady="{nitrate_peak}",
    target="{settings.nitrate_target}",
    share="MIN({change_share},1-1/10^9)",
)


def kh_net(days: str) -> Formula:
    """KH used up by the nitrogen that ends as nitrate."""
    used = nitrogen.alkalinity_used(ammonia="{ammonia}", days=days, volume="{net_volume}")
    return logic("{used}*{yield_used}", "degH", used=used)


LOW = carbonate.kh_level(source="{water_kh}", loss="{kh_interval}", share="{change_share}")


def place(share: str) -> str:
    """Formula text: the pair of this tank at a share of the way from its lowest to its highest yield, by rank."""
    return filled(
        'IF({pairs}=0,"",(SMALL({yields},ROUNDDOWN({rank},0))+SMALL({yields},ROUNDUP({rank},0)))/2-{line}*10^2)',
        yields="{log.pair_key[]}",
        rank=filled("ROUND(({pairs_before}+1+({pairs}-1)*{share}),6)", share=share),
    )


CHANGES = Table(
    "changes",
    title="Water changes",
    rows_of="tanks",
    row_name=("tank",),
    purpose="What the planned routine does to each tank.",
    columns=(
        Pulled("tank", via="tanks", look=Look("Tank", 20)),
        Said(look=Look("Tank", 54)),
        Pulled("change_share", via="tanks", label="Change planned", look=RUN),
        Pulled("change_interval", via="tanks", label="every", look=RUN),
        Pulled("nitrate_week", via="tanks", of="stocking.nitrate_week", label="Nitrate rise a week", look=RUN),
        Pulled("nitrate_peak", via="tanks", of="stocking.nitrate_peak", label="Nitrate before a change", look=RUN),
        Computed(
            "nitrate_trough",
            "after a change",
            nitrogen.level_after_change(before="{nitrate_peak}", share="{change_share}", source="{water_nitrate}"),
            look=RUN,
        ),
        Pulled(
            "change_needed", via="tanks", of="stocking.change_needed", label="Change that holds the target", look=RUN
        ),
        Pulled("nitrate", via="tanks", of="readings.nitrate", label="Newest nitrate", look=NOW),
        Pulled("nitrate_date", via="tanks", of="readings.nitrate_date", label="on", look=Look(NOW.group, 11)),
        Computed(
            "nitrate_now",
            "Nitrate today, reckoned",
            logic(
                "{nitrate}*(1-{changed_since})+{water_nitrate}*{changed_since}"
                "+{rise_day}*MAX(0,{settings.plan_date}-{nitrate_date})",
                "mg/L",
            ),
            look=NOW,
            help="The newest reading, less the water changed since, plus the rise of the days gone by.",
        ),
        Computed(
            "days_to_target",
            "Days until the target",
            only_if(
                "AND({nitrate_now}<{settings.nitrate_target},{nitrate_week}>0)",
                nitrogen.days_to_reach(
                    level="{nitrate_now}", target="{settings.nitrate_target}", rise_day="{rise_day}"
                ),
            ),
            look=Look(NOW.group, 10, "0"),
            help="From today, if no water is changed.",
        ),
        Computed(
            "changes_back",
            "Planned changes back to the target",
            only_if(
                "{nitrate_now}>{settings.nitrate_target}",
                logic(
                    'IF({nitrate_peak}>={settings.nitrate_target},"never by this plan",{changes})', "1", changes=BACK
                ),
            ),
            look=Look(NOW.group, 19, "0"),
            help="Until the level before a change is at or under the target; blank where it is already.",
        ),
        Computed(
            "largest_share",
            "Most at one go, by temperature",
            only_if(
                "ABS({temperature}-{water_temperature})>0",
                blending.largest_share(
                    step="{const.temperature_step}", tank="{temperature}", water="{water_temperature}"
                ),
                "1",
            ),
            look=Look(NOW.group, 13, "0%"),
            help=(
                "So that temperature steps no more than the constant. "
                "Where GH, KH or pH of tank and new water differ much, change far less at one go."
            ),
        ),
        Computed(
            "kh_used",
            "KH used a week",
            kh_net("7"),
            look=CARBONATE,
            help=(
                "By the nitrogen that stays as nitrate; "
                "what plants and bacteria take back out gives the carbonate back."
            ),
        ),
        Pulled("water_kh", via="tanks", label="Source KH", look=CARBONATE),
        Computed(
            "kh_brought",
            "Brought back a week",
            logic("{change_share}*({water_kh}-{kh_low})*7/{change_interval}", "degH"),
            look=CARBONATE,
        ),
        Computed(
            "kh_low",
            "KH before a change, long run",
            logic("MAX(0,{settles_at})", "degH", settles_at=LOW),
            look=CARBONATE,
            help="Where it settles by the plan; wood, peat and added salts not counted. 0: it runs out.",
        ),
        Pulled("kh_read", via="tanks", of="readings.kh", label="Newest KH", look=CARBONATE),
        Computed(
            "pairs",
            "Pairs of readings",
            count_of_rows("{log.tank_row[]}", '{log.pair_key[]},">-1E+9"'),
            look=Look(OWN.group, 8, "0"),
            help=(
                "Two nitrate readings with no water changed between, "
                "set against the food of the animals that live there now."
            ),
        ),
        Computed(
            "own_yield",
            "Its own nitrate yield",
            logic(place("1/2"), "1"),
            look=OWN,
            help="Median over its pairs; 1 would be all the nitrogen of the food.",
        ),
        Computed("yield_low", "lower quarter", logic(place("1/2/2"), "1"), look=OWN),
        Computed("yield_high", "upper quarter", logic(place("(1-1/2/2)"), "1"), look=OWN),
        Computed(
            "yield_is_own",
            "Its own counts",
            logic(
                'IF(AND({settings.yield_choice}="tank",{pairs}>={const.pairs_least}),'
                'IF(AND({own_yield}>0,{own_yield}<=1),"yes","no"),"no")',
                needs=("const.pairs_least", "tank"),
            ),
            kind=text(),
            look=Look(OWN.group, 8),
            help="What its plants take is then in it.",
        ),
        Computed(
            "yield_used",
            "Yield reckoned with",
            logic(
                'IF({yield_is_own}="yes",{own_yield},{const.nitrate_yield})',
                "1",
                needs=("const.nitrate_yield", "yield_is_own"),
            ),
            look=OWN,
            help=(
                "The room's constant, or the tank's own from enough pairs on, as chosen on Start. "
                "Above 1 it is not a yield but more food than planned: the constant counts."
            ),
        ),
        Computed(
            "read_against",
            "Logged against the level before a change",
            only_if("{nitrate_peak}>0", logic("{nitrate}/{nitrate_peak}", "1")),
            look=Look(OWN.group, 12, "0%"),
            help="Readings are taken before the day's change, so this is the highest the plan gives.",
        ),
        Computed(
            "read_low",
            "and the level after one",
            only_if("{nitrate_trough}>0", logic("{nitrate}/{nitrate_trough}", "1")),
            look=Look(OWN.group, 10, "0%"),
        ),
        Computed(
            "told",
            "Which says",
            logic(
                'IF({read_against}>1+{const.yield_odd},{more},IF({read_low}<1-{const.yield_odd},{less},"as planned"))',
                more=quoted("◆ more than planned: more food, a missed change, a death, a dirty filter"),
                less=quoted("○ less than planned: plants, larger changes, less food"),
            ),
            kind=text(),
            look=Look(OWN.group, 34, status=True),
        ),
        *pulled("tanks", "water_nitrate", "water_temperature", "temperature", "net_volume"),
        Pulled("ammonia", via="tanks", of="stocking.ammonia"),
        Computed("rise_day", "Nitrate rise a day", nitrogen.rise_a_day(rise="{nitrate_week}", days="7"), look=HIDDEN),
        Computed("kh_interval", "KH used between changes", kh_net("{change_interval}"), look=HIDDEN),
        Computed(
            "pairs_before",
            "Pairs of tanks above",
            logic('SUMIFS({log.one[]},{log.pair_key[]},"<"&({line}*10^2-10^2/2))', "1"),
            look=COUNT,
        ),
        Pulled("residents_kh", via="tanks", of="overlap.kh_low", label="Residents bear KH from"),
        Computed(
            "kh_wanted",
            "Least KH wanted",
            logic('IF(OR({tank}="",{const.kh_floor}=""),"",MIN({const.kh_floor},{residents_kh}))', "degH", copes=True),
            look=HIDDEN,
            help="Below it pH may fall suddenly; less where all who live here are at home in less.",
        ),
        Computed(
            "kh_state",
            "Carbonate: 1 thin, 2 gone",
            logic(
                "IF({kh_low}>={kh_wanted},0,IF(AND({kh_low}=0,SUM({kh_read})<{kh_wanted}),2,1))",
                "1",
                needs=("kh_low", "kh_wanted"),
            ),
            look=COUNT,
        ),
        Computed(
            "changed_since",
            "Share changed since the reading",
            logic(
                'MIN(1,SUMIFS({log.water_out[]},{log.tank_row[]},{line},{log.date[]},">="&{nitrate_date})/{net_volume}'
                "+SUM({change_share})*SUMIFS({maintenance.only_typed[]},{maintenance.tank_row[]},{line},"
                '{maintenance.last_done[]},">="&{nitrate_date}))',
                "1",
                needs=("net_volume", "nitrate_date"),
            ),
            help="Litres of the Log; changes that only Maintenance or a task names count with the planned share.",
            look=HIDDEN,
        ),
        *running_list(
            "cold_changes",
            "Too cold or warm so far",
            '{big_step}<>""',
            '{tank}&" (at most "&{@words.largest_share}&")"',
        ),
        Flag(
            "kh_gone",
            "Carbonate runs out",
            gathered=True,
            seriousness="act",
            when="{kh_state}=2",
            why=(
                "nitrification uses {kh_used} a week, the changes do not bring that back; "
                "without carbonate pH can fall within days"
            ),
            do="Change more water, use water with more KH or add a carbonate by its label, feed less; test KH weekly.",
        ),
        Flag(
            "kh_thin",
            "Little carbonate left",
            gathered=True,
            seriousness="watch",
            when="AND({kh_state}=1,{water_kh}>={kh_wanted})",
            why="by the plan KH settles at {kh_low} before a change, below {kh_wanted}",
            do="Change more or more often, or use water with more KH; test KH and pH weekly.",
        ),
        Flag(
            "big_step",
            "New water too cold or warm for the change",
            gathered=True,
            seriousness="watch",
            when="{change_share}>{largest_share}",
            why=(
                "a change of {change_share} with water of {water_temperature} moves the tank by more than "
                "{const.temperature_step}"
            ),
            do="Bring the new water nearer to {temperature}, or change {largest_share} at the most at one go.",
        ),
        Flag(
            "more_nitrate",
            "Nitrate above what the plan gives",
            gathered=True,
            seriousness="watch",
            when="AND({read_against}>1+{const.yield_odd},{nitrate}>{settings.nitrate_target})",
            why="{nitrate} read on {nitrate_date}, at most {nitrate_peak} expected",
            do="Find the cause: more food than planned, missed changes, a dead animal, a dirty filter.",
        ),
        Flag(
            "less_nitrate",
            "Nitrate below what the plan gives",
            gathered=True,
            seriousness="note",
            when="{read_low}<1-{const.yield_odd}",
            why="{nitrate} read on {nitrate_date}, at least {nitrate_trough} expected",
            do=(
                "Plants, larger changes or less food than planned; "
                "with enough pairs of readings the tank's own yield can count (Start)."
            ),
        ),
    ),
)

SHEET = Sheet(
    "Water changes",
    blocks=(CHANGES, readings.READINGS, CHARTS, PATH, log_chart.DRAWN, NITRATE),
    forms=(CHOICE, log_chart.CHOICE),
    frozen_columns=1,
    purpose=(
        "Food becomes ammonia, ammonia becomes nitrate and uses up carbonate; "
        "water changes carry the one off and bring the other back."
    ),
    notes=(
        (
            "Carbon dioxide from KH and pH holds only where carbonate is the only buffer: "
            "not with peat, leaves, phosphate or buffer salts, and hardly below KH 2; 0.1 pH is a quarter of it."
        ),
        (
            "Planning estimates: test the water. Condition new water by the product's label; "
            "medicines by label and veterinarian, dosed by net volume."
        ),
    ),
)
