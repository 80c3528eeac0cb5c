"""What is known of the species that can't be had, and how much each part of likeness weighs."""

from workbook.sheets.filters import COUNT, HIDDEN
from workbook.sheets.parameters import KEYS, PARAMETERS
from workbook.tables import Computed, Pulled, logic
from workbook.tables.columns import Column
from workbook.tables.template import here, of

LIKE = ("adult_length", "body_form", "zone", "temper", "colour_group", "group_min")
ALSO_LIKE = ("genus", "family", "taxon_order", "swim", "role", "diet", "home")
SAID_TOO = ("mid_temperature", "eats_plants", "eats_shrimp", "bites_fins")
PARTS = ("kin", "size", "form", "swim", "zone", "role", "diet", "temper", "group", "colour", "ranges")


def weight(part: str) -> Computed:
    """The weight of one part of likeness, of all of them."""
    weights = tuple(f"const.like_{other}" for other in PARTS)
    return Computed(
        f"weight_{part}",
        f"Weight of {part}",
        logic(
            "{this}/{all_of_them}",
            "1",
            needs=("wanted", *weights),
            this=of("const", f"like_{part}"),
            all_of_them="+".join(here(name) for name in weights),
        ),
        look=HIDDEN,
    )


WANTED: tuple[Column, ...] = (
    *(Pulled(f"like_{key}", via="wanted", of=key) for key in (*LIKE, *ALSO_LIKE, *SAID_TOO)),
    *(Pulled(f"like_{key}_{end}", via="wanted", of=f"used_{key}_{end}") for key in KEYS for end in ("low", "high")),
    *(
        Computed(
            f"like_{p.key}_width",
            f"Width of {p.word} wanted",
            p.logic("MAX(0,{like_*_high}-{like_*_low})+1/10^2", p.step),
            look=HIDDEN,
            help="A hundredth more, so that a range may be a single point.",
        )
        for p in PARAMETERS
    ),
    *(weight(part) for part in PARTS),
    Computed(
        "like_ready",
        "The species wanted is known",
        logic(
            "1",
            "1",
            needs=(
                "const.temper_clash",
                *(f"like_{key}" for key in LIKE),
                *(f"like_{key}_width" for key in KEYS),
                *(f"weight_{part}" for part in PARTS),
            ),
        ),
        look=COUNT,
    ),
)
