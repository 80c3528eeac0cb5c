"""How alike a species is to the one that can't be had."""

from workbook.sheets.candidate_load import ROW
from workbook.sheets.candidate_water import WIDTHS
from workbook.sheets.parameters import KEYS
from workbook.tables import Computed, Look, logic
from workbook.tables.formula import filled
from workbook.tables.template import for_each

LIKE, PART = Look("The kind", 9, "0%"), Look(working=True, show="0.00")


def nearer(key: str) -> str:
    """Formula text: the lesser over the greater of two numbers above 0."""
    return for_each([key], "MIN({*},{sought.like_*})/MAX({*},{sought.like_*})")


def same(key: str) -> str:
    """Formula text: 1 where a word is known and that of the species wanted."""
    return for_each([key], 'IF({species.*}="",0,IF({species.*}={sought.like_*},1,0))')


# What two ranges share, of the one wanted; a hundredth more, so that a range may be a single point.
SHARED = "MIN({species.used_*_high},{sought.like_*_high})-MAX({species.used_*_low},{sought.like_*_low})"
SHARED_OF_WANTED = "MAX(0," + SHARED + "+1/10^2)/{sought.like_*_width}"
ALIKE = {
    "kin": "{like_kin}",
    "size": "{like_size}",
    "form": same("body_form"),
    "swim": same("swim"),
    "zone": 'IF({zone}={sought.like_zone},1,IF(OR({zone}="all",{sought.like_zone}="all"),1/2,0))',
    "role": same("role"),
    "diet": same("diet"),
    "temper": "MAX(0,1-ABS({temper}-{sought.like_temper})/{const.temper_clash})",
    "group": nearer("group_min"),
    "colour": same("colour_group"),
    "ranges": "{like_ranges}",
}
LIKENESS = (
    Computed(
        "like_kin",
        "Likeness of kin",
        logic(
            '_xlfn.IFS(AND({species.genus}<>"",{species.genus}={sought.like_genus}),1,'
            '({species.home}="rift lakes")*1<>({sought.like_home}="rift lakes")*1,0,'
            'AND({species.family}<>"",{species.family}={sought.like_family}),{const.kin_family},'
            'AND({species.taxon_order}<>"",{species.taxon_order}={sought.like_taxon_order}),{const.kin_order},1=1,0)',
            "1",
            needs=(ROW, "sought.like_ready", "const.kin_family", "const.kin_order"),
        ),
        look=PART,
        help="1 of one genus; less of one family or order, by constants. Fish of the rift lakes have kin there alone.",
    ),
    Computed(
        "like_size",
        "Likeness of size",
        logic(
            "MAX(0,1-ABS(LN({adult_length}/{sought.like_adult_length}))/LN(MAX({const.alike_lengths},1+1/10^4)))",
            "1",
            needs=(ROW, "adult_length", "sought.like_ready", "const.alike_lengths"),
        ),
        look=PART,
    ),
    Computed(
        "like_ranges",
        "Likeness of water",
        logic(
            "({shared_of_all_four})/2/2",
            "1",
            needs=(*WIDTHS, "sought.like_ready"),
            shared_of_all_four=for_each(KEYS, SHARED_OF_WANTED, "+"),
        ),
        look=PART,
    ),
    Computed(
        "likeness",
        "Likeness",
        logic(
            "+".join(filled("{alike}*{sought.weight_*}", alike=alike, each=part) for part, alike in ALIKE.items()),
            "1",
            needs=(
                *("like_kin", "like_size", "like_ranges", "species.body_form", "zone", "temper"),
                *("species.colour_group", "group_min"),
            ),
        ),
        look=LIKE,
        help=(
            "Kin, size, form, swimming, zone, role, diet, temper, group, colour and water, "
            "by weights that are constants. "
            "Blank while length, form, zone, temper, colour, group or water is unknown."
        ),
    ),
)
