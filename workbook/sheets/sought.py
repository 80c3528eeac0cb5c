"""What is sought: the chosen tank's row of every answer, looked up once, who lives in it, and the filters."""

from dataclasses import replace

from workbook.equations import feeding, headroom, nitrogen
from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.tables import Computed, Look, Pulled, Table, Typed, choice, count, link, logic, number, row, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula
from workbook.tables.idioms import cell_of, in_rows_with, joined

HIDDEN, COUNT, WHO, TEXT = Look(working=True, show="0.00"), Look(working=True, show="0"), Look(working=True, width=18), Look(working=True, width=24)
MANY = Look(working=True, show='[>=1000000]"no limit";0')
VERDICTS = {"fits": "fits", "care": "◆ fits with care", "unknown": "○ unknown", "not": "▲ does not fit"}
MEASURES = (("nitrogen", "water change"), ("oxygen", "oxygen"), ("swim", "swim room"), ("bottom", "bottom room"), ("volume", "volume"))
FIT, CARE, UNKNOWN, NOT = (f'SUMIFS({{candidates.passes[]}},{{candidates.verdict[]}},"{word}")' for word in VERDICTS.values())
CHOSEN = "{candidates_choice"
LIKE = ("adult_length", "body_form", "zone", "temper", "colour_group", "group_min")
PARTS = ("size", "form", "zone", "temper", "colour", "group", "ranges")
SENTENCE = Look(width=22, runs_on=True)

CHOICE = Table("candidates_choice", title="What is sought", purpose="", row_name=("tank",), form=True, columns=(
    Typed("tank", "Tank", link("tanks"), look=Look(width=22), help="Pick one: what else can go in this tank?"),
    Typed("instead_of", "Instead of", link("species"), look=Look(width=22), help="A species that can't be had: what comes close to it stands first. Blank: what leaves most room and water."),
    Typed("zone", "Zone", choice("any", "top", "middle", "bottom"), look=Look(width=22), help="Kinds of all zones pass every choice. Blank: any."),
    Typed("longest", "Longest", number(0.3, 200), unit="cm", look=Look(width=22, show="0.#"), help="When grown. Blank: any length."),
    Typed("temper_most", "Worst temper", count(1, 5), unit="1", look=Look(width=22, show="0"), help="1 gentle to 5 hostile. Blank: any."),
    Typed("easy", "Easy only", choice("yes", "no"), look=Look(width=22), help="yes: only kinds with wide ranges of temperature, pH and GH (how wide: Constants)."),
    Typed("just", "This kind only", link("species"), look=Look(width=22), help="To see what is said of one kind. Blank: all."),
    Computed("told", "Result", logic(
        f'IF({{sought.row}}="","Choose a tank.",SUM({{candidates.passes[]}})&" of "&COUNTA({{species.species[]}})&" kinds pass the filters: "&{FIT}&" fit, "&{CARE}'
        f'&" fit with care, "&{NOT}&" do not fit, "&{UNKNOWN}&" unknown.")', copes=True), kind=text(), look=SENTENCE),
    Computed("stopped", "Why none", logic(
        f'IF({FIT}+{CARE}>0,"",IF(SUM({{candidates_stops.stopped[]}})=0,"Nothing is known to fit.","Nothing fits. Most are stopped by "&INDEX({{candidates_stops.stop[]}},MATCH(MAX({{candidates_stops.stopped[]}}),{{candidates_stops.stopped[]}},0))'
        f'&": "&MAX({{candidates_stops.stopped[]}})&" of "&{NOT}&"."))', needs=("sought.row",)), kind=text(), look=SENTENCE),
    Computed("about", "The tank", logic('{sought.about}&""', copes=True), kind=text(), look=SENTENCE),
    Computed("mind", "Mind first", logic('{sought.mind}&""', copes=True), kind=text(), look=SENTENCE),
))


def row_of(name: str, column: str) -> Formula:
    """The row of what was chosen, found once."""
    return logic(f'IF({{candidates_choice.{name}}}="","",IFERROR(MATCH({{candidates_choice.{name}}},{{{column}[]}},0),""))', "1", copes=True)


def limit(key: str, of: str, label: str, unit: str) -> tuple[Column, Column]:
    """What passes a filter lies over the one and not over the other: without a filter also what is not known, that is 0."""
    test = f'{CHOSEN}.{of}}}=""'
    return (Computed(f"{key}_over", f"{label} over", logic(f"IF({test},0-1,0)", unit, copes=True), look=COUNT),
            Computed(f"{key}_most", f"{label} at most", logic(f"IF({test},10^6,{CHOSEN}.{of}}})", unit, copes=True), look=HIDDEN))


def of_tank(key_: str, of: str = "") -> Pulled:
    """What stands in the row of the chosen tank."""
    return Pulled(key_, via="row", of=of)


def shared(p: Parameter) -> tuple[Column, ...]:
    """The water that the residents leave of one parameter, who sets its ends, and what the tank is kept at."""
    ends = (of_tank(f"{p.key}_{part}", f"overlap_detail.{p.key}_{part}") for part in ("low", "high", "low_by", "high_by", "width"))
    return (*ends, of_tank("temperature" if p.key == "temperature" else f"{p.key}_used"))


def first(lines: str) -> str:
    """Formula text: the species in the first of the lines that were noted."""
    return f'IF(COUNT({lines})=0,"",INDEX({{residents.species[]}},MIN({lines})))'


def some(flags: str) -> str:
    """Formula text: the first species of which something holds."""
    return f'IF(SUM({flags})=0,"",INDEX({{residents.species[]}},MATCH(1,{flags},0)))'


NEEDED = (("net_volume", "its net volume"), ("temperature", "its set temperature"), *((f"{p.key}_used", f"its {p.label}") for p in PARAMETERS[1:]),
          ("plan_area", "its water surface"), ("swim_length", "its longest swim"), ("change_share", "its water change"), ("change_interval", "how often water is changed"),
          ("fasting_days", "its fasting days"), ("water_nitrate", "nitrate of its source water"), ("draw", "what its animals breathe"), ("ammonia", "what its animals give off"),
          ("bottom_wanted", "the floor its animals want"))
AMMONIA = nitrogen.with_fasting(ammonia=nitrogen.ammonia_from_food(food=feeding.ration(oxygen="1"), protein="{protein}"), fasting_days="{fasting_days}")
BACTERIA = nitrogen.nitrification_oxygen(ammonia=AMMONIA)
OVER = joined(*((f"ROUND(N({{{key}_share}}),2)>1", f'"{label} "&ROUND({{{key}_share}}*10^2,0)&" %"') for key, label in MEASURES), between=", ")

SOUGHT = Table("sought", title="The tank that was chosen", purpose="", lines=1, row_name=("tank",), columns=(
    Computed("row", "Row of the tank", row_of("tank", "tanks.tank"), kind=row("tanks"), look=COUNT),
    Computed("wanted", "Row of the species wanted", row_of("instead_of", "species.species"), kind=row("species"), look=COUNT),
    Computed("just", "Row of the one kind", row_of("just", "species.species"), kind=row("species"), look=COUNT),
    Computed("zone", "Zone that passes", logic(f'IF({CHOSEN}.zone}}="any","",{CHOSEN}.zone}}&"")', copes=True), kind=text(), look=WHO),
    *limit("length", "longest", "Length", "cm"), *limit("temper", "temper_most", "Temper", "1"),
    Computed("easy", "Only easy ones", logic(f'IF({CHOSEN}.easy}}="yes",1,0)', "1", copes=True), look=COUNT),
    of_tank("tank"), of_tank("net_volume"), of_tank("plan_area"), of_tank("swim_length"), of_tank("change_share"), of_tank("change_interval"), of_tank("fasting_days"), of_tank("cycled"),
    *(of_tank(key_, f"stocking.{key_}") for key_ in ("animals", "ammonia", "uptake", "yield_used", "water_nitrate", "saturation", "draw", "bottom_wanted", "binding", "binding_share")),
    *(of_tank(f"{key_}_share", f"stocking.{key_}_share") for key_, _ in MEASURES),
    of_tank("protein", "feeding_tanks.protein"),
    *(of_tank(key_, f"company.{key_}") for key_ in (
        "residents", "run_end", "in_quarantine", "mouthful_max", "mouthful_who", "victim_min", "victim_who", "temper_max", "temper_who", "biters", "first_biter",
        "shrimp_hunters", "shrimp_hunter", "young_eaters", "young_eater", "snail_eaters", "snail_eater")),
    *(column for p in PARAMETERS for column in shared(p)),
    *(Pulled(f"like_{key_}", via="wanted", of=key_) for key_ in LIKE),
    *(Pulled(f"like_{p.key}_{end}", via="wanted", of=f"used_{p.key}_{end}") for p in PARAMETERS for end in ("low", "high")),
    *(Computed(f"like_{p.key}_width", f"Width of {p.word} wanted", logic(f"MAX(0,{{like_{p.key}_high}}-{{like_{p.key}_low}})+1/10^2", "K" if p.unit == "degC" else p.unit), look=HIDDEN,
      help="A hundredth more, so that a range may be a single point.") for p in PARAMETERS),
    *(Computed(f"weight_{part}", f"Weight of {part}", logic(f"{{const.like_{part}}}/(" + "+".join(f"{{const.like_{other}}}" for other in PARTS) + ")", "1", needs=(
        "wanted", *(f"const.like_{other}" for other in PARTS))), look=HIDDEN) for part in PARTS),
    Computed("like_ready", "The species wanted is known", logic("1", "1", needs=(
        "const.temper_clash", *(f"like_{key}" for key in LIKE), *(f"like_{p.key}_width" for p in PARAMETERS), *(f"weight_{part}" for part in PARTS))), look=COUNT),
    Computed("rise", "Nitrate rise between changes, before plants", nitrogen.nitrate_rise(
        ammonia="{ammonia}", days="{change_interval}", volume="{net_volume}", yield_="{yield_used}"), look=HIDDEN),
    Computed("taken", "Nitrate that plants take between changes", logic("{uptake}*{change_interval}/7", "mg/L"), look=HIDDEN),
    Computed("rise_by_breath", "Nitrate rise for each mg of oxygen an hour", nitrogen.nitrate_rise(
        ammonia=AMMONIA, days="{change_interval}", volume="{net_volume}", yield_="{yield_used}"), look=HIDDEN),
    Computed("draw_by_breath", "Draw with bacteria for each mg of oxygen an hour", replace(BACTERIA, text=f"1+{BACTERIA.text}"), look=HIDDEN),
    Computed("carried_nitrate", "Nitrate rise that the changes carry", headroom.nitrate_carried(
        target="{settings.nitrate_target}", source="{water_nitrate}", share="{change_share}"), look=HIDDEN),
    Computed("carried_draw", "Oxygen draw that the water carries", headroom.draw_carried(saturation="{saturation}", volume="{net_volume}"), look=HIDDEN),
    Computed("shrimp_eater", "Eats shrimp or their young", logic("IF({shrimp_hunters}>0,{shrimp_hunter},{young_eater})", needs=("shrimp_hunters",)), kind=text(), look=WHO),
    Computed("nitrate_full", "Water change taken", logic("IF({carried_nitrate}>0,({rise}-{taken})/{carried_nitrate},10^2)", "1"), look=HIDDEN, help="Share of the limit; below zero plants take more than there is."),
    Computed("nitrate_by_breath", "Share for each mg of oxygen an hour", logic("IF({carried_nitrate}>0,{rise_by_breath}/{carried_nitrate},1)", "1"), look=HIDDEN),
    Computed("oxygen_full", "Oxygen taken", logic("IF({carried_draw}>0,{draw}/{carried_draw},10^2)", "1"), look=HIDDEN),
    Computed("oxygen_by_breath", "Share for each mg of oxygen an hour", logic("IF({carried_draw}>0,{draw_by_breath}/{carried_draw},1)", "1"), look=HIDDEN),
    Computed("bottom_full", "Bottom taken", logic("{bottom_wanted}/{plan_area}", "1"), look=HIDDEN),
    *(Computed(f"thin_{p.key}", f"Narrow {p.word}", logic(f"{p.narrow}-1/10^6", "K" if p.unit == "degC" else p.unit, needs=("row", p.narrow.strip("{}"))), look=HIDDEN) for p in PARAMETERS),
    Computed("ready", "Constants are there", logic("1", "1", needs=("row", "const.temper_clash", "const.temper_watch", *(f"thin_{p.key}" for p in PARAMETERS))), look=COUNT),
    Computed("temper_min", "Gentlest temper", logic('IF(COUNT({residents.temper[]})=0,"",MIN({residents.temper[]}))', "1", needs=("row",)), look=COUNT),
    Computed("gentle_who", "Gentlest: who", logic("INDEX({residents.species[]},MATCH({temper_min},{residents.temper[]},0))"), kind=text(), look=WHO),
    Computed("first_finned", "First with long fins", logic(first("{residents.finned_line[]}"), needs=("row",)), kind=text(), look=WHO),
    Computed("second_finned", "First of another kind", logic(first("{residents.other_finned_line[]}"), needs=("row",)), kind=text(), look=WHO),
    Computed("second_biter", "Second kind that bites fins", logic(first("{residents.other_biter_line[]}"), needs=("row",)), kind=text(), look=WHO),
    Computed("shrimp_who", "First shrimp", logic(some("{residents.shrimp[]}"), needs=("row",)), kind=text(), look=WHO),
    Computed("snail_who", "First snail", logic(some("{residents.snail[]}"), needs=("row",)), kind=text(), look=WHO),
    Computed("half_known", "Groups not fully known", logic("SUM({residents.half_known[]})", "1", needs=("row",)), look=COUNT),
    Computed("lacking", "Unknown of the tank", in_rows_with("row", joined(
        *((f'{{{key}}}=""', f'"{label}"') for key, label in NEEDED), ('{settings.nitrate_target}=""', '"the nitrate target (Start)"'),
        ('{settings.altitude}=""', '"the altitude (Start)"'), between=", ")), kind=text(), look=TEXT),
    Computed("over", "Over a limit already", in_rows_with("row", OVER), kind=text(), look=TEXT),
    Computed("at_odds", "Residents share none", in_rows_with("row", joined(*((f"N({{{p.key}_width}})<0", f'"{p.word}"') for p in PARAMETERS), between=", ")), kind=text(), look=TEXT),
    Computed("care", "Care for every candidate", in_rows_with("row", joined(
        ('{cycled}="no"', '"it is not cycled: add animals only once ammonia and nitrite stay at zero"'), ('{cycled}=""', '"nothing says whether it is cycled: test ammonia and nitrite first"'),
        ("N({in_quarantine})>0", '"a group in it is in quarantine: wait until that ends"'),
        ("N({half_known})>0", '"not all is known of "&{half_known}&" of its groups, so what they want or do may be missed: complete them on Species and Livestock"'),
        ("N({residents})>ROWS({residents.line[]})", '"only its first "&ROWS({residents.line[]})&" groups are looked at one by one"'))), kind=text(), look=TEXT),
    Computed("mind", "What to mind first", in_rows_with("row", joined(
        ('{lacking}<>""', '"unknown: "&{lacking}&" (type it on Tanks, Waters or Livestock)"'), ('{over}<>""', '"already over its limit: "&{over}'),
        ('{at_odds}<>""', '"its residents share no "&{at_odds}&": part them first (Overlap)"'), ('{care}<>""', "{care}"))), kind=text(), look=TEXT),
    Computed("about", "What it is", logic(
        '{tank}&": "&IF({net_volume}="","volume unknown",{@words.net_volume}&" net")&", "&IF({temperature}="","temperature unknown",{@words.temperature})&", "'
        '&IF(N({residents})=0,"empty",{residents}&" groups with "&{animals}&" animals")&IF({binding_share}="",", load unknown",IF(N({residents})=0,"",", "&{@words.binding_share}&" full by "&{binding}))', needs=("row", "tank")),
        kind=text(), look=TEXT),
))

RESIDENTS = Table("residents", title="Who lives in it", purpose="", lines=40, row_name=("species",), columns=(
    Computed("group", "Row of the group", logic(
        'IF({line}>N({sought.residents}),"",INDEX({roll.group[]},{sought.run_end}-{sought.residents}+{line}))', "1", copes=True), kind=row("livestock"), look=COUNT),
    Pulled("species", via="group", look=WHO),
    Pulled("animals", via="group"),
    Computed("species_row", "Row of the species", cell_of("{livestock.species_row[]}", "{group}", "1"), kind=row("species"), look=COUNT),
    Pulled("kind", via="species_row"),
    Pulled("long_fins", via="species_row"),
    Pulled("bites_fins", via="species_row"),
    Pulled("lacking", via="species_row"),
    Pulled("temper", via="group", of="temper_counted"),
    Computed("living", "Lives", logic("IF(N({animals})>0,1,0)", "1", needs=("group",)), look=COUNT),
    Computed("finned_line", "Line, if its fins are long", logic('IF(AND({long_fins}="yes",{living}=1),{line},"")', "1", needs=("group",)), look=COUNT),
    Computed("other_finned_line", "Line, if another kind with long fins", logic('IF(AND({long_fins}="yes",{living}=1,{species}<>{sought.first_finned}),{line},"")', "1", needs=("group",)), look=COUNT),
    Computed("other_biter_line", "Line, if another kind that bites", logic('IF(AND({bites_fins}="yes",{living}=1,{species}<>{sought.first_biter}),{line},"")', "1", needs=("group",)), look=COUNT),
    Computed("shrimp", "Shrimp", logic('IF(AND({kind}="shrimp",{living}=1),1,0)', "1", needs=("group",)), look=COUNT),
    Computed("snail", "Snails", logic('IF(AND({kind}="snail",{living}=1),1,0)', "1", needs=("group",)), look=COUNT),
    Computed("half_known", "Not fully known", logic('IF(OR({species_row}="",{lacking}<>"",{animals}="",{kind}=""),1,0)', "1", needs=("group",)), look=COUNT),
))
