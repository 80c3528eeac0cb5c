"""Candidates: what else can go in a tank, how many, and what comes close to a fish that can't be had."""

from dataclasses import replace

from workbook.equations import feeding, gases, metabolism, nitrogen, room, space
from workbook.sheets.chosen_tank import CHOICE, COUNT, HERE, HIDDEN, MEASURES, TANK, TEXT, VERDICTS, WHO
from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula
from workbook.tables.idioms import all_said, cell_of, in_rows_with, joined

T, S = "candidates_tank", "species"
ROW = f"{T}.row"
SHARE = Look(working=True, show="0%", measure="fit")
ROOMS = f"{{room_{MEASURES[0][0]}}}:{{room_{MEASURES[-1][0]}}}"
LABELS = ",".join(f'"{label}"' for _, label in MEASURES)
MANY = Look(working=True, show='[>=1000000]"no limit";0')
NOMINAL = "(1-{const.nominal_allowance})"


def share(text_: str, unit: str = "1") -> Formula:
    """A decision with a share or another number."""
    return logic(text_, unit)


# --- the water that is left ---


def water(p: Parameter) -> tuple[Column, ...]:
    """What the residents and this species share of one parameter, and whether the tank is kept in it."""
    low, high, look = f"{{{p.key}_low}}", f"{{{p.key}_high}}", Look(working=True, show=p.show)
    value = f"{{{T}.temperature}}" if p.key == "temperature" else f"{{{T}.{p.key}_used}}"
    return (
        Computed(f"{p.key}_low", f"{p.label} left from", logic(f"MAX({{{T}.{p.key}_low}},{{{S}.used_{p.key}_low}})", p.unit, needs=(ROW, f"{S}.used_{p.key}_low")), look=look),
        Computed(f"{p.key}_high", "to", logic(f"MIN({{{T}.{p.key}_high}},{{{S}.used_{p.key}_high}})", p.unit, needs=(ROW, f"{S}.used_{p.key}_high")), look=look),
        Computed(f"{p.key}_width", "width", logic(f"{high}-{low}", "K" if p.unit == "degC" else p.unit), look=look),
        Computed(f"{p.key}_lies", "the tank lies", logic(f'IF({{{p.key}_width}}<0,"none shared",IF(AND({value}>={low},{value}<={high}),"inside","outside"))'),
                 kind=text(), look=Look(working=True, width=11)),
    )  # fmt: skip


def left_in_words(p: Parameter) -> str:
    """Formula text: the water left of one parameter."""
    return (f'IF({{{p.key}_width}}="","{p.word} unknown",IF({{{p.key}_width}}<0,"no shared {p.word}",'
            f'"{p.word} "&{{said {p.key}_low}}&" to "&{{said {p.key}_high}}))')  # fmt: skip


def at_odds(p: Parameter) -> tuple[str, str]:
    """Test and words for a parameter of which nothing is shared, and with whom."""
    who = f"IF({{{S}.used_{p.key}_low}}>{{{T}.{p.key}_high}},{{{T}.{p.key}_high_by}},{{{T}.{p.key}_low_by}})"
    alone = f"OR(N({{{T}.{p.key}_width}})<0,{{{S}.used_{p.key}_low}}>{{{S}.used_{p.key}_high}})"
    return (f"N({{{p.key}_width}})<0",
            f'IF({alone},"no {p.word} left to share","no shared {p.word} with "&{who}&" (one of the two elsewhere)")')  # fmt: skip


def to_mend(p: Parameter) -> tuple[tuple[str, str], tuple[str, str]]:
    """Tests and words for a tank that is kept outside what would be shared, and for little water shared."""
    width, kept = f"{{{p.key}_width}}", "temperature" if p.key == "temperature" else f"{p.key}_used"
    return ((f'{{{p.key}_lies}}="outside"', f'"bring {p.word} from "&{{said {T}.{kept}}}&" to within "&{{said {p.key}_low}}&" and "&{{said {p.key}_high}}&" first, slowly"'),
            (f"AND(COUNT({width})=1,N({width})>=0,ROUND(N({width}),6)<N({p.narrow}))", f'"only "&{{said {p.key}_low}}&" to "&{{said {p.key}_high}}&" of {p.word} shared: keep it steady"'))


WATER = (
    *(column for p in PARAMETERS for column in water(p)),
    Computed("water", "Water left", logic('&"; "&'.join(left_in_words(p) for p in PARAMETERS), needs=(ROW,)), kind=text(), look=TEXT),
    Computed("width", "Of all four", logic("(" + "+".join(f"IF({{{p.key}_width}}>0,{{{p.key}_width}}/({{{p.key}_width}}+{p.narrow}),0)" for p in PARAMETERS) + ")/2/2", "1"), look=HIDDEN,
             help="0 to 1: half for each range as wide as what counts as narrow."),
)

# --- the load of one more, and how many more ---

BREATH = metabolism.routine_oxygen(resting=metabolism.resting_oxygen(mass=f"{{{S}.adult_mass}}", temperature=f"{{{T}.temperature}}"))
FOOD = feeding.ration(oxygen="{oxygen_each}")
BACTERIA = nitrogen.nitrification_oxygen(ammonia="{ammonia_each}")
SWIM = f'IF({{{S}.swim}}="active",{{const.swim_active}},IF({{{S}.swim}}="calm",{{const.swim_calm}},{{const.swim_sedentary}}))'
BOTTOM = f'IF({{{S}.bottom_room}}="holds ground",{{const.bottom_holds}},IF({{{S}.bottom_room}}="social",{{const.bottom_social}},0))'
WANTED = space.swim_length(adult_length=f"{{{S}.adult_length}}", multiple=logic(SWIM, "1"))
HOLDS = f"{{settings.nitrate_target}}>{{{T}.water_nitrate}}"


def whole(each: str, more: Formula) -> Formula:
    """How many whole animals; no limit where one does not raise the measure. Rounded first: 2.9999999999 is 3."""
    return replace(more, text=f"IF({each}>0,INT(MIN(10^6,MAX(0,ROUND({more.text},9)))),10^6)")


def all_or_none(share_: str) -> Formula:
    """Room by what one animal wants of the whole tank: any number fits, or none."""
    return logic(f"IF(ROUND({share_},9)>1,0,10^6)", "1")


BY_NITRATE = whole("{rise_each}", room.animals_by_nitrate(
    target="{settings.nitrate_target}", source=f"{{{T}.water_nitrate}}", share=f"{{{T}.change_share}}", uptake=f"{{{T}.uptake}}", days=f"{{{T}.change_interval}}",
    rise=f"{{{T}.rise}}", each="{rise_each}"))  # fmt: skip
BY_OXYGEN = whole("{breath_each}", room.animals_by_oxygen(saturation=f"{{{T}.saturation}}", volume=f"{{{T}.net_volume}}", draw=f"{{{T}.draw}}", each="{breath_each}"))
BY_BOTTOM = whole("{bottom_each}", room.animals_by_bottom(area=f"{{{T}.plan_area}}", wanted=f"{{{T}.bottom_wanted}}", each="{bottom_each}"))


def group(key: str, label: str) -> tuple[Column, ...]:
    """The shares of the limits with so many more; as on Stocking, of the measures that they raise."""
    n = f"{{add_{key}}}"
    rise = nitrogen.rise_after_plants(rise=logic(f"{{{T}.rise}}+{n}*{{rise_each}}", "mg/L"), uptake=f"{{{T}.uptake}}", days=f"{{{T}.change_interval}}")
    change = nitrogen.change_needed(rise=rise, target="{settings.nitrate_target}", source=f"{{{T}.water_nitrate}}")
    draw = f"({{{T}.draw}}+{n}*{{breath_each}})"
    reserve = gases.oxygen_reserve(saturation=f"{{{T}.saturation}}", volume=f"{{{T}.net_volume}}", draw=logic(draw, "mg/h"))
    return (
        Computed(f"nitrogen_{key}", f"Water change, {label}", replace(change, unit="1", text=f"IF({HOLDS},{change.text}/{{{T}.change_share}},10^2)"), look=SHARE),
        Computed(f"oxygen_{key}", f"Oxygen, {label}", replace(reserve, unit="1", text=f"IF({draw}>0,{{const.oxygen_reserve_wanted}}/MAX({reserve.text},1/10^2),0)"), look=SHARE),
        Computed(f"bottom_{key}", f"Bottom room, {label}", logic(f"IF({{bottom_each}}>0,({{{T}.bottom_wanted}}+{n}*{{bottom_each}})/{{{T}.plan_area}},0)", "1"), look=SHARE),
        Computed(f"binding_{key}", f"Fullest, {label}", logic(f"MAX({{nitrogen_{key}}},{{oxygen_{key}}},{{bottom_{key}}},{{swim_share}},{{volume_share}})", "1"), look=SHARE),
    )  # fmt: skip


LOAD = (
    Computed("present", "In the tank already", logic("SUMIFS({candidates_here.animals[]},{candidates_here.species_row[]},{line})", "1", needs=(ROW,)), look=COUNT),
    Computed("oxygen_each", "Oxygen draw of one", BREATH, look=HIDDEN, help="A grown one, at the tank's set temperature."),
    Computed("ammonia_each", "Ammonia nitrogen of one", nitrogen.with_fasting(ammonia=nitrogen.ammonia_from_food(food=FOOD, protein=f"{{{T}.protein}}"), fasting_days=f"{{{T}.fasting_days}}"),
             look=Look(working=True, show="0.00000")),
    Computed("rise_each", "Nitrate rise by one", nitrogen.nitrate_rise(
        ammonia="{ammonia_each}", days=f"{{{T}.change_interval}}", volume=f"{{{T}.net_volume}}", yield_=f"{{{T}.yield_used}}"), look=Look(working=True, show="0.000")),
    Computed("breath_each", "Oxygen draw with its bacteria", replace(BACTERIA, text=f"{{oxygen_each}}+{BACTERIA.text}"), look=HIDDEN),
    Computed("bottom_each", "Bottom it wants", space.bottom_room(adult_length=f"{{{S}.adult_length}}", factor=logic(f'IF({{{S}.bottom_room}}="","",{BOTTOM})', "1"), animals="1"), look=HIDDEN),
    Computed("length_wanted", "Shortest tank", in_rows_with(ROW, replace(WANTED, text=f'IF(ISNUMBER({{{S}.length_min}}),{{{S}.length_min}},IF(OR({{{S}.swim}}="",{{{S}.adult_length}}=""),"",{WANTED.text}))')), look=HIDDEN),
    Computed("swim_share", "Swim room", share(f"{{length_wanted}}*{NOMINAL}/{{{T}.swim_length}}"), look=SHARE),
    Computed("volume_share", "Volume", share(f"{{{S}.volume_min}}*{NOMINAL}/{{{T}.net_volume}}"), look=SHARE),
    Computed("room_nitrogen", "Room by water change", replace(BY_NITRATE, text=f"IF({HOLDS},{BY_NITRATE.text},0)"), look=MANY),
    Computed("room_oxygen", "Room by oxygen", BY_OXYGEN, look=MANY),
    Computed("room_swim", "Room by swim room", all_or_none("{swim_share}"), look=MANY),
    Computed("room_bottom", "Room by bottom room", BY_BOTTOM, look=MANY),
    Computed("room_volume", "Room by volume", all_or_none("{volume_share}"), look=MANY),
    Computed("room", "How many more", logic(f"MIN({ROOMS})", "1", needs=tuple(f"room_{key}" for key, _ in MEASURES)), look=MANY),
    Computed("limit", "Then the limit is", logic(f'IF({{room}}=10^6,"none",CHOOSE(MATCH({{room}},{ROOMS},0),{LABELS}))', needs=("room",)), kind=text(), look=WHO),
    Computed("add_min", "Smallest group: to add", logic(f"MAX(1,{{{S}.group_min}}-{{present}})", "1"), look=COUNT),
    Computed("add_best", "Best group: to add", logic(f"MAX({{add_min}},{{{S}.group_best}}-{{present}})", "1"), look=COUNT),
    *group("min", "smallest group"), *group("best", "best group"),
)  # fmt: skip

# --- the company ---


def others(groups: str, habit: str, first: str, last: str) -> str:
    """Formula text: one of another species among those that do something; own: groups of its own among them."""
    own = f'IF({{{S}.{habit}}}="yes",SUMIFS({{candidates_here.living[]}},{{candidates_here.species_row[]}},{{line}}),0)'
    return f'IF({{{T}.{groups}}}-{own}<1,"",IF({{{T}.{first}}}<>{{{S}.species}},{{{T}.{first}}},IF({{{T}.{last}}}<>{{{S}.species}},{{{T}.{last}}},"another group")))'


def if_it(test: str, who: str) -> Formula:
    """The name of someone, where a test holds."""
    return logic(f'IF({test},{who},"")', needs=(ROW,))


GAPS = f"{{{T}.temper_max}}-{{{S}.temper}}", f"{{{S}.temper}}-{{{T}.temper_min}}"
COMPANY = (
    Computed("swallowed_by", "Could be swallowed by", logic(
        f'IF(AND({{{S}.kind}}<>"snail",{{{S}.adult_length}}<{{{T}.mouthful_max}}),{{{T}.mouthful_who}},"")'), kind=text(), look=WHO),
    Computed("swallows", "Could swallow", logic(f'IF({{{S}.mouth_share}}*{{{S}.adult_length}}>{{{T}.victim_min}},{{{T}.victim_who}},"")'), kind=text(), look=WHO),
    Computed("temper_gap", "Gap of temper", logic(f'IF({{{S}.kind}}="fish",MAX({GAPS[0]},{GAPS[1]}),0)', "1"), look=COUNT),
    Computed("temper_foe", "Gap to", logic(f'IF({{temper_gap}}=0,"",IF({{temper_gap}}={GAPS[0]},{{{T}.temper_who}},{{{T}.gentle_who}}))', needs=("temper_gap",)), kind=text(), look=WHO),
    Computed("bitten_by", "Long fins bitten by", if_it(f'{{{S}.long_fins}}="yes"', others("biters", "bites_fins", "first_biter", "last_biter")), kind=text(), look=WHO),
    Computed("bites", "Bites the long fins of", if_it(f'{{{S}.bites_fins}}="yes"', others("finned", "long_fins", "first_finned", "last_finned")), kind=text(), look=WHO),
    Computed("hunted_by", "Shrimp or snail hunted by", logic(
        f'IF({{{S}.kind}}="shrimp",IF({{{T}.shrimp_hunters}}>0,{{{T}.shrimp_hunter}},{{{T}.young_eater}}),IF({{{S}.kind}}="snail",{{{T}.snail_eater}},""))&""', needs=(ROW,)), kind=text(), look=WHO),
    Computed("hunts_shrimp", "Hunts the shrimp", if_it(f'OR({{{S}.eats_shrimp}}="yes",{{{S}.eats_shrimp}}="young")', f"{{{T}.shrimp_who}}"), kind=text(), look=WHO),
    Computed("hunts_snails", "Hunts the snails", if_it(f'{{{S}.eats_snails}}="yes"', f"{{{T}.snail_who}}"), kind=text(), look=WHO),
)  # fmt: skip

# --- the verdict ---

HUNTED = f'AND({{{S}.kind}}="shrimp",N({{{T}.shrimp_hunters}})>0)'
GRAVE, LIGHT = PARAMETERS[:2], PARAMETERS[2:]
TOO_FULL = {"water change": "more water changed, or fewer animals", "oxygen": "fewer animals or a larger tank", "swim room": "a longer tank", "bottom room": "a larger floor", "volume": "a larger tank"}
MEND = "_xlfn.SWITCH({limit}," + ",".join(f'"{limit}","{mend}"' for limit, mend in TOO_FULL.items()) + ',"")'
LACK = (
    (f'{{{S}.lacking}}<>""', f"{{{S}.lacking}}"), (f'{{{S}.kind}}=""', '"its kind"'), ('{length_wanted}=""', '"how it swims"'), (f'{{{S}.bottom_room}}=""', '"room on the bottom"'),
    (f'AND({{{S}.long_fins}}="",N({{{T}.biters}})>0)', '"whether its fins are long"'), (f'AND({{{S}.bites_fins}}="",N({{{T}.finned}})>0)', '"whether it bites fins"'),
    (f'AND({{{S}.eats_shrimp}}="",{{{T}.shrimp_who}}<>"")', '"whether it eats shrimp"'), (f'AND({{{S}.eats_snails}}="",{{{T}.snail_who}}<>"")', '"whether it eats snails"'),
    (f'{{{T}.lacking}}<>""', '"things of the tank (see above)"'), ('{room}=""', '"how many fit"'),
)  # fmt: skip


def said(key: str, label: str, *parts: tuple[str, str], between: str = "; ") -> Computed:
    """A text of what holds; blank where no tank is chosen."""
    return Computed(key, label, in_rows_with(ROW, joined(*parts, between=between)), kind=text(), look=TEXT)


VERDICT = (
    said("water_no", "Water forbids", *(at_odds(p) for p in GRAVE)),
    said("company_no", "Company forbids",
         ('{swallowed_by}<>""', '{swallowed_by}&" could swallow it (only with smaller company)"'), ('{swallows}<>""', '"could swallow "&{swallows}&" (only with larger company)"'),
         ("N({temper_gap})>=N({const.temper_clash})", f'"temper "&{{{S}.temper}}&" clashes with "&{{temper_foe}}&" (one of the two elsewhere)"'),
         ('{bitten_by}<>""', '{bitten_by}&" would bite its long fins (part them)"'), ('{bites}<>""', '"would bite the long fins of "&{bites}&" (part them)"'),
         (HUNTED, '{hunted_by}&" hunts shrimp (a tank without hunters)"'), (f'AND({{{S}.eats_shrimp}}="yes",{{hunts_shrimp}}<>"")', '"hunts "&{hunts_shrimp}&" (a tank without shrimp)"')),
    said("room_no", "Room forbids", ("AND(COUNT({room},{add_min})=2,N({room})<N({add_min}))",
         '"room for "&IF({room}=0,"none",{room})&" of the "&{add_min}&" to add: "&{limit}&" ("&' + MEND + '&")"')),
    said("unknown", "Unknown", *LACK, between=", "),
    said("care", "Care", *(at_odds(p) for p in LIGHT), *(part for p in PARAMETERS for part in to_mend(p)),
         ("AND(N({temper_gap})>=N({const.temper_watch}),N({temper_gap})<N({const.temper_clash}))", f'"temper "&{{{S}.temper}}&" beside "&{{temper_foe}}&": watch for chasing, give cover"'),
         (f'AND({{hunted_by}}<>"",NOT({HUNTED}))', f'{{hunted_by}}&IF({{{S}.kind}}="shrimp"," takes its young: give moss"," eats snails: expect losses")'),
         (f'AND({{{S}.eats_shrimp}}="young",{{hunts_shrimp}}<>"")', '"takes the young of "&{hunts_shrimp}&": give moss"'),
         ('{hunts_snails}<>""', '"eats "&{hunts_snails}&": expect losses"'),
         (f'{{{S}.caution}}<>""', f"{{{S}.caution}}"), (f'{{{T}.care}}<>""', '"see above what to mind first"')),
    Computed("verdict", "Verdict", logic(
        f'IF({{water_no}}&{{company_no}}&{{room_no}}<>"","{VERDICTS["not"]}",IF({{unknown}}<>"","{VERDICTS["unknown"]}",IF({{care}}<>"","{VERDICTS["care"]}","{VERDICTS["fits"]}")))',
        needs=(ROW, "const.temper_clash", "const.temper_watch", *(p.narrow.strip("{}") for p in PARAMETERS))), kind=text(), look=Look(working=True, width=15)),
    Computed("stop", "Stopped by", logic('IF({water_no}<>"","water",IF({company_no}<>"","company",IF({room_no}<>"",{limit},"")))', needs=(ROW,)), kind=text(), look=WHO),
    Computed("against", "What speaks against it", in_rows_with(ROW, all_said(["{water_no}", "{company_no}", "{room_no}"], "; ")), kind=text(), look=TEXT),
    said("reasons", "Reasons and what to do", ("N({present})>0", '"tops up the "&{present}&" there"'), ('{against}<>""', "{against}"), ('{unknown}<>""', '"unknown: "&{unknown}'), ('{care}<>""', "{care}"),
         ("AND(COUNT({room},{add_best})=2,N({room})>=N({add_min}),N({room})<N({add_best}))", '"not room for the best group"')),
)  # fmt: skip

# --- likeness, filters, rank ---

PARTS = ("size", "form", "zone", "temper", "colour", "group", "ranges")


def nearer(first: str, second: str) -> str:
    """Formula text: the lesser over the greater of two numbers above 0."""
    return f"MIN({first},{second})/MAX({first},{second})"


def same(column: str) -> Formula:
    """1 where a word is that of the species wanted."""
    return logic(f"IF({{{S}.{column}}}={{{T}.like_{column}}},1,0)", "1")


def meet(p: Parameter) -> str:
    """Formula text: what two ranges share, of all that they cover; two equal points share all."""
    ends = f"{{{S}.used_{p.key}_low}}", f"{{{T}.like_{p.key}_low}}", f"{{{S}.used_{p.key}_high}}", f"{{{T}.like_{p.key}_high}}"
    covered = f"(MAX({ends[2]},{ends[3]})-MIN({ends[0]},{ends[1]}))"
    return f"IF({covered}>0,MAX(0,MIN({ends[2]},{ends[3]})-MAX({ends[0]},{ends[1]}))/{covered},1)"


ZONES = f"{{{S}.zone}}", f"{{{T}.like_zone}}"
LIKE = (
    Computed("like_size", "Likeness of size", logic(nearer(f"{{{S}.adult_length}}", f"{{{T}.like_adult_length}}"), "1"), look=HIDDEN),
    Computed("like_form", "of body form", same("body_form"), look=HIDDEN),
    Computed("like_zone", "of zone", logic(f'IF({ZONES[0]}={ZONES[1]},1,IF(OR({ZONES[0]}="all",{ZONES[1]}="all"),1/2,0))', "1"), look=HIDDEN),
    Computed("like_temper", "of temper", logic(f"MAX(0,1-ABS({{{S}.temper}}-{{{T}.like_temper}})/{{const.temper_clash}})", "1"), look=HIDDEN, help="None where the gap would be a clash."),
    Computed("like_colour", "of colour", same("colour_group"), look=HIDDEN),
    Computed("like_group", "of group size", logic(nearer(f"{{{S}.group_min}}", f"{{{T}.like_group_min}}"), "1"), look=HIDDEN),
    Computed("like_ranges", "of water", logic("(" + "+".join(meet(p) for p in PARAMETERS) + ")/2/2", "1"), look=HIDDEN),
    Computed("likeness", "Likeness", logic(
        "(" + "+".join(f"{{like_{part}}}*{{const.like_{part}}}" for part in PARTS) + ")/MAX(1/10^6," + "+".join(f"{{const.like_{part}}}" for part in PARTS) + ")", "1"), look=Look(working=True, show="0%"),
        help="Blank while one of the seven is unknown; their weights are constants."),
)  # fmt: skip


def wide(p: Parameter) -> str:
    """Formula text: whether the range of a species is as wide as that of an easy kind."""
    return f"ROUND({{{S}.used_{p.key}_high}}-{{{S}.used_{p.key}_low}},6)>={{const.easy_{p.key}}}"


C = "candidates_choice"
PASSES = (f'OR({{{C}.zone}}="",{{{C}.zone}}="any",{{{S}.zone}}={{{C}.zone}},{{{S}.zone}}="all")',
          f'OR({{{C}.longest}}="",AND({{{S}.adult_length}}<>"",{{{S}.adult_length}}<={{{C}.longest}}))',
          f'OR({{{C}.temper_most}}="",AND({{{S}.temper}}<>"",{{{S}.temper}}<={{{C}.temper_most}}))', f'OR({{{C}.easy}}<>"yes",N({{easy}})=1)',
          f"{{line}}<>N({{{T}.wanted}})")  # fmt: skip
RANK = (
    Computed("easy", "Easy kind", logic(f"IF(AND({','.join(wide(p) for p in PARAMETERS[:-1])}),1,0)", "1"), look=COUNT),
    Computed("passes", "Passes the filters", logic(f"IF(AND({','.join(PASSES)}),1,0)", "1", needs=(ROW,)), look=COUNT),
    Computed("merit", "Within its verdict", logic(f'IF(N({{{T}.wanted}})>0,N({{likeness}}),(MAX(0,1-IF({{binding_min}}="",1,{{binding_min}}))+N({{width}}))/2)', "1", needs=(ROW,)), look=HIDDEN,
             help="Likeness where a species is wanted, otherwise half for room left, half for width of water."),
    Computed("rank", "Order", logic(
        f'IF({{passes}}=1,_xlfn.SWITCH({{verdict}},"{VERDICTS["fits"]}",3,"{VERDICTS["care"]}",2,"{VERDICTS["unknown"]}",1,0)*2+ROUND({{merit}},3)-{{line}}/10^9,"")', "1",
        needs=("passes", "verdict", "merit")), look=Look(working=True, show="0.000")),
)  # fmt: skip

CANDIDATES = Table("candidates", title="The whole library", rows_of="species", row_name=("species",), purpose="", columns=(
    Pulled("species", via="species", look=WHO), *WATER, *LOAD, *COMPANY, *VERDICT, *LIKE, *RANK))

STOPS = Table("candidates_stops", title="What stops them", lines=7, row_name=("stop",), purpose="", columns=(
    Computed("stop", "Stopped by", logic(f'CHOOSE({{line}},"water","company",{LABELS})'), kind=text(), look=WHO),
    Computed("stopped", "How many", logic("SUMIFS({candidates.passes[]},{candidates.stop[]},{stop})", "1"), look=COUNT),
))


def of_best(key: str, label: str, look: Look, column: str = "", unit: str = "", help: str = "") -> Computed:  # noqa: A002
    """What stands in the row that was found."""
    return Computed(key, label, cell_of(f"{{candidates.{column or key}[]}}", "{found}", unit), look=look, help=help, **({} if unit else {"kind": text()}))


BEST, FULL = Look("Candidates", 10), Look("Room", 8, "0%", measure="fit")
RANKED = Table("best", title="The best twenty", lines=20, row_name=("species",), purpose="", columns=(
    Computed("place", "Place", logic('IF({found}="","",{line})', "1", copes=True), look=Look("Candidates", 6, "0")),
    of_best("species", "Species", Look("Candidates", 24)),
    of_best("verdict", "Verdict", Look("Candidates", 16, status=True)),
    of_best("likeness", "Likeness", Look("Candidates", 9, "0%"), unit="1", help="To the species that can't be had."),
    of_best("room", "How many more", Look("Room", 9, MANY.show), unit="1", help="Until the next limit of Stocking."),
    of_best("limit", "Next limit", Look("Room", 13)),
    of_best("add_min", "Smallest group: add", Look("Room", 9, "0"), unit="1"),
    of_best("binding_min", "then full", FULL, unit="1", help="By the fullest of the measures that they raise."),
    of_best("add_best", "Best group: add", Look("Room", 8, "0"), unit="1"),
    of_best("binding_best", "then full", FULL, unit="1"),
    of_best("water", "Water shared", Look("Why", 32)),
    of_best("reasons", "What to mind and to do", Look("Why", 56)),
    Computed("score", "Order", logic('IF({line}>COUNT({candidates.rank[]}),"",LARGE({candidates.rank[]},{line}))', "1", copes=True), look=HIDDEN),
    Computed("found", "Row", logic("MATCH({score},{candidates.rank[]},0)", "1"), look=COUNT),
))

SHEET = Sheet(
    "Candidates", blocks=(RANKED, TANK, HERE, STOPS, CANDIDATES), forms=(CHOICE,), frozen_columns=0, frozen_head=False,
    purpose="What else can go in this tank, how many, and what is close to a fish that can't be had. The whole library stands at the right, species by species.",
    notes=("Reckoned with grown animals: young ones may fit a mouth until they have grown. Planning estimates: add slowly, test the water and watch the animals; quarantine what is new.",),
)
