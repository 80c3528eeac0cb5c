"""What keepers weigh in a candidate: each a share from 0 to 1 of its own, weighted by constants.

Within the comfortable part of a range all water is equal; who lives there decides what is wanted beside it.
"""

from workbook.sheets.filters import MERITS
from workbook.sheets.merits import comfort, eased, had, near
from workbook.sheets.parameters import KEYS, PARAMETERS
from workbook.tables import Computed, Look, logic
from workbook.tables.formula import filled
from workbook.tables.template import column, for_each, of, quoted

SHARE = Look("What speaks for it: 1 all, 0 nothing", 8, "0.00")
EMPTY = "SUM({sought.staying})=0"
PLAIN = ("brown", "clear", "silver")


def merit(key: str, help_: str, text: str, needs: tuple[str, ...] = ()) -> Computed:
    """One share of what speaks for a candidate."""
    return Computed(
        f"merit_{key}",
        MERITS[key],
        logic(text, "1", needs=("sought.row", "species.species", *needs)),
        look=SHARE,
        help=help_,
    )


def those_with(word: str, of_them: str = "living") -> str:
    """Formula text: how many groups that stay have the same word as the candidate."""
    return filled(
        "SUMIFS({them},{words},{own})",
        them=column("residents", of_them),
        words=column("residents", word),
        own=of("species", word),
    )


def not_there(word: str) -> str:
    """Formula text: 1 where nobody who stays has its word, half where it is not known."""
    return filled('IF({known}="",1/2,({those}=0)*1)', known=of("species", word), those=those_with(word))


SHARED = "MAX(0,MIN(1,{*_width}/MAX({species.used_*_high}-{species.used_*_low},1/10^2)))"
WIDTHS = tuple(f"{key}_width" for key in KEYS)
COMFORT = {
    p.key: comfort(of("sought", p.kept), of("species", f"used_{p.key}_low"), of("species", f"used_{p.key}_high"))
    for p in PARAMETERS
}
RIVAL = filled(
    'AND(OR({species.role}="show",{species.role}="hunter"),{species.family}<>"",{those}>0)',
    those=those_with("family", "one_show"),
)
CROSSES = filled(
    'AND({species.spawning}="livebearer",{species.genus}<>"",{present}=0,{those}>0)', those=those_with("genus")
)
OWN_CURRENT = '_xlfn.SWITCH({species.flow},"still",0,"gentle",1,"medium",2,3)'
CURRENT = filled(
    'IF(OR({species.flow}="",{sought.usual_current}=""),1,1-ABS({own}-{sought.usual_current})/(1+2))',
    own=OWN_CURRENT,
)
# Fish of still water tire in the current that the others need.
SWEPT_OFF = filled(
    'IF(OR({species.flow}="",{sought.usual_current}=""),0,({sought.usual_current}-{own}>=2-1/10)*1)=1', own=OWN_CURRENT
)
# Who holds ground does not hold it among bold ones that are half as long again.
LOSES_GROUND = 'AND({species.bottom_room}="holds ground",SUM({sought.bold_max})>SUM({species.adult_length})*(1+1/2))'
# Livebearers want harder water than most, and multiply; beside their like they are at home.
MULTIPLIES = 'AND({species.spawning}="livebearer",SUM({sought.staying})>0,{sought.livebearers}=0)'
HARRIED = 'AND({species.role}="show",{sought.first_biter}<>"")'
PREY = '{hunted_by}&{hunts_shrimp}&{hunts_snails}<>""'
# Fish of the rift lakes and others want another water and another life; but fish of the upper water, as long
# as they, go above those that live on the ground.
STRANGER = (
    'AND({species.kind}="fish",{species.role}<>"algae",{species.home}<>"",SUM({sought.staying})>0,'
    'OR(AND({species.home}="rift lakes",{sought.from_lakes}=0),'
    'AND({species.home}<>"rift lakes",{sought.from_lakes}>0,'
    'OR({species.zone}<>"top",ROUND(SUM({species.adult_length})*(1+2/10)-SUM({sought.usual_length}),6)<0))))'
)
NO_PREY = 'AND({species.role}="snails",{sought.snail_who}="")'
MERIT = (
    merit(
        "water",
        "Half its worse of temperature and pH, half the mean of all four; 1 anywhere but near the ends of its ranges.",
        filled(
            "(MIN({worst_of_two})+SUM({all_four})/2/2)/2",
            worst_of_two=list(COMFORT.values())[:2],
            all_four=list(COMFORT.values()),
        ),
        needs=(
            *("const.choose_edge", *(f"sought.{p.kept}" for p in PARAMETERS)),
            *(f"species.used_{key}_{end}" for key in KEYS for end in ("low", "high")),
        ),
    ),
    merit(
        "kin",
        "Half the part of its ranges that the residents leave (temperature twice, no KH), half a current like theirs.",
        filled(
            "IF({empty},1,(({temperature}*2+{others})/2/2+{current})/2)",
            empty=EMPTY,
            temperature=for_each(KEYS[:1], SHARED),
            others=for_each(KEYS[1:3], SHARED, "+"),
            current=CURRENT,
        ),
        needs=WIDTHS,
    ),
    merit(
        "niche",
        "A third each for a zone in which nobody lives, a role that nobody has, hours at which the others rest.",
        filled(
            "IF({empty},1,({zone}+{role}+{hours})/(1+2))",
            empty=EMPTY,
            zone=not_there("zone"),
            role=not_there("role"),
            hours=not_there("active_at"),
        ),
    ),
    merit(
        "size",
        "Half for its length against the company's, half against the tank's.",
        filled(
            "({company}+{tank})/2",
            company=near("{species.adult_length}", "{sought.usual_length}"),
            tank=near("{species.adult_length}", "{sought.usual_tank}"),
        ),
        needs=("species.adult_length", "sought.usual_length", "sought.usual_tank", "const.choose_factor"),
    ),
    merit(
        "temper",
        "Temper and pace like the residents', temper twice; the pace of what lives on the bottom does not matter.",
        filled(
            "(MAX(0,1-SUM({temper_gap})/{const.temper_clash})*2+{pace})/(1+2)",
            pace='IF(OR({species.zone}="bottom",{sought.usual_pace}=""),1,1-ABS({own}-{sought.usual_pace})/2)',
        ).replace("{own}", '_xlfn.SWITCH({species.swim}&"","active",2,"sedentary",0,1)'),
        needs=("const.temper_clash",),
    ),
    merit(
        "group",
        "Its best group has room: 1 up to what counts as comfortably full, 0 from what counts as crowded.",
        "MAX(0,MIN(1,({const.choose_crowded}-{asks_best})/MAX({const.choose_crowded}-{const.choose_full},1/10^4)))",
        needs=("asks_best", "const.choose_crowded", "const.choose_full"),
    ),
    merit(
        "colour",
        "A colour that is not there yet; brown, silver and clear ones count half.",
        filled(
            "IF({plain},1/2,{colour})",
            plain=filled(
                "OR({tests})", tests=[filled("{species.colour_group}={word}", word=quoted(word)) for word in PLAIN]
            ),
            colour=not_there("colour_group"),
        ),
    ),
    merit("ease", "Easy to keep.", eased("{species.ease}")),
    merit("offered", "Often offered.", had("{species.offered}")),
    merit(
        "home",
        "From where some of the residents come.",
        filled(
            'IF({empty},1,IF({species.home}="",1/2,({those}>0)*1))',
            empty=EMPTY,
            those=those_with("home"),
        ),
    ),
    merit(
        "peace",
        "0 for a rival, for what would cross with a resident, for a snail eater without snails, for fish of the "
        "rift lakes beside others, of still water in a current, or that lose their ground to larger bold ones; half "
        "for hunters, crayfish, frogs, prey, livebearers beside others, show fish beside fin biters.",
        filled(
            "IF(OR({rival},{crosses},{no_prey},{stranger},{swept_off},{loses_ground}),0,"
            'IF(OR({species.role}="hunter",{species.kind}="other",{prey},{multiplies},{harried}),1/2,1))',
            swept_off=SWEPT_OFF,
            loses_ground=LOSES_GROUND,
            prey=PREY,
            multiplies=MULTIPLIES,
            harried=HARRIED,
            rival=RIVAL,
            crosses=CROSSES,
            no_prey=NO_PREY,
            stranger=STRANGER,
        ),
    ),
    Computed(
        "keeping",
        "What speaks for it",
        logic(
            "({weighted})/{sought.weights}",
            "1",
            needs=("sought.weights", *(f"merit_{part}" for part in MERITS)),
            weighted=for_each(MERITS, "{merit_*}*{const.choose_*}", "+"),
        ),
        look=SHARE,
        help="Their mean, by weights that are constants.",
    ),
)
