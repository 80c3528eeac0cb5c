"""Overlap: the water that all residents of a tank share, who sets its ends, and where the tank lies in it."""

from workbook.sheets.in_view import as_on_its_page
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
    logic,
    text,
)
from workbook.tables.columns import Column
from workbook.tables.formula import Formula
from workbook.tables.idioms import cell_of, nth_row, of_run, reckoned_in, row_of
from workbook.tables.template import column, here, quoted


def lies(value: str, p: Parameter, outside: str = "◆ outside") -> Formula:
    """In words, where a value lies in the shared range; the count of ends it has passed picks the word."""
    return p.logic(
        'IF(COUNT({value})*COUNT({*_low},{*_high})<2,"unknown",CHOOSE({passed},"inside","near the edge",{outside}))',
        needs=("tank", "const.edge_share"),
        value=value,
        passed=p.filled(
            "1+({value}<{*_low}+{edge})+({value}>{*_high}-{edge})+({value}<{*_low})+({value}>{*_high})",
            value=value,
            edge="{const.edge_share}*({*_high}-{*_low})",
        ),
        outside=[quoted(outside)] * 3,
    )


def detail(p: Parameter) -> tuple[Column, ...]:
    """Everything about one parameter of each tank."""
    look, name = Look(p.label, 8, p.show), Look(p.label, 22)
    low, high, known = (column("roll", f"{p.key}_{end}") for end in ("low", "high", "known"))
    return (
        Computed(f"{p.key}_low", "Shared from", of_run(low, p.unit), look=look),
        Computed(f"{p.key}_high", "Shared to", of_run(high, p.unit), look=look),
        Computed(
            f"{p.key}_width",
            "Width",
            p.logic("{*_high}-{*_low}", p.step),
            look=look,
            help="Below zero: no shared range.",
        ),
        Computed(
            f"{p.key}_low_by", "Low end set by", of_run(column("roll", f"{p.key}_low_by")), kind=text(), look=name
        ),
        Computed(
            f"{p.key}_high_by", "High end set by", of_run(column("roll", f"{p.key}_high_by")), kind=text(), look=name
        ),
        Computed(
            f"{p.key}_no_data", "Groups without data", p.logic("{residents}-{*_known}", "1"), look=Look(p.label, 9, "0")
        ),
        Pulled(p.kept, via="tanks", label="Kept at", look=look),
        Computed(f"{p.key}_lies", "It lies", lies(here(p.kept), p), kind=text(), look=Look(p.label, 14, status=True)),
        Pulled(f"read_{p.key}", via="tanks", of=f"readings.{p.key}", label="Newest reading", look=look),
        Computed(
            f"{p.key}_read_lies",
            "It lies",
            lies(here(f"read_{p.key}"), p),
            kind=text(),
            look=Look(p.label, 14, status=True),
        ),
        Pulled(f"water_{p.key}", via="tanks", label="Source water", look=look),
        Computed(
            f"{p.key}_source_lies",
            "It lies",
            lies(here(f"water_{p.key}"), p, "outside"),
            kind=text(),
            look=Look(p.label, 14, status=True),
        ),
        Computed(f"{p.key}_known", "Both ends known", of_run(known, "1", "0"), look=Look(working=True, show="0")),
    )


DETAIL = Table(
    "overlap_detail",
    title="Shared ranges in detail",
    rows_of="tanks",
    row_name=("tank",),
    purpose="",
    columns=(
        Pulled("tank", via="tanks", look=Look(working=True, width=16)),
        Pulled("residents", via="tanks", of="company.residents", look=Look(working=True)),
        Pulled("run_end", via="tanks", of="company.run_end", look=Look(working=True)),
        *(column for p in PARAMETERS for column in detail(p)),
    ),
)


def source_outside(p: Parameter) -> Flag:
    """The water that a tank is filled with lies outside what its residents share."""
    return Flag(
        f"{p.key}_source",
        f"Source water outside in {p.word}",
        gathered=True,
        seriousness="watch",
        when=p.filled("AND({*_width}>=0,OR({water_*}<{*_low},{water_*}>{*_high}))"),
        why=p.told("the water it is filled with has {water_*}, while all residents share {*_low} to {*_high}"),
        do=(
            "Each water change pulls the tank towards it: "
            "blend or prepare the new water first, or change smaller shares more often."
        ),
    )


def flags(p: Parameter) -> tuple[Flag, ...]:
    """What can be wrong with one parameter."""
    k = p.key
    grave = "act" if k in {"temperature", "ph"} else "watch"
    kept = here("temperature" if k == "temperature" else f"kept_{k}")
    return (
        Flag(
            f"{k}_clash",
            f"No shared {p.word} range",
            gathered=True,
            seriousness=grave,
            when=p.filled("AND({*_width}<0,{*_low_by}<>{*_high_by})"),
            why=p.told("{*_low_by} wants at least {*_low}, {*_high_by} at most {*_high}"),
            do=(
                "House one of the two elsewhere; if you have kept both well in one water, "
                "type your own ranges on Species."
            ),
        ),
        Flag(
            f"{k}_outside",
            f"{p.label} outside the shared range",
            gathered=True,
            seriousness=grave,
            when=p.filled("AND({*_width}>=0,OR({kept}<{*_low},{kept}>{*_high}))", kept=kept),
            why=f"kept at {kept}, " + p.told("while all residents share {*_low} to {*_high}"),
            do=p.told("Bring it slowly into the range: {*_low_by} sets the low end, {*_high_by} the high end."),
        ),
        Flag(
            f"{k}_narrow",
            f"Narrow shared {p.word} range",
            gathered=True,
            seriousness="watch",
            when=p.filled("AND({*_width}>=0,ROUND({*_width},6)<{narrow})"),
            why=p.told("only {*_low} to {*_high} suits all, set by {*_low_by} and {*_high_by}"),
            do="Keep it steady and test often, or part the two.",
        ),
        Flag(
            f"{k}_no_data_flag",
            f"{p.label} range not known for all",
            gathered=True,
            seriousness="note",
            when=p.filled("AND({residents}>0,{*_no_data}>0)"),
            why=p.told("{*_no_data} of {residents} groups have no {word} range, so the shared one may be too wide"),
            do="Complete those species; until then trust the shared range less.",
        ),
        Flag(
            f"{k}_read",
            f"Newest {p.word} reading outside the shared range",
            gathered=True,
            seriousness="watch",
            when=p.filled("AND({*_width}>=0,OR({read_*}<{*_low},{read_*}>{*_high}))"),
            why=p.told("read {read_*}, while all residents share {*_low} to {*_high}"),
            do="Read it again; if it holds, find out what moved it and bring it back slowly.",
        ),
        *([] if k == "temperature" else [source_outside(p)]),
    )


OVERLAP = Table(
    "overlap",
    title="Shared water",
    rows_of="tanks",
    row_name=("tank",),
    purpose="The water that suits every resident of a tank.",
    columns=(
        Pulled("tank", via="tanks", look=Look("Tank", 20)),
        Pulled("residents", via="tanks", of="company.residents", label="Groups in it", look=Look("Tank", 16)),
        Said(look=Look("Tank", 60)),
        *(
            column
            for p in PARAMETERS
            for column in (
                Pulled(
                    f"{p.key}_low",
                    via="tanks",
                    of=f"overlap_detail.{p.key}_low",
                    label=f"{p.label} from",
                    look=Look("All residents share", 12 if p.key == "temperature" else 9),
                ),
                Pulled(
                    f"{p.key}_high",
                    via="tanks",
                    of=f"overlap_detail.{p.key}_high",
                    label="to",
                    look=Look("All residents share", 7),
                ),
                Pulled(p.kept, via="tanks", label="kept at", look=Look("All residents share", 7)),
            )
        ),
        *(
            Pulled(f"{p.key}_{end}", via="tanks", of=f"overlap_detail.{p.key}_{end}")
            for p in PARAMETERS
            for end in ("width", "low_by", "high_by", "no_data")
        ),
        *(Pulled(f"water_{p.key}", via="tanks") for p in PARAMETERS[1:]),
        *(Pulled(f"kept_{p.key}", via="tanks", of=p.key) for p in PARAMETERS[1:]),
        *(Pulled(f"read_{p.key}", via="tanks", of=f"readings.{p.key}") for p in PARAMETERS),
        *(flag for p in PARAMETERS for flag in flags(p)),
    ),
)

CHOICE = Table(
    "overlap_choice",
    title="Tank for the charts",
    purpose="",
    row_name=("in_view",),
    form=True,
    chosen=True,
    columns=(
        *as_on_its_page("The charts show it."),
        Computed(
            "title",
            "Charts",
            logic('"Ranges of the residents of "&{in_view}'),
            kind=text(),
            look=Look(width=22, runs_on=True),
        ),
        Computed(
            "drawn",
            "Groups drawn",
            logic(
                'IF({groups}>{lines}-2,"◆ only the first "&({lines}-2),"all "&{groups})',
                copes=True,
                groups="MAX({livestock.in_overlap[]})",
                lines="ROWS({overlap_bars.line[]})",
            ),
            kind=text(),
            look=Look(width=22, status=True),
        ),
    ),
)


def end_of_bar(p: Parameter, end: str) -> Formula:
    """One end of a bar: on the first line of what all share, then of each resident."""
    return logic(
        "IF({line}=1,{all_share},{of_resident})",
        p.unit,
        copes=True,
        all_share=reckoned_in(column("overlap_detail", f"{p.key}_{end}"), "{chosen_row}", p.unit),
        of_resident=reckoned_in(column("livestock", f"{p.key}_{end}"), "{resident}", p.unit),
    )


def bar(p: Parameter) -> tuple[Column, ...]:
    """The bars of one parameter: an undrawn part up to the low end, then the range."""
    look, drawn = Look(working=True, show=p.show), Look(working=True, show=p.show, drawn=True)
    # Two hundredths of all that is drawn: just thick enough to be seen.
    thin = p.filled(
        "IF(COUNT({to})*COUNT({from_})=0,0,(MAX({to})-MIN({from_}))/10^2*2)",
        to=column("overlap_bars", f"{p.key}_to"),
        from_=column("overlap_bars", f"{p.key}_from"),
    )
    return (
        Computed(
            f"chosen_{p.key}",
            f"{p.label} of the tank",
            cell_of(column("tanks", p.kept), "{chosen_row}", p.unit),
            look=look,
        ),
        Computed(f"{p.key}_from", f"{p.label} from", end_of_bar(p, "low"), look=look),
        Computed(f"{p.key}_to", f"{p.label} to", end_of_bar(p, "high"), look=look),
        Computed(
            f"{p.key}_start",
            f"{p.label} bar starts",
            p.logic("IF({line}=2,{chosen_*},{*_from})", p.unit, copes=True),
            look=drawn,
        ),
        Computed(
            f"{p.key}_shared",
            f"{p.label} shared",
            p.logic('IF({line}=1,MAX(0,{*_to}-{*_from}),"")', p.step),
            look=drawn,
        ),
        Computed(
            f"{p.key}_tank",
            f"{p.label} tank",
            p.logic('IF(AND({line}=2,ISNUMBER({chosen_*})),{thin},"")', p.step, copes=True, thin=thin),
            look=drawn,
        ),
        Computed(f"{p.key}_range", f"{p.label} range", p.logic('IF({line}>2,{*_to}-{*_from},"")', p.step), look=drawn),
    )


BARS = Table(
    "overlap_bars",
    title="What the charts draw",
    lines=18,
    row_name=("bar",),
    purpose="",
    columns=(
        Computed(
            "chosen_row",
            "Row of the chosen tank",
            row_of("{overlap_choice.in_view}", "{tanks.tank[]}"),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "resident",
            "Row of the resident",
            logic(
                'IF({line}>2,{nth_resident},"")',
                "1",
                copes=True,
                nth_resident=nth_row("({line}-2)", "{livestock.in_overlap[]}"),
            ),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "bar",
            "Bar",
            logic(
                'IF({line}>2,{resident_there},IF({line}=1,"All share",'
                'IF({overlap_choice.in_view}="","",{overlap_choice.in_view}&" is kept at")))',
                copes=True,
                resident_there=cell_of("{livestock.species[]}", "{resident}"),
            ),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        *(column for p in PARAMETERS for column in bar(p)),
    ),
)


# Axes begin and end where no range that may be typed is cut off.
LOWEST = {"temperature": 0, "ph": 3, "gh": 0, "kh": 0}
HIGHEST = {"ph": 11}


def chart(p: Parameter) -> Chart:
    """Ranges of the residents of the chosen tank, the band they share, and where the tank lies."""
    label = "overlap_bars.bar"
    return Chart(
        p.label,
        axis=p.label + ", {unit}" if p.label != "pH" else "pH",
        stacked=True,
        width=540,
        height=380,
        low=LOWEST[p.key],
        high=HIGHEST.get(p.key),
        describes=(
            f"Range bars: {p.label} range of each resident of the chosen tank, the band that all share, "
            "and the value the tank is kept at."
        ),
        series=(
            Series(" ", label, f"overlap_bars.{p.key}_start"),
            Series("All share", label, f"overlap_bars.{p.key}_shared", "shared"),
            Series("Tank is kept at", label, f"overlap_bars.{p.key}_tank", "value"),
            Series("Range of a resident", label, f"overlap_bars.{p.key}_range", "range"),
        ),
    )


SHEET = Sheet(
    "Overlap",
    role="detail",
    blocks=(OVERLAP, Charts("overlap_charts", tuple(chart(p) for p in PARAMETERS)), DETAIL, BARS),
    forms=(CHOICE,),
    frozen_columns=1,
    purpose=(
        "Shared range = highest of the low ends to lowest of the high ends of all residents. "
        "Ranges are the ones in use on Species; they are never averaged."
    ),
)
