"""Candidates: what else can go in a tank, how many, and what comes close to a fish that can't be had; then species by species."""

from dataclasses import replace

from workbook.equations import headroom, metabolism, space
from workbook.sheets.best import BEST
from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.sheets.sought import CHOICE, COUNT, HIDDEN, MANY, MEASURES, RESIDENTS, SENTENCE, SOUGHT, VERDICTS, WHO
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula
from workbook.tables.idioms import in_rows_with, joined

ROW = "sought.row"
KIND, ANY_NUMBER = Look("The kind", 18), "Any number"
FITS, LOAD_SHARE = Look(ANY_NUMBER, 9, "0%", measure="fit"), Look(show="0%", width=9, measure="load")
GROUPS = {"min": "With the smallest group: share of each limit", "best": "With the best group: share of each limit"}
ROOMS = f"{{room_{MEASURES[0][0]}}}:{{room_{MEASURES[-1][0]}}}"
LABELS = ",".join(f'"{label}"' for _, label in MEASURES)
WIDTHS = tuple(f"{p.key}_width" for p in PARAMETERS)

# --- the water that is left ---


def kept(p: Parameter) -> str:
    """The name of what the tank is kept at."""
    return "{sought.temperature}" if p.key == "temperature" else f"{{sought.{p.key}_used}}"


def water(p: Parameter) -> tuple[Column, ...]:
    """What the residents and this species share of one parameter."""
    look, hidden = Look("Water left to share", 7, p.show), Look(working=True, show=p.show)
    return (
        Computed(f"{p.key}_low", f"{p.label} from", logic(f"MAX({{sought.{p.key}_low}},{{species.used_{p.key}_low}})", p.unit, needs=(ROW, f"species.used_{p.key}_low")), look=replace(look, width=12) if p.key == "temperature" else look),
        Computed(f"{p.key}_high", "to", logic(f"MIN({{sought.{p.key}_high}},{{species.used_{p.key}_high}})", p.unit, needs=(ROW, f"species.used_{p.key}_high")), look=look),
        Computed(f"{p.key}_width", "width", logic(f"{{{p.key}_high}}-{{{p.key}_low}}", "K" if p.unit == "degC" else p.unit), look=hidden, help="Below zero: nothing shared."),
    )  # fmt: skip


def outside(p: Parameter) -> str:
    """Formula text: the name of a parameter in which the tank is kept outside what is left."""
    return f'IF(({kept(p)}<{{{p.key}_low}})+({kept(p)}>{{{p.key}_high}})>0,"{p.word} ","")'


WATER = (
    *(column for p in PARAMETERS for column in water(p)),
    Computed("outside", "Tank kept outside it in", logic("TRIM(" + "&".join(outside(p) for p in PARAMETERS) + ")", needs=(*WIDTHS, *(kept(p).strip("{}") for p in PARAMETERS))), kind=text(), look=WHO),
    Computed("width", "Width of all four", logic("(" + "+".join(f"IF({{{p.key}_width}}>0,{{{p.key}_width}}/({{{p.key}_width}}+{p.narrow}),0)" for p in PARAMETERS) + ")/2/2", "1", needs=(*WIDTHS, "sought.ready")), look=HIDDEN,
             help="0 to 1: half for a range as wide as what counts as narrow."),
)

# --- the load of one more, and how many more ---

BREATH = metabolism.routine_oxygen(resting=metabolism.resting_oxygen(mass="{species.adult_mass}", temperature="{sought.temperature}"))
SWIM = '_xlfn.SWITCH({species.swim},"active",{const.swim_active},"calm",{const.swim_calm},{const.swim_sedentary})'
BOTTOM = '_xlfn.SWITCH({species.bottom_room},"holds ground",{const.bottom_holds},"social",{const.bottom_social},0)'
FLOOR = space.bottom_room(adult_length="{adult_length}", factor=logic(BOTTOM, "1"), animals="1")
PART = Look(working=True, show="0.00%")
WANTED = space.swim_length(adult_length="{adult_length}", multiple=logic(SWIM, "1"))


def whole(measure: str, label: str, of: str) -> Computed:
    """How many whole animals; no limit where one does not raise the measure. Rounded first: 2.9999999999 is 3."""
    left = headroom.animals_left(full=f"{{sought.{of}_full}}", each=f"{{{of}_each}}")
    return Computed(f"room_{measure}", label, replace(left, text=f"IF({{{of}_each}}>0,INT(MIN(10^6,MAX(0,ROUND({left.text},9)))),10^6)"), look=MANY)


def all_or_none(measure: str, label: str) -> Computed:
    """Room by what one animal wants of the whole tank: any number fits, or none."""
    return Computed(f"room_{measure}", label, logic(f"IF(ROUND({{{measure}_share}},9)>1,0,10^6)", "1"), look=MANY)


ADD = {
    "min": Computed("add_min", "To add", logic("MAX(1,{group_min}-{present})", "1"), help="To what is there; at least one."),
    "best": Computed("add_best", "To add", logic("MAX({add_min},{species.group_best}-{present})", "1")),
}


def shares(key: str) -> tuple[Column, ...]:
    """Each limit's share with so many more, of the measures that they raise; shares as on Stocking."""
    add, look = f"{{add_{key}}}", replace(LOAD_SHARE, group=GROUPS[key])
    return (
        replace(ADD[key], look=Look(GROUPS[key], 8, "0")),
        Computed(f"nitrogen_{key}", "Water change", logic(f"MAX(0,{{sought.nitrate_full}}+{add}*{{nitrate_each}})", "1"), look=look),
        Computed(f"oxygen_{key}", "Oxygen", logic(f"{{sought.oxygen_full}}+{add}*{{oxygen_each}}", "1"), look=look),
        Computed(f"bottom_{key}", "Bottom room", logic(f"IF({{bottom_each}}>0,{{sought.bottom_full}}+{add}*{{bottom_each}},0)", "1"), look=look, help="0 % for kinds that want no bottom of their own."),
        Computed(f"binding_{key}", "Fullest of all", logic(f"MAX({{nitrogen_{key}}}:{{bottom_{key}}},{{swim_share}},{{volume_share}})", "1", needs=("more", f"nitrogen_{key}")), look=replace(look, measure="fit"), help="Swim room and volume too."),
    )


LOAD = (
    Computed("present", "In the tank", logic("SUMIFS({residents.animals[]},{residents.species_row[]},{line})", "1", needs=(ROW,)), look=Look("How many", 8, "0")),
    Computed("breath", "Oxygen draw of one", BREATH, look=Look(working=True, show="0.000"), help="A grown one, at the tank's set temperature."),
    Computed("nitrate_each", "Of the water change, each", logic("{breath}*{sought.nitrate_by_breath}", "1"), look=PART),
    Computed("oxygen_each", "Of the oxygen, each", logic("{breath}*{sought.oxygen_by_breath}", "1"), look=PART),
    Computed("bottom_each", "Of the bottom, each", replace(FLOOR, unit="1", text=f"{FLOOR.text}/{{sought.plan_area}}"), look=PART),
    whole("nitrogen", "Room by water change", "nitrate"), whole("oxygen", "Room by oxygen", "oxygen"), all_or_none("swim", "Room by swim room"),
    whole("bottom", "Room by bottom room", "bottom"), all_or_none("volume", "Room by volume"),
    Computed("more", "More it could take", logic(f"MIN({ROOMS})", "1", needs=tuple(f"room_{key}" for key, _ in MEASURES)), look=Look("How many", 9, MANY.show)),
    Computed("limit", "Then the limit is", logic(f'IF({{more}}=10^6,"none",CHOOSE(MATCH({{more}},{ROOMS},0),{LABELS}))', needs=("more",)), kind=text(), look=Look("How many", 14)),
    Computed("swim_share", "Swim room", logic("IF(ISNUMBER({species.length_min}),{species.length_min}," + WANTED.text + ")*(1-{const.nominal_allowance})/{sought.swim_length}", "1",
        needs=("sought.swim_length", "adult_length", "species.swim", "const.nominal_allowance")), look=FITS, help="Length it wants against the longest swim, as on Stocking."),
    Computed("volume_share", "Volume", logic("{species.volume_min}*(1-{const.nominal_allowance})/{sought.net_volume}", "1"), look=FITS, help="Smallest tank it wants against the net volume, as on Stocking."),
    *shares("min"), *shares("best"),
)  # fmt: skip

# --- the company ---


def named(test: str, who: str) -> Formula:
    """The name of someone, where a test holds."""
    return logic(f'IF({test},{who},"")', needs=(ROW,))


GAPS = "{sought.temper_max}-{temper}", "{temper}-{sought.temper_min}"
COMPANY = (
    Computed("swallowed_by", "Could be swallowed by", logic('IF(AND({kind}<>"snail",ROUND({adult_length}-{sought.mouthful_max},6)<0),{sought.mouthful_who},"")'), kind=text(), look=WHO),
    Computed("swallows", "Could swallow", logic('IF(ROUND({species.mouth_share}*{adult_length}-{sought.victim_min},6)>0,{sought.victim_who},"")'), kind=text(), look=WHO),
    Computed("temper_gap", "Gap of temper", logic(f'IF({{kind}}="fish",MAX({GAPS[0]},{GAPS[1]}),"")', "1"), look=COUNT),
    Computed("temper_foe", "Gap to", logic(f'IF({{temper_gap}}=0,"",IF({{temper_gap}}={GAPS[0]},{{sought.temper_who}},{{sought.gentle_who}}))', needs=("temper_gap",)), kind=text(), look=WHO),
    Computed("bitten_by", "Long fins bitten by", named('{species.long_fins}="yes"', "IF({sought.first_biter}<>{species},{sought.first_biter},{sought.second_biter})"), kind=text(), look=WHO),
    Computed("bites", "Bites the long fins of", named('{species.bites_fins}="yes"', "IF({sought.first_finned}<>{species},{sought.first_finned},{sought.second_finned})"), kind=text(), look=WHO),
    Computed("hunted_by", "Shrimp or snail hunted by", logic('_xlfn.SWITCH({kind},"shrimp",{sought.shrimp_eater},"snail",{sought.snail_eater},"")', needs=(ROW,)), kind=text(), look=WHO),
    Computed("hunts_shrimp", "Hunts the shrimp", named('OR({species.eats_shrimp}="yes",{species.eats_shrimp}="young")', "{sought.shrimp_who}"), kind=text(), look=WHO),
    Computed("hunts_snails", "Hunts the snails", named('{species.eats_snails}="yes"', "{sought.snail_who}"), kind=text(), look=WHO),
)  # fmt: skip

# --- the verdict ---

BARS = ('{swallowed_by}&{swallows}&{bitten_by}&{bites}<>""', "N({temper_gap})>={const.temper_clash}",
        'AND({kind}="shrimp",{sought.shrimp_hunters}>0)', 'AND({species.eats_shrimp}="yes",{hunts_shrimp}<>"")')  # fmt: skip
UNKNOWN = ('{species.lacking}&{sought.lacking}<>""', '{kind}=""', '{more}=""', '{add_min}=""',
           'AND({species.long_fins}="",{sought.biters}>0)', 'AND({species.bites_fins}="",{sought.first_finned}<>"")',
           'AND({species.eats_shrimp}="",{sought.shrimp_who}<>"")', 'AND({species.eats_snails}="",{sought.snail_who}<>"")')  # fmt: skip
CARE = ('{outside}&{hunted_by}&{hunts_shrimp}&{hunts_snails}&{species.caution}&{sought.care}<>""', "N({temper_gap})>={const.temper_watch}",
        *(f"{{{p.key}_width}}<{{sought.thin_{p.key}}}" for p in PARAMETERS))  # fmt: skip
VERDICT = (
    Computed("bars", "Company forbids", logic(f"IF(OR({','.join(BARS)}),1,0)", "1", needs=("sought.ready",)), look=COUNT),
    Computed("stop", "Stopped by", logic(
        '_xlfn.IFS(OR(N({temperature_width})<0,N({ph_width})<0),"water",{bars}=1,"company",AND(COUNT({more},{add_min})=2,N({more})<N({add_min})),{limit},1=1,"")', needs=("bars",)), kind=text(), look=WHO),
    Computed("unknown", "Not known enough", logic(f"IF(OR({','.join(UNKNOWN)}),1,0)", "1", needs=(ROW,)), look=COUNT),
    Computed("care", "Wants care", logic(f"IF(OR({','.join(CARE)}),1,0)", "1", needs=("sought.ready",)), look=COUNT),
    Computed("verdict", "Verdict", logic(f'_xlfn.IFS({{stop}}<>"","{VERDICTS["not"]}",{{unknown}}=1,"{VERDICTS["unknown"]}",{{care}}=1,"{VERDICTS["care"]}",1=1,"{VERDICTS["fits"]}")',
             needs=("bars", "unknown", "care")), kind=text(), look=replace(KIND, status=True)),
)  # fmt: skip

# --- why, in few words ---

WIDTH = ",".join(f"{{{width}}}" for width in WIDTHS)


def where(test: str) -> str:
    """Formula text: the names of the parameters of which a test holds."""
    return 'SUBSTITUTE(TRIM(' + "&".join(f'IF({test.replace("WIDTH", f"{{{p.key}_width}}").replace("THIN", f"{{sought.thin_{p.key}}}")},"{p.word} ","")' for p in PARAMETERS) + ')," ",", ")'


WHY = (
    Computed("objects", "Who objects", in_rows_with("bars", joined(
        ('{swallowed_by}<>""', '{swallowed_by}&" (swallows it)"'), ('{swallows}<>""', '{swallows}&" (it swallows)"'),
        ("N({temper_gap})>={const.temper_watch}", '{temper_foe}&" (temper)"'), ('{bitten_by}<>""', '{bitten_by}&" (bites its fins)"'), ('{bites}<>""', '{bites}&" (it bites the fins)"'),
        ('{hunted_by}<>""', '{hunted_by}&" (eats it or its young)"'), ('{hunts_shrimp}<>""', '{hunts_shrimp}&" (it eats)"'), ('{hunts_snails}<>""', '{hunts_snails}&" (it eats)"'), between=", ")),
        kind=text(), look=Look("Why", 40), help="Blank: nobody."),
    Computed("why", "What else", in_rows_with("bars", joined(
        (f"MIN({WIDTH})<0", f'"no shared "&{where("N(WIDTH)<0")}'), (f'AND(MIN({WIDTH})>=0,{{outside}}<>"")', '"tank kept outside in "&SUBSTITUTE({outside}," ",", ")'),
        (f"OR({','.join(f'AND(N({{{p.key}_width}})>=0,{{{p.key}_width}}<{{sought.thin_{p.key}}})' for p in PARAMETERS)})", f'"little shared "&{where("AND(N(WIDTH)>=0,WIDTH<THIN)")}'),
        ("AND(COUNT({more},{add_min})=2,N({more})<N({add_min}))", '"room for "&{more}&" of "&{add_min}&" ("&{limit}&")"'),
        ("{unknown}=1", '"not known: "&IF({species.lacking}="","room, fins, prey or the tank",{species.lacking})'),
        ('{species.caution}<>""', '"see its caution"'), ('{sought.care}<>""', '"mind the tank first"'))), kind=text(), look=Look("Why", 56)),
)  # fmt: skip

# --- likeness, filters, rank ---


def nearer(column: str) -> str:
    """Formula text: the lesser over the greater of two numbers above 0."""
    pair = f"{{{column}}},{{sought.like_{column}}}"
    return f"MIN({pair})/MAX({pair})"


def same(column: str) -> str:
    """Formula text: 1 where a word is that of the species wanted."""
    return f"IF({{species.{column}}}={{sought.like_{column}}},1,0)"


def meet(p: Parameter) -> str:
    """Formula text: what two ranges share, of the one wanted; a hundredth more, so that a range may be a single point."""
    shared = f"MIN({{species.used_{p.key}_high}},{{sought.like_{p.key}_high}})-MAX({{species.used_{p.key}_low}},{{sought.like_{p.key}_low}})"
    return f"MAX(0,{shared}+1/10^2)/{{sought.like_{p.key}_width}}"


ZONE = 'IF({zone}={sought.like_zone},1,IF(OR({zone}="all",{sought.like_zone}="all"),1/2,0))'
TEMPER = "MAX(0,1-ABS({temper}-{sought.like_temper})/{const.temper_clash})"
ALIKE = {"size": nearer("adult_length"), "form": same("body_form"), "zone": ZONE, "temper": TEMPER, "colour": same("colour_group"), "group": nearer("group_min"), "ranges": "{like_ranges}"}
LIKE = (
    Computed("like_ranges", "Likeness of water", logic("(" + "+".join(meet(p) for p in PARAMETERS) + ")/2/2", "1", needs=(*WIDTHS, "sought.like_ready")), look=HIDDEN),
    Computed("likeness", "Likeness", logic("+".join(f"{text_}*{{sought.weight_{part}}}" for part, text_ in ALIKE.items()), "1", needs=(
        "like_ranges", "adult_length", "species.body_form", "zone", "temper", "species.colour_group", "group_min")), look=Look(KIND.group, 9, "0%"),
        help="Size, body form, zone, temper, colour, group and water, by weights that are constants. Blank while one of the seven is unknown."),
)  # fmt: skip


def wide(p: Parameter) -> str:
    """Formula text: whether the range of a species is as wide as that of an easy kind."""
    return f"ROUND({{species.used_{p.key}_high}}-{{species.used_{p.key}_low}},6)>={{const.easy_{p.key}}}"


PASSES = ('OR({sought.zone}="",{zone}={sought.zone},{zone}="all")', "N({adult_length})>{sought.length_over}", "N({adult_length})<={sought.length_most}",
          "N({temper})>{sought.temper_over}", "N({temper})<={sought.temper_most}", "N({easy})>={sought.easy}",
          'OR({sought.just}="",{line}={sought.just})', '{line}<>{sought.wanted}')  # fmt: skip
RANK = (
    Computed("easy", "Easy kind", logic(f"IF(AND({','.join(wide(p) for p in PARAMETERS[:-1])}),1,0)", "1", needs=WIDTHS[:-1]), look=COUNT),
    Computed("passes", "Passes the filters", logic(f"IF(AND({','.join(PASSES)}),1,0)", "1", needs=(ROW,)), look=Look(KIND.group, 8, '[=1]"yes";"no"')),
    Computed("merit", "Within its verdict", logic(
        'IF({sought.wanted}="",IF(COUNT({binding_min},{width})=2,(MAX(0,1-{binding_min})+{width})/2,0),N({likeness}))', "1", needs=(ROW,)), look=HIDDEN,
        help="Likeness where a species is wanted, otherwise half for room left, half for width of water."),
    Computed("rank", "Order", logic(
        f'IF({{passes}}=1,_xlfn.SWITCH({{verdict}},"{VERDICTS["fits"]}",3,"{VERDICTS["care"]}",2,"{VERDICTS["unknown"]}",1,0)*2+ROUND({{merit}},3)-{{line}}/10^9,"")', "1",
        needs=("passes", "verdict", "merit")), look=Look(working=True, show="0.000"), help="By verdict, then as above; of equal ones the upper line."),
)  # fmt: skip

# The order in which people read them; what they are reckoned from stands at the right.
CANDIDATES = Table("candidates", title="The whole library", rows_of="species", row_name=("species",), purpose="", columns=(
    Pulled("species", via="species", look=Look(KIND.group, 24)),
    *(column for column in (*VERDICT, *LIKE, *RANK) if not column.look.working), *WHY, *LOAD, *WATER,
    *(Pulled(key, via="species") for key in ("kind", "adult_length", "group_min", "zone", "temper")), *COMPANY,
    *(column for column in (*VERDICT, *LIKE, *RANK) if column.look.working)))

STOPS = Table("candidates_stops", title="What stops them", lines=7, row_name=("stop",), purpose="", columns=(
    Computed("stop", "Stopped by", logic(f'CHOOSE({{line}},"water","company",{LABELS})'), kind=text(), look=WHO),
    Computed("stopped", "How many", logic("SUMIFS({candidates.passes[]},{candidates.stop[]},{stop})", "1"), look=COUNT),
))

SHEET = Sheet(
    "Candidates", blocks=(BEST, SOUGHT, RESIDENTS, STOPS), forms=(CHOICE,), frozen_columns=0, frozen_head=False,
    purpose="What else can go in this tank, how many, and what is close to a fish that can't be had. All candidates says the same of the whole library, species by species.",
    notes=("Reckoned with grown animals: young ones may fit a mouth until they have grown. Estimates: add slowly, test the water, watch the animals; quarantine what is new.",),
)
ASKED = Table("candidates_asked", title="As chosen on Candidates", purpose="", row_name=("about",), form=True, columns=(
    Computed("about", "The tank", logic('IF({sought.row}="","Choose a tank on Candidates.",{sought.about}&"")', copes=True), kind=text(), look=SENTENCE),
    Computed("wanted", "Likeness to", logic('IF({sought.wanted}="","nothing: name a species under Instead of, on Candidates",{candidates_choice.instead_of}&"")', copes=True), kind=text(), look=SENTENCE),
))
ALL_SHEET = Sheet(
    "All candidates", blocks=(CANDIDATES,), forms=(ASKED,), new_page_before=("candidates.swim_share",),
    purpose="Every species of the library against the chosen tank: who objects, how many until which limit, each limit's share with the smallest and with the best group, the water left.",
    notes=("100 % is the limit, as on Stocking. Blank: not known. Swim room and volume are the same for any number; the other three rise with each animal.",),
)
