"""Ranges of the water on Species: as reported, as kept at home, and which of the two counts."""

from dataclasses import replace

from workbook.sheets.parameters import Parameter
from workbook.tables import Computed, Look, Typed, logic, number, text
from workbook.tables.idioms import joined
from workbook.tables.template import here, quoted, starred

ANIMAL, WATER, OWN = Look("The animal", 10, "0.0"), Look("Reported ranges", 8, "0.0"), Look("Own experience", 8, "0.0")

USED, RECKONED = Look("Range in use", 8, "0.0"), Look("Reckoned", 10, "0.00")


def wide(p: Parameter, look: Look) -> Look:
    """The look, wider where the heading is a long word."""
    return replace(look, width=12) if p.is_wide else look


def reported(p: Parameter) -> tuple[Typed, Typed]:
    """Reported range of one parameter."""
    return (
        Typed(f"{p.key}_low", f"{p.label} from", number(p.low, p.high), unit=p.unit, look=wide(p, WATER)),
        Typed(f"{p.key}_high", f"{p.label} to", number(p.low, p.high), unit=p.unit, look=wide(p, WATER)),
    )


def own(p: Parameter) -> tuple[Typed, Typed]:
    """Range of one parameter in which the person has kept it."""
    return tuple(
        Typed(
            f"own_{p.key}_{end}",
            f"Own {p.label} {word}",
            number(p.low, p.high),
            unit=p.unit,
            look=wide(p, OWN),
            kept_in="own_ranges",  # type: ignore[return-value]
            help="Where you yourself have kept it well for long; leave blank if you have not.",
        )
        for end, word in (("low", "from"), ("high", "to"))
    )


def used(p: Parameter, end: str) -> Computed:
    """One end of the range that counts: reported, own, both together, or either."""
    both, either = ("MAX", "MIN") if end == "low" else ("MIN", "MAX")
    reported_end, own_end = here(f"{p.key}_{end}"), here(f"own_{p.key}_{end}")
    ends = f"{reported_end},{own_end}"
    return Computed(
        f"used_{p.key}_{end}",
        f"{p.label} {'from' if end == 'low' else 'to'}",
        logic(
            'IF(COUNT({ends})=0,"",IF(COUNT({ends})=1,MAX({ends}),'
            "CHOOSE(MAX(1,{counts_no}),{reported_end},{own_end},{where_both_meet},{the_wider})))",
            p.unit,
            copes=True,
            ends=ends,
            reported_end=reported_end,
            own_end=own_end,
            where_both_meet=f"{both}({ends})",
            the_wider=f"{either}({ends})",
        ),
        look=wide(p, USED),
    )


def beyond(p: Parameter) -> Computed:
    """In words, where the own range leaves the reported one."""
    return Computed(
        f"{p.key}_beyond",
        f"Own {p.label} beyond",
        joined(
            (
                p.filled("AND(COUNT({own_*_low},{*_low})=2,{own_*_low}<{*_low})"),
                p.filled(
                    '{from_}&{@words.own_*_low}&" (reported from "&{@words.*_low}&")"', from_=quoted(f"{p.word} from ")
                ),
            ),
            (
                p.filled("AND(COUNT({own_*_high},{*_high})=2,{own_*_high}>{*_high})"),
                p.filled(
                    '{up_to}&{@words.own_*_high}&" (reported up to "&{@words.*_high}&")"',
                    up_to=quoted(f"{p.word} up to "),
                ),
            ),
        ),
        kind=text(),
        look=Look(working=True, width=12),
    )


WRONG_WAY = "AND(COUNT({*_low},{*_high})=2,{*_low}>{*_high})"


def low_above_high(p: Parameter) -> tuple[tuple[str, str], ...]:
    """Tests for ranges typed the wrong way round."""
    return (
        (starred(WRONG_WAY, p.key), quoted(f"reported {p.label}")),
        (starred(WRONG_WAY, f"own_{p.key}"), quoted(f"own {p.label}")),
    )
