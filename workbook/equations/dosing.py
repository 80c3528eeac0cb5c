"""Amounts of what is put into the water, by the dose on its label."""

from workbook.tables.formula import equation


@equation
def amount(dose: str, stated_for: str, litres: str) -> str:
    """Dose for so much water.

    amount = dose * V / V_label

    dose [1]: what the label says, in its own unit
    stated_for [L]: V_label, the water that it is for, above 0
    litres [L]: V, the water to be treated
    returns [1]: in the label's unit; never more than the label allows
    source: definition
    """
    return f"{dose}*{litres}/{stated_for}"
