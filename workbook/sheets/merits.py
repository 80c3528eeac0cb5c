"""Shares from 0 to 1 of what speaks for a kind, for whoever chooses: a keeper on Candidates, a buyer in a shop."""

from workbook.tables.formula import filled


def comfort(value: str, low: str, high: str) -> str:
    """Formula text: 1 within the range, half at its ends, 0 as far outside as the edge is wide."""
    inside = filled("MIN({value}-{low},{high}-{value})", value=value, low=low, high=high)
    edge = filled("MAX({high}-{low},1/10^2)*MAX({const.choose_edge},1/10^4)", low=low, high=high)
    return filled("MAX(0,MIN(1,1/2+{inside}/({edge})/2))", inside=inside, edge=edge)


def near(length: str, suits: str) -> str:
    """Formula text: 1 for a length that suits, down to 0 for one that is many times as long or as short."""
    return filled(
        "MAX(0,MIN(1,1+1/2-ABS(LN({length}/{suits}))/LN(MAX({const.choose_factor},1+1/10^4))))",
        length=length,
        suits=suits,
    )


def eased(word: str) -> str:
    """Formula text: 1 for an easy kind, 0 for a demanding one."""
    return filled('_xlfn.SWITCH({word}&"","easy",1,"demanding",0,1/2)', word=word)


def had(word: str) -> str:
    """Formula text: 1 for what is often offered, 0 for what rarely is."""
    return filled('_xlfn.SWITCH({word}&"","often",1,"rarely",0,1/2)', word=word)
