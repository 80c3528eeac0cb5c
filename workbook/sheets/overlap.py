"""Overlap: the water that all residents of a tank share, who sets its ends, and where the tank lies in it."""

from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.tables import (
    Chart,
    Charts,
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Series,
    Sheet,
    Table,
    Typed,
    link,
    logic,
    text,
)
from workbook.tables.columns import Column
from workbook.tables.formula import Formula
from workbook.tables.idioms import cell_of, nth_row, of_run, reckoned_in


def lies(value: str, p: Parameter, outside: str = "◆ outside") -> Formula:
    """In words, where a value lies in the shared range; the count of ends it has passed picks the word."""
    low, high = f"{{{p.key}_low}}", f"{{{p.key}_high}}"
    edge = f"{{const.edge_share}}*({high}-{low})"
    passed = f"1+({value}<{low}+{edge})+({value}>{high}-{edge})+({value}<{low})+({value}>{high})"
    words = f'"inside","near the edge","{outside}","{outside}","{outside}"'
    return logic(f'IF(COUNT({value})*COUNT({low},{high})<2,"unknown",CHOOSE({passed},{words}))', needs=("tank", "const.edge_share"))


def detail(p: Parameter) -> tuple[Column, ...]:
    """Everything about one parameter of each tank."""
    look, name = Look(p.label, 8, p.show), Look(p.label, 22)
    value = "{temperature}" if p.key == "temperature" else f"{{{p.key}_used}}"
    low, high, known = (f"{{roll.{p.key}_{end}[]}}" for end in ("low", "high", "known"))
    return (
        Computed(f"{p.key}_low", "Shared from", of_run(low, p.unit), look=look),
        Computed(f"{p.key}_high", "Shared to", of_run(high, p.unit), look=look),
        Computed(f"{p.key}_width", "Width", logic(f"{{{p.key}_high}}-{{{p.key}_low}}", "K" if p.unit == "degC" else p.unit), look=look,
                 help="Below zero: no shared range."),
        Computed(f"{p.key}_low_by", "Low end set by", of_run(f"{{roll.{p.key}_low_by[]}}"), kind=text(), look=name),
        Computed(f"{p.key}_high_by", "High end set by", of_run(f"{{roll.{p.key}_high_by[]}}"), kind=text(), look=name),
        Computed(f"{p.key}_no_data", "Groups without data", logic(f"{{residents}}-{{{p.key}_known}}", "1"), look=Look(p.label, 9, "0")),
        Pulled(value.strip("{}"), via="tanks", label="Kept at", look=look),
        Computed(f"{p.key}_lies", "It lies", lies(value, p), kind=text(), look=Look(p.label, 14, status=True)),
        Pulled(f"read_{p.key}", via="tanks", of=f"readings.{p.key}", label="Newest reading", look=look),
        Computed(f"{p.key}_read_lies", "It lies", lies(f"{{read_{p.key}}}", p), kind=text(), look=Look(p.label, 14, status=True)),
        Pulled(f"water_{p.key}", via="tanks", label="Source water", look=look),
        Computed(f"{p.key}_source_lies", "It lies", lies(f"{{water_{p.key}}}", p, "outside"), kind=text(), look=Look(p.label, 14, status=True)),
        Computed(f"{p.key}_known", "Both ends known", of_run(known, "1", "0"), look=Look(working=True, show="0")),
    )


DETAIL = Table("overlap_detail", title="Shared ranges in detail", rows_of="tanks", row_name=("tank",), purpose="", columns=(
    Pulled("tank", via="tanks", look=Look(working=True, width=16)),
    Pulled("residents", via="tanks", of="company.residents", look=Look(working=True)),
    Pulled("run_end", via="tanks", of="company.run_end", look=Look(working=True)),
    *(column for p in PARAMETERS for column in detail(p)),
))


def flags(p: Parameter) -> tuple[Flag, ...]:
    """What can be wrong with one parameter."""
    k, name = p.key, p.word
    kept = "temperature" if k == "temperature" else f"kept_{k}"
    grave = "act" if k in {"temperature", "ph"} else "watch"
    found = [
        Flag(f"{k}_clash", f"No shared {name} range", seriousness=grave, when=f"AND({{{k}_width}}<0,{{{k}_low_by}}<>{{{k}_high_by}})",
             why=f"{{{k}_low_by}} wants at least {{{k}_low}}, {{{k}_high_by}} at most {{{k}_high}}",
             do="House one of the two elsewhere; if you have kept both well in one water, type your own ranges on Species."),
        Flag(f"{k}_outside", f"{p.label} outside the shared range", seriousness=grave,
             when=f"AND({{{k}_width}}>=0,OR({{{kept}}}<{{{k}_low}},{{{kept}}}>{{{k}_high}}))",
             why=f"kept at {{{kept}}}, while all residents share {{{k}_low}} to {{{k}_high}}",
             do=f"Bring it slowly into the range: {{{k}_low_by}} sets the low end, {{{k}_high_by}} the high end."),
        Flag(f"{k}_narrow", f"Narrow shared {name} range", seriousness="watch",
             when=f"AND({{{k}_width}}>=0,ROUND({{{k}_width}},6)<{p.narrow})",
             why=f"only {{{k}_low}} to {{{k}_high}} suits all, set by {{{k}_low_by}} and {{{k}_high_by}}",
             do="Keep it steady and test often, or part the two."),
        Flag(f"{k}_no_data_flag", f"{p.label} range not known for all", seriousness="note",
             when=f"AND({{residents}}>0,{{{k}_no_data}}>0)", why=f"{{{k}_no_data}} of {{residents}} groups have no {name} range, so the shared one may be too wide",
             do="Complete those species; until then trust the shared range less."),
    ]
    found.append(Flag(f"{k}_read", f"Newest {name} reading outside the shared range", seriousness="watch",
        when=f"AND({{{k}_width}}>=0,OR({{read_{k}}}<{{{k}_low}},{{read_{k}}}>{{{k}_high}}))",
        why=f"read {{read_{k}}}, while all residents share {{{k}_low}} to {{{k}_high}}",
        do="Read it again; if it holds, find out what moved it and bring it back slowly."))
    if k != "temperature":
        found.append(Flag(f"{k}_source", f"Source water outside in {name}", seriousness="watch",
            when=f"AND({{{k}_width}}>=0,OR({{water_{k}}}<{{{k}_low}},{{water_{k}}}>{{{k}_high}}))",
            why=f"the water it is filled with has {{water_{k}}}, while all residents share {{{k}_low}} to {{{k}_high}}",
            do="Each water change pulls the tank towards it: blend or prepare the new water first, or change smaller shares more often."))
    return tuple(found)


OVERLAP = Table("overlap", title="Shared water", rows_of="tanks", row_name=("tank",),
    purpose="The water that suits every resident of a tank.", columns=(
    Pulled("tank", via="tanks", look=Look("Tank", 20)),
    Pulled("residents", via="tanks", of="company.residents", label="Groups in it", look=Look("Tank", 16)),
    Said(look=Look("Tank", 60)),
    *(column for p in PARAMETERS for column in (
        Pulled(f"{p.key}_low", via="tanks", of=f"overlap_detail.{p.key}_low", label=f"{p.label} from", look=Look("All residents share", 12 if p.key == "temperature" else 9)),
        Pulled(f"{p.key}_high", via="tanks", of=f"overlap_detail.{p.key}_high", label="to", look=Look("All residents share", 7)),
        Pulled("temperature" if p.key == "temperature" else f"{p.key}_used", via="tanks", label="kept at", look=Look("All residents share", 7)))),
    *(Pulled(f"{p.key}_{end}", via="tanks", of=f"overlap_detail.{p.key}_{end}") for p in PARAMETERS for end in ("width", "low_by", "high_by", "no_data")),
    *(Pulled(f"water_{p.key}", via="tanks") for p in PARAMETERS[1:]),
    *(Pulled(f"kept_{p.key}", via="tanks", of=p.key) for p in PARAMETERS[1:]),
    *(Pulled(f"read_{p.key}", via="tanks", of=f"readings.{p.key}") for p in PARAMETERS),
    *(flag for p in PARAMETERS for flag in flags(p)),
))

CHOICE = Table("overlap_choice", title="Tank for the charts", purpose="", row_name=("tank",), form=True, columns=(
    Typed("tank", "Tank to draw", link("tanks"), look=Look(width=22), help="Pick one; the charts follow."),
    Computed("drawn", "Groups drawn", logic('IF(MAX({livestock.in_overlap[]})>ROWS({overlap_bars.line[]})-2,"◆ only the first "&(ROWS({overlap_bars.line[]})-2),"all "&MAX({livestock.in_overlap[]}))', copes=True),
             kind=text(), look=Look(width=22, status=True)),
))


def bar(p: Parameter) -> tuple[Column, ...]:
    """The bars of one parameter: an undrawn part up to the low end, then the range."""
    value = f"{{chosen_{p.key}}}"
    ends = [f"{{overlap_bars.{p.key}_{end}[]}}" for end in ("to", "from")]
    thin = f"IF(COUNT({ends[0]})*COUNT({ends[1]})=0,0,(MAX({ends[0]})-MIN({ends[1]}))/10^2*2)"
    look, drawn = Look(working=True, show=p.show), Look(working=True, show=p.show, drawn=True)
    wide = "K" if p.unit == "degC" else p.unit  # a width is a difference
    name = "temperature" if p.key == "temperature" else f"{p.key}_used"
    return (
        Computed(f"{p.key}_title", f"Title of the {p.word} chart", logic(f'"{p.label}: "&{{overlap_choice.tank}}'), kind=text(), look=Look(working=True, width=16)),
        Computed(f"chosen_{p.key}", f"{p.label} of the tank", cell_of(f"{{tanks.{name}[]}}", "{chosen_row}", p.unit), look=look),
        Computed(f"{p.key}_from", f"{p.label} from", logic(
            f'IF({{line}}=1,{reckoned_in(f"{{overlap_detail.{p.key}_low[]}}", "{chosen_row}").text},{reckoned_in(f"{{livestock.{p.key}_low[]}}", "{resident}").text})', p.unit, copes=True), look=look),
        Computed(f"{p.key}_to", f"{p.label} to", logic(
            f'IF({{line}}=1,{reckoned_in(f"{{overlap_detail.{p.key}_high[]}}", "{chosen_row}").text},{reckoned_in(f"{{livestock.{p.key}_high[]}}", "{resident}").text})', p.unit, copes=True), look=look),
        Computed(f"{p.key}_start", f"{p.label} bar starts", logic(f'IF({{line}}=2,{value},{{{p.key}_from}})', p.unit, copes=True), look=drawn),
        Computed(f"{p.key}_shared", f"{p.label} shared", logic(f'IF({{line}}=1,MAX(0,{{{p.key}_to}}-{{{p.key}_from}}),"")', wide), look=drawn),
        Computed(f"{p.key}_tank", f"{p.label} tank", logic(f'IF(AND({{line}}=2,ISNUMBER({value})),{thin},"")', wide, copes=True), look=drawn),
        Computed(f"{p.key}_range", f"{p.label} range", logic(f'IF({{line}}>2,{{{p.key}_to}}-{{{p.key}_from}},"")', wide), look=drawn),
    )


BARS = Table("overlap_bars", title="What the charts draw", lines=18, row_name=("bar",), purpose="", columns=(
    Computed("chosen_row", "Row of the chosen tank", logic('IF({overlap_choice.tank}="","",IFERROR(MATCH({overlap_choice.tank},{tanks.tank[]},0),""))', "1", copes=True), look=Look(working=True, show="0")),
    Computed("resident", "Row of the resident", logic(f'IF({{line}}>2,{nth_row("({line}-2)", "{livestock.in_overlap[]}").text},"")', "1", copes=True), look=Look(working=True, show="0")),
    Computed("bar", "Bar", logic("IF({line}>2," + cell_of("{livestock.species[]}", "{resident}").text + ',IF({line}=1,"All share",IF({overlap_choice.tank}="","",{overlap_choice.tank}&" is kept at")))', copes=True), kind=text(), look=Look(working=True, width=20)),
    *(column for p in PARAMETERS for column in bar(p)),
))


# Axes begin and end where no range that may be typed is cut off.
LOWEST = {"temperature": 0, "ph": 3, "gh": 0, "kh": 0}
HIGHEST = {"ph": 11}


def chart(p: Parameter) -> Chart:
    """Ranges of the residents of the chosen tank, the band they share, and where the tank lies."""
    label = "overlap_bars.bar"
    return Chart(f"overlap_bars.{p.key}_title", axis=f"{p.label}, {{unit}}" if p.label != "pH" else "pH", stacked=True, width=540, height=380, low=LOWEST[p.key], high=HIGHEST.get(p.key),
                 describes=f"Range bars: {p.label} range of each resident of the chosen tank, the band that all share, and the value the tank is kept at.",
                 series=(Series(" ", label, f"overlap_bars.{p.key}_start"), Series("All share", label, f"overlap_bars.{p.key}_shared", "shared"),
                         Series("Tank is kept at", label, f"overlap_bars.{p.key}_tank", "value"), Series("Range of a resident", label, f"overlap_bars.{p.key}_range", "range")))


SHEET = Sheet(
    "Overlap", blocks=(OVERLAP, Charts("overlap_charts", tuple(chart(p) for p in PARAMETERS)), DETAIL, BARS), forms=(CHOICE,), frozen_columns=1,
    new_page_before=("overlap_charts", *(f"overlap_detail.{p.key}_low" for p in PARAMETERS)),
    purpose="Shared range = highest of the low ends to lowest of the high ends of all residents. Ranges are the ones in use on Species; they are never averaged.",
)
