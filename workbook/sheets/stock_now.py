"""What a shop has now: the count of each line, and what Sales and losses has had since."""

from workbook.equations import trade
from workbook.tables import Computed, Look, logic
from workbook.tables.columns import Column
from workbook.tables.kinds import date

COUNT = Look(working=True, show="0")
DAY = Look(working=True, width=11)
SALES = Look("Sales and losses", 9, "0")

# The lines of Sales and losses about this one, later than a day.
LATER = '{ledger.code_row[]},{line},{ledger.counts_on[]},">"&{day}'


def lately(key: str, label: str, typed: str, pieces: str, help: str) -> Computed:  # noqa: A002
    """What went in the last days: by the ledger, and of the number typed as much as still lies in these days."""
    return Computed(
        key,
        label,
        logic(
            'IF(AND(COUNT({typed})=0,{lines}=0,{days_before}>0),"",MAX(0,{before}+SUMIFS({pieces},{later})))',
            "1",
            needs=("lines", "days_before", "window_from", "const.sale_window"),
            typed=typed,
            before="ROUND(SUM(" + typed + ")*{days_before}/{const.sale_window},0)",
            pieces=pieces,
            later=LATER.replace("{day}", "{window_from}"),
        ),
        help=help,
        look=SALES,
    )


NOW: tuple[Column, ...] = (
    Computed(
        "here",
        "On hand now",
        logic("MAX(0,{reckoned})", "1"),
        look=Look("Stock", 9, "0"),
        help="As counted last, and what Sales and losses has had since: all is reckoned with it.",
    ),
    Computed(
        "promised",
        "Reserved now",
        logic(
            "{reserved}+SUMIFS({ledger.promise[]},{later})",
            "1",
            needs=("code", "reserved"),
            later=LATER.replace("{day}", "SUM({counted_on})"),
        ),
        look=Look("Stock", 9, "0"),
        help="As typed, and what Sales and losses has reserved since, less what has ended.",
    ),
    Computed(
        "coming",
        "Incoming now",
        logic(
            "IF(COUNT({ordered_on})=1,MAX(0,{incoming}-SUMIFS({ledger.bought[]},{since})),{incoming})",
            "1",
            needs=("code", "incoming"),
            since=LATER.replace('">"', '">="').replace("{day}", "{ordered_on}"),
        ),
        look=Look("Ordering", 9, "0"),
        help="As typed, less what Sales and losses has as delivered since it was ordered.",
    ),
    lately(
        "sold_lately",
        "Sold lately",
        "{sold}",
        "{ledger.went[]}",
        "In the last 30 days (a constant), less what came back: by Sales and losses, and of Sold as much as its days "
        "still reach into these.",
    ),
    lately("lost_lately", "Lost lately", "{lost}", "{ledger.died[]}", "Died or spoilt in the same days."),
    Computed(
        "count_order",
        "Newest count",
        logic(
            'IF(SUMIFS({ledger.is_count[]},{of_line})=0,"",_xlfn.MAXIFS({ledger.count_order[]},{of_line}))',
            "1",
            needs=("code",),
            of_line="{ledger.code_row[]},{line}",
        ),
        look=Look(working=True, width=14, show="0"),
        help="On Sales and losses.",
    ),
    Computed("count_row", "Its row", logic("MOD({count_order},10^6)", "1"), look=COUNT),
    Computed("count_day", "Its day", logic("INDEX({ledger.date[]},{count_row})", "date"), kind=date(), look=DAY),
    Computed(
        "counted_last",
        "Last counted on",
        logic('IF(COUNT({counted_on},{count_day})=0,"",MAX({counted_on},{count_day}))', "date", copes=True),
        kind=date(),
        look=DAY,
    ),
    Computed(
        "counted",
        "As counted",
        logic(
            "IF(AND(COUNT({count_day})=1,SUM({count_day})>=SUM({counted_on})),{by_ledger},{on_hand})",
            "1",
            copes=True,
            by_ledger="INDEX({ledger.pieces[]},{count_row})",
        ),
        look=COUNT,
        help="By the newest count: of Sales and losses, or On hand.",
    ),
    Computed(
        "since_then",
        "Come less gone since then",
        logic(
            "SUMIFS({ledger.change[]},{later})+SUMIFS({ledger.pieces[]},{moved_here})",
            "1",
            needs=("code",),
            later=LATER.replace("{day}", "SUM({counted_last})"),
            moved_here=LATER.replace("code_row", "into_row").replace("{day}", "SUM({counted_last})"),
        ),
        look=COUNT,
    ),
    Computed(
        "reckoned",
        "Count and change",
        logic("{counted}+{since_then}", "1", needs=("code", "counted", "since_then")),
        look=COUNT,
    ),
    Computed(
        "lines",
        "Lines of Sales and losses",
        logic("SUMIFS({ledger.one[]},{later})", "1", needs=("code",), later=LATER.replace("{day}", "0")),
        look=COUNT,
    ),
    Computed(
        "bought",
        "Delivered since the count",
        logic(
            'SUMIFS({ledger.bought[]},{later},{ledger.paid[]},">=0")',
            "1",
            needs=("code",),
            later=LATER.replace("{day}", "SUM({counted_on})"),
        ),
        look=COUNT,
        help="At a known cost.",
    ),
    Computed(
        "paid",
        "Paid for it",
        logic(
            "SUMIFS({ledger.paid[]},{later})",
            "currency",
            needs=("code",),
            later=LATER.replace("{day}", "SUM({counted_on})"),
        ),
        look=Look(working=True, show="0.00"),
    ),
    Computed(
        "mean_cost",
        "Mean cost",
        logic(
            "_xlfn.IFS({bought}=0,{cost},COUNT({cost},{on_hand})<2,{paid}/{bought},1=1,{mean})",
            "currency",
            needs=("code", "bought", "paid"),
            mean=trade.mean_cost(pieces="MAX(0,{on_hand})", cost="{cost}", bought="{bought}", paid="{paid}"),
        ),
        look=Look(working=True, show="0.00"),
        help="Of those counted at their cost, and of what was delivered since at what was paid.",
    ),
    Computed(
        "window_from",
        "Sales counted after",
        logic(
            "MAX({settings.plan_date}-{const.sale_window},IF(COUNT({sold},{lost})>0,SUM({counted_on}),0))",
            "date",
            needs=("code", "settings.plan_date", "const.sale_window"),
        ),
        kind=date(),
        look=DAY,
        help="The first of the last days; with Sold or Lost typed, the count that they belong to.",
    ),
    Computed(
        "days_before",
        "Days up to the count",
        logic(
            "MAX(0,MIN({const.sale_window},{const.sale_window}-{since}))",
            "day",
            since="IF(COUNT({counted_on})=1,{settings.plan_date}-{counted_on},0)",
            needs=("code", "settings.plan_date", "const.sale_window"),
        ),
        look=Look(working=True, show="0"),
        help="How many of the last days lie before the day of the count, so that Sold and Lost tell of them.",
    ),
)
