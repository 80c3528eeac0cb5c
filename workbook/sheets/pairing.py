"""Two by two: what speaks against each pair of a list of residents or species, and the reasons, most serious first."""

from dataclasses import dataclass, replace

from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.tables import Computed, Flag, Look, Pulled, Table, logic, row, text
from workbook.tables.columns import Column
from workbook.tables.completing import ARROW, SEPARATOR
from workbook.tables.formula import filled
from workbook.tables.idioms import after, before, between, in_rows_with, joined, piece, pieces
from workbook.tables.template import column, for_each, here, quoted, starred

COUNT, HIDDEN, WORDS = Look(working=True, show="0"), Look(working=True, show="0.00"), Look(working=True, width=18)
REASON = "Why, and what to do: most serious first"
BOTH = (("first", "second"), ("second", "first"))
RANGES = tuple(f"{p.key}_{end}" for p in PARAMETERS for end in ("low", "high"))
# What a pair looks at in each of its two; what is not known of it comes last.
TRAITS = (
    "name",
    "kind",
    "mouthful",
    "victim_length",
    "temper_counted",
    "bites_fins",
    "long_fins",
    "eats_shrimp",
    "eats_snails",
    "light",
    "light_no",
    "flow",
    "flow_no",
)


def how_many(listed: int) -> int:
    """Pairs of a list."""
    return listed * (listed - 1) // 2


ELSEWHERE = "House one of the two elsewhere; if you have kept both well in one water, type your own ranges on Species."


def of_two(template: str, one: str, other: str) -> str:
    """The template with {one_...} and {other_...} as the first and the second of the pair, or the other way round."""
    return template.replace("{one_", "{" + one + "_").replace("{other_", "{" + other + "_")


def water(p: Parameter) -> tuple[Flag, ...]:
    """One of the two wants more than the other bears."""
    return tuple(
        Flag(
            f"{p.key}_{one}_above",
            "water",
            seriousness="act" if p.key in {"temperature", "ph"} else "watch",
            when=of_two(p.filled("{one_*_low}>{other_*_high}"), one, other),
            why=of_two(
                p.told("{word}: {one_name} wants at least {one_*_low}, {other_name} at most {other_*_high}"), one, other
            ),
            do=ELSEWHERE,
        )
        for one, other in BOTH
    )


def harm(one: str, other: str) -> tuple[Flag, ...]:
    """What one of the two does to the other; the title is the word in the grid."""
    flags = (
        Flag(
            "{one}_swallows",
            "eaten",
            seriousness="act",
            when="{one_mouthful}>{other_victim_length}",
            why="{other_name} at {other_victim_length} fits the mouth of {one_name}, which can swallow {one_mouthful}",
            do="Part them, or raise the smaller ones before they meet.",
        ),
        Flag(
            "{one}_hunts_shrimp",
            "shrimp",
            seriousness="act",
            when='AND({other_kind}="shrimp",{one_eats_shrimp}="yes")',
            why="{one_name} hunts grown shrimp such as {other_name}",
            do="Give the shrimp a tank without hunters.",
        ),
        Flag(
            "{one}_bites",
            "fins",
            seriousness="act",
            when='AND({one_bites_fins}="yes",{other_long_fins}="yes")',
            why="{one_name} bites fins, {other_name} has long ones",
            do="Part them; a larger group of the biter helps, but does not cure it.",
        ),
        Flag(
            "{one}_eats_snails_too",
            "snails",
            seriousness="watch",
            when='AND({other_kind}="snail",{one_eats_snails}="yes")',
            why="{one_name} eats snails such as {other_name}",
            do="Give the snails another tank, or accept the loss.",
        ),
        Flag(
            "{one}_takes_young",
            "young",
            seriousness="note",
            when='AND({other_kind}="shrimp",{one_eats_shrimp}="young")',
            why="{one_name} takes the young of {other_name}",
            do="Give moss and leaf litter, or a shrimp tank if you want them to multiply.",
        ),
    )
    return tuple(
        replace(
            flag,
            key=flag.key.replace("{one}", one),
            when=of_two(flag.when, one, other),
            why=of_two(flag.why, one, other),
        )
        for flag in flags
    )


COMPANY = (
    *(flag for one, other in BOTH for flag in harm(one, other)),
    Flag(
        "clash_of_temper",
        "temper",
        seriousness="act",
        when="{temper_gap}>={const.temper_clash}",
        why=(
            "{first_name} has temper {first_temper_counted}, {second_name} {second_temper_counted}, "
            "on the scale of 1 gentle to 5 hostile"
        ),
        do="House the gentler kind elsewhere.",
    ),
    Flag(
        "gap_of_temper",
        "temper",
        seriousness="watch",
        when="AND({temper_gap}>={const.temper_watch},{temper_gap}<{const.temper_clash})",
        why="{first_name} has temper {first_temper_counted}, {second_name} {second_temper_counted}",
        do="Watch for chasing, torn fins and hiding; give broken lines of sight, or part them.",
    ),
    *(flag for p in PARAMETERS for flag in water(p)),
)
PLACE = (
    Flag(
        "flow_far_apart",
        "flow",
        seriousness="watch",
        when="{flow_gap}>2",
        why="{first_name} likes the flow {first_flow}, {second_name} {second_flow}",
        do="House one of the two elsewhere; no tank is a still pool and a rapid at once.",
    ),
    Flag(
        "flow_apart",
        "flow",
        seriousness="note",
        when="AND({flow_gap}>1,{flow_gap}<=2)",
        why="{first_name} likes the flow {first_flow}, {second_name} {second_flow}",
        do="Let the current run along one end, and leave the other end calm behind plants, wood or stones.",
    ),
    Flag(
        "light_apart",
        "light",
        seriousness="note",
        when="{light_gap}>1",
        why="{first_name} likes the light {first_light}, {second_name} {second_light}",
        do="Light one end and shade the other with floating plants, wood or tall plants.",
    ),
)


def not_known(where: str) -> Flag:
    """Something that matters to the pair is not typed. It stands first of its level: it may hide something worse."""
    return Flag(
        "not_known",
        "unknown",
        seriousness="note",
        when='{unknown}<>""',
        why="not known: {unknown}",
        do=f"Type it on {where}; until then the pair is judged by the rest.",
    )


def apart(key: str) -> str:
    """Formula text: how far apart the two are in something that is counted."""
    return starred("MAX({first_*},{second_*})-MIN({first_*},{second_*})", key)


def traits(which: str, of: tuple[str, ...]) -> tuple[Column, ...]:
    """The traits of one of the two."""
    return tuple(Pulled(f"{which}_{key}", via=f"{which}_place", of=key) for key in of)


@dataclass(frozen=True)
class Judged:
    """What pairs are judged by: the traits that the tests look at, and the tests.

    more: columns beside the traits. unknown: what else may not be known, in words. there: blank where no pair is.
    """

    traits: tuple[str, ...]
    tests: tuple[Flag, ...]
    more: tuple[Column, ...] = ()
    unknown: tuple[tuple[str, str], ...] = ()
    there: str = "second_no"


def whether_it_eats(prey: str, one: str, other: str) -> tuple[str, str]:
    """Test and words for a habit that is not known of one, while the other is what it would eat."""
    eats = f"{one}_eats_{'snails' if prey == 'snail' else prey}"
    return (
        filled('AND({kind}={prey},{eats}="")', kind=here(f"{other}_kind"), prey=quoted(prey), eats=here(eats)),
        filled(
            '"whether "&{name}&{eats_it}',
            name=here(f"{one}_name"),
            eats_it=quoted(" " + eats.partition("_")[2].replace("_", " ")),
        ),
    )


# Pairs stand by their second: it comes with each one before it, so those of a tank with n residents are the first
# n(n-1)/2 lines. Lines up to (b-1)(b-2)/2 belong to seconds before b, so line p of second b has
# (b-3/2)^2 = (b-1)(b-2)+1/4 < 2p <= b(b-1) < (b-1/2)^2: the square root of 2p, rounded, is b-1, and no half is met.
def pairs(key: str, title: str, who: str, listed: int, judged: Judged) -> Table:
    """Every pair of a list of which each line has a number `no` while something stands in it; a verdict for each."""
    there = judged.there
    return Table(
        key,
        title=title,
        lines=how_many(listed),
        row_name=("pair",),
        purpose="",
        listed=False,
        columns=(
            Computed(
                "second_place",
                "Place of the second",
                logic("ROUND(SQRT(2*{line}),0)+1", "1"),
                kind=row(who),
                look=COUNT,
            ),
            Computed(
                "first_place",
                "Place of the first",
                logic("{line}-({second_place}-1)*({second_place}-2)/2", "1"),
                kind=row(who),
                look=COUNT,
            ),
            Pulled("second_no", via="second_place", of="no"),
            *traits("first", judged.traits),
            *traits("second", judged.traits),
            *judged.more,
            Computed(
                "pair", "Pair", logic('{first_name}&" and "&{second_name}', needs=(there,)), kind=text(), look=WORDS
            ),
            Computed("temper_gap", "Temper apart", logic(apart("temper_counted"), "1"), look=COUNT),
            Computed("light_gap", "Light apart", logic(apart("light_no"), "1"), look=COUNT),
            Computed("flow_gap", "Flow apart", logic(apart("flow_no"), "1"), look=COUNT),
            Computed(
                "unknown",
                "Not known",
                in_rows_with(
                    there,
                    joined(
                        *(
                            (for_each([which], '{*_lacking}<>""'), for_each([which], '{*_name}&": "&{*_lacking}'))
                            for which in ("first", "second")
                        ),
                        *(whether_it_eats(prey, one, other) for one, other in BOTH for prey in ("shrimp", "snail")),
                        *judged.unknown,
                    ),
                ),
                kind=text(),
                look=WORDS,
            ),
            Computed(
                "verdict",
                "Verdict",
                logic('IF({said}="","fine",LEFT({said},SEARCH(":",{said})-1))', needs=(there,)),
                kind=text(),
                look=Look(working=True, width=10, status=True),
            ),
            *judged.tests,
        ),
    )


def of_pair(column_: str, place: str, other: str) -> str:
    """Formula text: what this column of the pairs says of these two places."""
    return filled(
        "INDEX({column},({larger}-1)*({larger}-2)/2+{smaller})",
        column=here(f"{column_}[]"),
        larger=f"MAX({place},{other})",
        smaller=f"MIN({place},{other})",
    )


def found(key: str, reasons_key: str) -> str:
    """Formula text: how many reasons there are of each seriousness."""
    return filled(
        '"▲ "&{act}&" to act on, ◆ "&({act_and_watch}-{act})&" to watch, '
        '○ "&({all_of_them}-{act_and_watch})&" to note"'
        '&IF({all_of_them}>{lines},"; only the first "&{lines}&" are listed","")',
        act=f"MAX({column(key, 'run_act')})",
        act_and_watch=f"MAX({column(key, 'run_watch')})",
        all_of_them=f"MAX({column(key, 'run_note')})",
        lines=f"ROWS({column(reasons_key, 'line')})",
    )


def paired(key: str, there: str = "second_no") -> str:
    """Formula text: how many pairs there are, and of them fine ones."""
    return filled(
        'IF({pairs}=0,"none",{pairs}&", of them fine: "&COUNTIF({verdicts},"fine"))',
        pairs=f"COUNT({column(key, there)})",
        verdicts=column(key, "verdict"),
    )


def reason_of_a_line(of: str) -> tuple[Column, ...]:
    """Which pair a line is about, and its sentence."""
    return (
        # Cells of running numbers below this line's number: they fill whole columns of less serious reasons after
        # more serious ones.
        Computed(
            "passed",
            "Cells before it",
            logic(
                'IF({line}>MAX({counts}),"",COUNTIF({all_counts},"<"&{line}))',
                "1",
                copes=True,
                counts=column(of, "run_note"),
                all_counts=column(of, "@run"),
            ),
            look=COUNT,
        ),
        Computed(
            "level_no",
            "Seriousness",
            logic("INT({passed}/ROWS({pairs}))+1", "1", pairs=column(of, "line")),
            look=COUNT,
        ),
        Computed(
            "pair",
            "Row of its pair",
            logic('IF({passed}="","",MOD({passed},ROWS({pairs}))+1)', "1", copes=True, pairs=column(of, "line")),
            kind=row(of),
            look=COUNT,
        ),
        Computed(
            "said",
            "Said there",
            logic("INDEX({all_said},{pair},{level_no})", all_said=column(of, "@said")),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "piece",
            "Which of them",
            logic(
                "{pieces}-(INDEX({all_counts},{pair},{level_no})-{line})",
                "1",
                pieces=pieces("{said}", SEPARATOR),
                all_counts=column(of, "@run"),
            ),
            look=COUNT,
        ),
        Computed("sentence", "Sentence", piece("{said}", "{piece}", SEPARATOR), kind=text(), look=WORDS),
    )


def reasons(key: str, of: str, lines: int, widths: tuple[int, ...] = (11, 34, 60, 56)) -> Table:
    """What speaks against the pairs of that table, one reason a line."""
    return Table(
        key,
        title="Reasons",
        lines=lines,
        row_name=("who",),
        purpose="",
        columns=(
            Computed(
                "verdict",
                "Verdict",
                before("{sentence}", ":", 0),
                kind=text(),
                look=Look(REASON, widths[0], status=True),
            ),
            Pulled("who", via="pair", of="pair", label="Who beside whom", look=Look(REASON, widths[1])),
            Computed("why", "Why", between("{sentence}", ": ", ARROW), kind=text(), look=Look(REASON, widths[2])),
            Computed("do", "What to do", after("{sentence}", ARROW), kind=text(), look=Look(REASON, widths[3])),
            *reason_of_a_line(of),
        ),
    )
