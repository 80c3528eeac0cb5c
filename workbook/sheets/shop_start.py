"""Start and Attention in a shop's words: the same settings, other names, and what a shop counts."""

from dataclasses import replace

from workbook.sheets.start import COUNTS, SETTINGS
from workbook.tables import Computed, Look, logic
from workbook.tables.columns import Column

PURPOSE = (
    "A planning workbook for a shop with freshwater animals: stock, prices, orders and labels, "
    "what each display tank can still take, and what fits a buyer's tank."
)
LABELS = {
    "room_name": "Name of the shop",
    "room_temperature": "Coldest air in the shop",
    "lead_days": "Days from an order to having it",
}
HELPS = {"lead_days": "Where Suppliers says nothing else; foods too."}


def _in_shop_words(column: Column) -> Column:
    said = {key: words[column.key] for key, words in (("label", LABELS), ("help", HELPS)) if column.key in words}
    return replace(column, **said) if said else column  # type: ignore[arg-type]


def _counted(column: Column) -> Column:
    if isinstance(column, Computed) and column.key == "groups":
        return replace(
            column,
            label="Lines of animals",
            formula=logic("ROWS({stock.species[]})-COUNTBLANK({stock.species[]})", "1"),
        )
    return column


SHOP_SETTINGS = replace(
    SETTINGS, title="Your shop", columns=tuple(_in_shop_words(column) for column in SETTINGS.columns)
)
SHOP_COUNTS = replace(
    COUNTS,
    columns=(
        *(_counted(column) for column in COUNTS.columns),
        Computed(
            "stock_lines",
            "Lines of stock",
            logic("ROWS({stock.code[]})-COUNTBLANK({stock.code[]})", "1"),
            look=Look(show="0"),
        ),
        Computed(
            "stock_cost",
            "Stock at cost",
            logic("SUM({stock.value_cost[]})", "currency"),
            look=Look(show="0.00"),
            help="Lines without a cost count for nothing.",
        ),
        Computed(
            "stock_price", "Stock at price", logic("SUM({stock.value_price[]})", "currency"), look=Look(show="0.00")
        ),
    ),
)
