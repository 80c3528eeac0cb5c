"""Groups of animals in a keeper's words, and the cell of a sheet that makes its dropdowns of species short."""

from workbook.tables import Computed, Look, Table, Typed, choice, logic
from workbook.tables.idioms import in_rows_with
from workbook.tables.template import quoted

TETRAS, BARBS, LOACHES, CATFISH, CICHLIDS, GOURAMIS = (
    "tetras and kin", "barbs and rasboras", "loaches", "catfish", "cichlids", "gouramis and kin",
)  # fmt: skip
LIVEBEARERS, KILLIFISH, RAINBOWS, FISH, SHRIMPS, SNAILS, ANIMALS = (
    "livebearers", "killifish", "rainbowfish", "other fish", "shrimps", "snails", "other animals",
)  # fmt: skip
GROUPS = (
    TETRAS, BARBS, LOACHES, CATFISH, CICHLIDS, GOURAMIS, LIVEBEARERS, KILLIFISH, RAINBOWS, FISH, SHRIMPS, SNAILS,
    ANIMALS,
)  # fmt: skip
# Common practice, no published source. Families first: keepers part what taxonomists put into one order.
OF_KIND = {"shrimp": SHRIMPS, "snail": SNAILS, "other": ANIMALS}
OF_FAMILY = {
    **dict.fromkeys(("Botiidae", "Cobitidae", "Nemacheilidae", "Balitoridae", "Gastromyzontidae"), LOACHES),
    **dict.fromkeys(("Poeciliidae", "Goodeidae", "Anablepidae"), LIVEBEARERS),
}
OF_ORDER = {
    "Characiformes": TETRAS,
    "Cypriniformes": BARBS,
    "Siluriformes": CATFISH,
    "Cichliformes": CICHLIDS,
    "Anabantiformes": GOURAMIS,
    "Cyprinodontiformes": KILLIFISH,
    "Atheriniformes": RAINBOWS,
}


def _pairs(groups: dict[str, str]) -> list[str]:
    return [f"{quoted(word)},{quoted(group)}" for word, group in groups.items()]


GROUP = Computed(
    "group",
    "Group",
    in_rows_with(
        "species",
        logic(
            '_xlfn.SWITCH({kind}&"",{of_kind},_xlfn.SWITCH({family}&"",{of_family},'
            '_xlfn.SWITCH({taxon_order}&"",{of_order},IF({kind}="fish",{fish},{animals}))))',
            copes=True,
            of_kind=_pairs(OF_KIND),
            of_family=_pairs(OF_FAMILY),
            of_order=_pairs(OF_ORDER),
            fish=quoted(FISH),
            animals=quoted(ANIMALS),
        ),
    ),
    kind=choice(*GROUPS),
    look=Look("Relatives", 16, working=True),
    help="From kind, family and order, by which dropdowns of species can be made short; common practice.",
)


def offer_only(label: str = "Offer only") -> Typed:
    """The cell of a form: the dropdowns of species on its sheet offer only one group."""
    return Typed(
        "group",
        label,
        choice(*GROUPS),
        narrows="species",
        look=Look(width=22),
        help="One group makes the dropdown of species short; blank: all. Any other name may still be typed.",
    )


def offer(sheet: str, label: str = "Offer only") -> Table:
    """A form of that one cell, for a sheet whose forms have no other."""
    return Table(
        f"{sheet}_offer", title="Species to pick from", purpose="", row_name=("group",), form=True, chosen=True,
        columns=(offer_only(label),),
    )  # fmt: skip
