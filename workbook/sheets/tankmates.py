"""Tankmates: the residents of a chosen tank by each other, a verdict for each pair, and the reasons with what to do."""

from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.tables import Computed, Flag, Look, Pulled, Sheet, Table, Typed, link, logic, row, text
from workbook.tables.columns import Column
from workbook.tables.idioms import after, before, between, in_rows_with, joined, piece, pieces
from workbook.tables.schema import ARROW, SEPARATOR

RESIDENTS = 16
PAIRED = RESIDENTS * (RESIDENTS - 1) // 2
COUNT, HIDDEN, WORDS = Look(working=True, show="0"), Look(working=True, show="0.00"), Look(working=True, width=18)
WHO, GRID, REASON = Look("Who lives here", 22), Look("Verdict of each pair", 10, status=True), "Why, and what to do: most serious first"

CHOICE = Table("mates_choice", title="Tank to look at", purpose="", row_name=("tank",), form=True, columns=(
    Typed("tank", "Tank", link("tanks"), look=Look(width=22), help="Pick one; only this sheet follows."),
    # Each of these truths holds only where the one before it does, so that their number picks the words.
    Computed("shown", "Who is shown", logic(
        'CHOOSE(1+({tank}<>"")+(MAX({mates.chosen_row[]})>0)+(MAX({mates.residents[]})>0)+(MAX({mates.residents[]})>1)+(MAX({mates.residents[]})>ROWS({mates.line[]})),'
        '"pick a tank above","◆ no such tank stands on Tanks","no animals live in it","a single group: there is nobody beside it",'
        '"all "&MAX({mates.residents[]})&" groups",'
        '"◆ the first "&ROWS({mates.line[]})&" of "&MAX({mates.residents[]})&" groups; "&(MAX({mates.residents[]})-ROWS({mates.line[]}))&" are left out")', copes=True),
        kind=text(), look=Look(width=22, status=True)),
    Computed("paired", "Pairs", logic('IF(COUNT({pairs.second_no[]})=0,"none",COUNT({pairs.second_no[]})&", of them fine: "&COUNTIF({pairs.verdict[]},"fine"))', copes=True), kind=text(), look=Look(width=22)),
    Computed("found", "Reasons", logic(
        '"▲ "&MAX({pairs.run_act[]})&" to act on, ◆ "&(MAX({pairs.run_watch[]})-MAX({pairs.run_act[]}))&" to watch, ○ "&(MAX({pairs.run_note[]})-MAX({pairs.run_watch[]}))&" to note"&'
        'IF(MAX({pairs.run_note[]})>ROWS({reasons.line[]}),"; only the first "&ROWS({reasons.line[]})&" are listed","")', copes=True), kind=text(), look=Look(width=22),
        help="They stand beside the grid."),
))

# What a pair looks at in each of its two.
TRAITS = ("name", "kind", "mouthful", "victim_length", "temper_counted", "bites_fins", "long_fins", "eats_shrimp", "eats_snails", "light", "light_no", "flow", "flow_no",
          "bottom_wanted", *(f"{p.key}_{end}" for p in PARAMETERS for end in ("low", "high")), "lacking")


def cell(k: int) -> Computed:
    """The verdict of a resident beside the k-th; the header names that one."""
    larger, smaller = f"MAX({{line}},{k})", f"MIN({{line}},{k})"
    pair = f"INDEX({{pairs.verdict[]}},({larger}-1)*({larger}-2)/2+{smaller})"
    return Computed(f"with_{k}", str(k), logic(f'IF({k}>{{residents}},"",IF({{line}}={k},"itself",{pair}))', needs=("no",)), kind=text(), look=GRID,
                    seed=f'INDEX({{mates.name[]}},{k})&""')


MATES = Table("mates", title="Residents of the chosen tank", lines=RESIDENTS, row_name=("name",), purpose="", columns=(
    Computed("name", "Resident", logic('IF({group}="","",IF({species}="","(no species)",{species}))', copes=True), kind=text(), look=WHO),
    Computed("fine_with", "Among the others", logic(
        f'IF(COUNT({{mates.no[]}})=1,"alone in it","fine with "&COUNTIF({{with_1}}:{{with_{RESIDENTS}}},"fine")&" of "&(COUNT({{mates.no[]}})-1))', needs=("no",)), kind=text(), look=Look(WHO.group, 22)),
    Pulled("animals", via="group", look=Look(WHO.group, 6, "0")),
    Computed("no", "No", logic("{line}", "1", needs=("group",)), look=Look(WHO.group, 4, "0")),
    *(cell(k) for k in range(1, RESIDENTS + 1)),
    Computed("chosen_row", "Row of the chosen tank", logic('IF({mates_choice.tank}="","",IFERROR(MATCH({mates_choice.tank},{tanks.tank[]},0),""))', "1", copes=True), kind=row("tanks"), look=COUNT),
    Pulled("residents", via="chosen_row", of="company.residents"),
    Pulled("run_end", via="chosen_row", of="company.run_end"),
    Pulled("plan_area", via="chosen_row"),
    Pulled("floor_wanted", via="chosen_row", of="stocking.bottom_wanted"),
    # The groups of a tank stand together on the roll, which ends at run_end.
    Computed("group", "Row of the group", logic('IF({line}>{residents},"",INDEX({roll.group[]},{run_end}-{residents}+{line}))', "1", needs=("residents", "run_end")), kind=row("livestock"), look=COUNT),
    Pulled("species", via="group"),
    *(Pulled(key, via="group") for key in TRAITS if key not in {"name", "lacking"}),
    Pulled("temper", via="group"),
    Pulled("length", via="group"),
    Computed("lacking", "Not known of it", in_rows_with("group", joined(
        ('{animals}=""', '"how many"'), ('{kind}=""', '"kind"'), ('{length}=""', '"length"'), ('{mouthful}=""', '"what it can swallow"'), ('AND({temper}="",{kind}="fish")', '"temper"'),
        ('{bites_fins}=""', '"whether it bites fins"'), ('{long_fins}=""', '"whether it has long fins"'),
        *((f"COUNT({{{p.key}_low}},{{{p.key}_high}})<2", f'"{p.word} range"') for p in PARAMETERS),
        ('{light}=""', '"light"'), ('{flow}=""', '"flow"'), ('{bottom_wanted}=""', '"bottom room"'), between=", ")), kind=text(), look=WORDS),
))  # fmt: skip

BOTH = (("first", "second"), ("second", "first"))
ELSEWHERE = "House one of the two elsewhere; if you have kept both well in one water, type your own ranges on Species."


def water(p: Parameter) -> tuple[Flag, ...]:
    """One of the two wants more than the other bears."""
    return tuple(Flag(f"{p.key}_{one}_above", "water", seriousness="act" if p.key in {"temperature", "ph"} else "watch", when=f"{{{one}_{p.key}_low}}>{{{other}_{p.key}_high}}",
                      why=f"{p.word}: {{{one}_name}} wants at least {{{one}_{p.key}_low}}, {{{other}_name}} at most {{{other}_{p.key}_high}}", do=ELSEWHERE) for one, other in BOTH)


def harm(one: str, other: str) -> tuple[Flag, ...]:
    """What one of the two does to the other; the title is the word in the grid."""
    return (
        Flag(f"{one}_swallows", "eaten", seriousness="act", when=f"{{{one}_mouthful}}>{{{other}_victim_length}}",
             why=f"{{{other}_name}} at {{{other}_victim_length}} fits the mouth of {{{one}_name}}, which can swallow {{{one}_mouthful}}",
             do="Part them, or raise the smaller ones before they meet."),
        Flag(f"{one}_hunts_shrimp", "shrimp", seriousness="act", when=f'AND({{{other}_kind}}="shrimp",{{{one}_eats_shrimp}}="yes")',
             why=f"{{{one}_name}} hunts grown shrimp such as {{{other}_name}}", do="Give the shrimp a tank without hunters."),
        Flag(f"{one}_bites", "fins", seriousness="act", when=f'AND({{{one}_bites_fins}}="yes",{{{other}_long_fins}}="yes")',
             why=f"{{{one}_name}} bites fins, {{{other}_name}} has long ones", do="Part them; a larger group of the biter helps, but does not cure it."),
        Flag(f"{one}_eats_snails_too", "snails", seriousness="watch", when=f'AND({{{other}_kind}}="snail",{{{one}_eats_snails}}="yes")',
             why=f"{{{one}_name}} eats snails such as {{{other}_name}}", do="Give the snails another tank, or accept the loss."),
        Flag(f"{one}_takes_young", "young", seriousness="note", when=f'AND({{{other}_kind}}="shrimp",{{{one}_eats_shrimp}}="young")',
             why=f"{{{one}_name}} takes the young of {{{other}_name}}", do="Give moss and leaf litter, or a shrimp tank if you want them to multiply."),
    )


WANT_FLOOR = "{first_bottom_wanted}>0,{second_bottom_wanted}>0"
TESTS = (
    # Of equal seriousness, what is not known stands first: it may hide something worse.
    Flag("not_known", "unknown", seriousness="note", when='{unknown}<>""', why="not known: {unknown}", do="Type it on Species, Livestock or Tanks; until then the pair is judged by the rest."),
    *(flag for one, other in BOTH for flag in harm(one, other)),
    Flag("clash_of_temper", "temper", seriousness="act", when="{temper_gap}>={const.temper_clash}",
         why="{first_name} has temper {first_temper_counted}, {second_name} {second_temper_counted}, on the scale of 1 gentle to 5 hostile", do="House the gentler kind elsewhere."),
    Flag("gap_of_temper", "temper", seriousness="watch", when="AND({temper_gap}>={const.temper_watch},{temper_gap}<{const.temper_clash})",
         why="{first_name} has temper {first_temper_counted}, {second_name} {second_temper_counted}", do="Watch for chasing, torn fins and hiding; give broken lines of sight, or part them."),
    *(flag for p in PARAMETERS for flag in water(p)),
    Flag("floor_short", "bottom", seriousness="watch", when=f"AND({WANT_FLOOR},{{both_want}}>{{plan_area}})",
         why="both keep to the bottom: {first_name} want {first_bottom_wanted} of floor, {second_name} {second_bottom_wanted}, there are {plan_area}",
         do="Move one of the two, keep fewer, or choose a tank with a larger floor; caves and broken lines of sight for each in the meantime."),
    Flag("floor_short_for_all", "bottom", seriousness="note", when=f"AND({WANT_FLOOR},{{both_want}}<={{plan_area}},{{floor_wanted}}>{{plan_area}})",
         why="there is floor enough for {first_name} and {second_name}, but all on the bottom together want {floor_wanted}, there are {plan_area}", do="Move one of the bottom dwellers, or keep fewer."),
    Flag("flow_far_apart", "flow", seriousness="watch", when="{flow_gap}>2",
         why="{first_name} likes the flow {first_flow}, {second_name} {second_flow}", do="House one of the two elsewhere; no tank is a still pool and a rapid at once."),
    Flag("flow_apart", "flow", seriousness="note", when="AND({flow_gap}>1,{flow_gap}<=2)",
         why="{first_name} likes the flow {first_flow}, {second_name} {second_flow}", do="Let the current run along one end, and leave the other end calm behind plants, wood or stones."),
    Flag("light_apart", "light", seriousness="note", when="{light_gap}>1",
         why="{first_name} likes the light {first_light}, {second_name} {second_light}", do="Light one end and shade the other with floating plants, wood or tall plants."),
)


def apart(key: str) -> str:
    """Formula text: how far apart the two are in something that is counted."""
    return f"MAX({{first_{key}}},{{second_{key}}})-MIN({{first_{key}}},{{second_{key}}})"


def traits(which: str) -> tuple[Column, ...]:
    """The traits of one of the two."""
    return tuple(Pulled(f"{which}_{key}", via=f"{which}_place", of=key) for key in TRAITS)


# Pairs stand by their second: it comes with each one before it, so those of a tank with n residents are the first
# n(n-1)/2 lines. Lines up to (b-1)(b-2)/2 belong to seconds before b, so line p of second b has
# (b-3/2)^2 = (b-1)(b-2)+1/4 < 2p <= b(b-1) < (b-1/2)^2: the square root of 2p, rounded, is b-1, and no half is ever met.
PAIRS = Table("pairs", title="Pairs of residents", lines=PAIRED, row_name=("pair",), purpose="", listed=False, columns=(
    Computed("second_place", "Place of the second", logic("ROUND(SQRT(2*{line}),0)+1", "1"), kind=row("mates"), look=COUNT),
    Computed("first_place", "Place of the first", logic("{line}-({second_place}-1)*({second_place}-2)/2", "1"), kind=row("mates"), look=COUNT),
    Pulled("second_no", via="second_place", of="no"),
    *traits("first"),
    *traits("second"),
    Pulled("plan_area", via="second_place"),
    Pulled("floor_wanted", via="second_place"),
    Computed("pair", "Pair", logic('{first_name}&" and "&{second_name}', needs=("second_no",)), kind=text(), look=WORDS),
    Computed("temper_gap", "Temper apart", logic(apart("temper_counted"), "1"), look=COUNT),
    Computed("light_gap", "Light apart", logic(apart("light_no"), "1"), look=COUNT),
    Computed("flow_gap", "Flow apart", logic(apart("flow_no"), "1"), look=COUNT),
    Computed("both_want", "Bottom both want", logic("{first_bottom_wanted}+{second_bottom_wanted}", "cm2"), look=HIDDEN),
    Computed("unknown", "Not known", in_rows_with("second_no", joined(
        *((f'{{{which}_lacking}}<>""', f'{{{which}_name}}&": "&{{{which}_lacking}}') for which in ("first", "second")),
        *((f'AND({{{other}_kind}}="{prey}",{{{one}_eats_{many}}}="")', f'"whether "&{{{one}_name}}&" eats {many}"') for one, other in BOTH for prey, many in (("shrimp", "shrimp"), ("snail", "snails"))),
        ('AND(N({both_want})>0,{plan_area}="")', '"the floor of the tank"'))), kind=text(), look=WORDS),
    Computed("verdict", "Verdict", logic('IF({said}="","fine",LEFT({said},SEARCH(":",{said})-1))', needs=("second_no",)), kind=text(), look=Look(working=True, width=10, status=True)),
    *TESTS,
))  # fmt: skip

REASONS = Table("reasons", title="Reasons", lines=PAIRED, row_name=("who",), purpose="", columns=(
    Computed("verdict", "Verdict", before("{sentence}", ":", 0), kind=text(), look=Look(REASON, 11, status=True)),
    Pulled("who", via="pair", of="pair", label="Who beside whom", look=Look(REASON, 34)),
    Computed("why", "Why", between("{sentence}", ": ", ARROW), kind=text(), look=Look(REASON, 60)),
    Computed("do", "What to do", after("{sentence}", ARROW), kind=text(), look=Look(REASON, 56)),
    # Cells of running numbers below this line's number: they fill whole columns of less serious reasons after more serious ones.
    Computed("passed", "Cells before it", logic('IF({line}>MAX({pairs.run_note[]}),"",COUNTIF({pairs.@run[]},"<"&{line}))', "1", copes=True), look=COUNT),
    Computed("level_no", "Seriousness", logic("INT({passed}/ROWS({pairs.line[]}))+1", "1"), look=COUNT),
    Computed("pair", "Row of its pair", logic('IF({passed}="","",MOD({passed},ROWS({pairs.line[]}))+1)', "1", copes=True), kind=row("pairs"), look=COUNT),
    Computed("said", "Said there", logic("INDEX({pairs.@said[]},{pair},{level_no})"), kind=text(), look=WORDS),
    Computed("piece", "Which of them", logic(pieces("{said}", SEPARATOR) + "-(INDEX({pairs.@run[]},{pair},{level_no})-{line})", "1"), look=COUNT),
    Computed("sentence", "Sentence", piece("{said}", "{piece}", SEPARATOR), kind=text(), look=WORDS),
))

SHEET = Sheet(
    "Tankmates", blocks=(MATES, REASONS, PAIRS), forms=(CHOICE,), frozen_columns=0, new_page_before=("reasons",),
    purpose="Who gets on with whom in the tank you choose: a verdict for each pair; the reasons stand beside the grid.",
    notes=("▲ act   ◆ watch   ○ note   ○ unknown: something that matters is not typed yet   fine: nothing speaks against it, as far as Species knows.",
           "Who gets on with whom is common practice, no published source. Watch the animals: they overrule any calm cell.",),
)
