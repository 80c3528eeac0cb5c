"""Ways between the rows of a list and those of its workings: the same row there, for nobody sorts workings."""

from workbook.tables.columns import Computed, Look
from workbook.tables.formula import logic
from workbook.tables.kinds import text

TO_LIST = "to_list"


def to_list() -> Computed:
    """In each row of the workings: the row of the list that it reckons."""
    way = logic('HYPERLINK("#"&{@list.line}&"!A"&ROW(),"← "&ROW())', copes=True)
    return Computed(TO_LIST, "On the list", way, kind=text(), look=Look("Way back", 9, working=True, link=True))
