"""How cells look: roles and number formats become properties; colours that colour-blind people can tell apart."""

INK, PAPER, QUIET = "#1F2A33", "#FFFFFF", "#5B6670"
BAND, BAND_INK, EXAMPLE_INK = "#24465E", "#FFFFFF", "#D3DBE0"
TYPED_FILL, TYPED_INK = "#FFF9DC", "#123A6B"
WORKING_FILL, GIVEN_FILL, GROUP_FILL = "#F3F5F6", "#F7F7F4", "#DCE6EC"
LINE = "#B9C3CA"
# Fill and ink of each seriousness; contrast over 7 to 1, and the symbol says the same without colour.
SERIOUS = {"act": ("#FBE0D3", "#7A2600"), "watch": ("#FFF0C2", "#5A4300"), "note": ("#DCEBF7", "#0B3C5D")}
# What does not count yet; a word in its row says the same.
STILL_TO_COME = {"italic": True, "font_color": "#6B6B6B"}
BARS = {
    "range": "#56A0C9",
    "shared": "#1B6E53",
    "value": "#B4450F",
    "limit": "#B4450F",
    "plain": "#56A0C9",
    "eggs": "#F0C75E",
    "larvae": "#D98A3D",
    "grown": "#24465E",
}
# Tabs by the role of their sheet; the order of the sheets and Start say the same in words.
TABS = {
    "guide": "#1F2A33",
    "input": "#E3C44C",
    "answer": "#56A0C9",
    "choice": "#B4450F",
    "printable": "#1B6E53",
    "reference": "#8A949B",
    "detail": "#C9CED2",
    "workings": "#E3E7EA",
    "own": "#C9B458",
}
FONT = "Arial"
# Round a card: its first cell, those within it, its last one.
CARD_EDGES = tuple(
    {"top": 1, "bottom": 1, "border_color": INK, **side}
    for side in ({"left": 1, "bg_color": GROUP_FILL}, {}, {"right": 1})
)

NUMBER_FORMATS = {"text": "@", "date": "yyyy-mm-dd", "": "General"}

# Each letter as wide as the other: the bars drawn with it keep their scale.
BAR_FONT = "Courier New"
_RULED = {"bottom": 4, "bottom_color": LINE, "valign": "vcenter"}
_CELL = {"border": 1, "border_color": LINE, "valign": "top"}
ROLES: dict[str, dict[str, object]] = {
    "title": {"bold": True, "font_size": 14, "font_color": BAND},
    "way": {"font_color": "#0B4F8A", "underline": 1, "valign": "vcenter"},
    "purpose": {"font_color": QUIET, "italic": True},
    "notes": {"font_color": INK},
    "caption": {"font_color": QUIET, "italic": True},
    "group": {"bold": True, "font_color": BAND},
    "head": {"bold": True, "font_color": BAND_INK, "bg_color": BAND, "text_wrap": True, "valign": "vcenter",
             "border": 1, "border_color": LINE},
    "head unit": {"font_color": BAND_INK, "bg_color": BAND, "border": 1, "border_color": LINE, "italic": True},
    "head example": {"font_color": EXAMPLE_INK, "bg_color": BAND, "border": 1, "border_color": LINE, "italic": True, "align": "left"},
    "head example first": {"font_color": EXAMPLE_INK, "bg_color": BAND, "border": 1, "border_color": LINE, "italic": True, "text_wrap": True, "valign": "top"},
    "head seed": {"font_color": BAND_INK, "bg_color": BAND, "border": 1, "border_color": LINE, "text_wrap": True, "valign": "top"},
    "head upright": {"font_color": BAND_INK, "bg_color": BAND, "border": 1, "border_color": LINE, "rotation": 90, "align": "center", "valign": "bottom"},
    "working head": {"bold": True, "font_color": INK, "bg_color": GROUP_FILL, "text_wrap": True, "valign": "vcenter",
                     "border": 1, "border_color": LINE},
    "working head unit": {"font_color": INK, "bg_color": GROUP_FILL, "border": 1, "border_color": LINE, "italic": True},
    "seed": {"font_color": QUIET, "bg_color": GROUP_FILL, "border": 1, "border_color": LINE},
    "typed": {**_CELL, "bg_color": TYPED_FILL, "font_color": TYPED_INK, "locked": False},
    "own": {"font_color": INK},
    "given": {**_CELL, "bg_color": GIVEN_FILL, "text_wrap": True},
    "computed": dict(_CELL),
    "sign": {**_CELL, "align": "center"},
    "link": {**_CELL, "font_color": "#0B4F8A", "underline": 1},
    "sentence": {"font_color": INK, "valign": "top"},
    "status": {**_CELL, "text_wrap": True},
    "said": {**_CELL, "text_wrap": True},
    "working": {**_CELL, "bg_color": WORKING_FILL, "font_color": QUIET},
    "form head": {"bold": True, "font_size": 12, "font_color": BAND, "bottom": 2, "bottom_color": BAND},
    "form label": {**_CELL, "bold": True, "text_wrap": True},
    "form unit": {**_CELL, "font_color": QUIET},
    "form help": {**_CELL, "font_color": QUIET, "text_wrap": True},
    # Printed pages: ruled lines instead of boxes, so that a text may run over empty cells; calm, and clear in black and white.
    "page name": {"bold": True, "font_size": 26, "font_color": BAND, "valign": "bottom"},
    "page title": {"bold": True, "font_size": 20, "font_color": BAND, "valign": "vcenter"},
    "page aside": {"font_color": INK, "valign": "vcenter"},
    "page place": {"font_size": 13, "font_color": QUIET, "valign": "vcenter", "bottom": 2, "bottom_color": BAND},
    "page head": {"bold": True, "font_size": 11, "font_color": BAND, "bottom": 2, "bottom_color": BAND, "valign": "vcenter"},
    "page label": {"font_size": 8, "italic": True, "font_color": QUIET, "valign": "bottom"},
    "page key": {**_RULED, "font_color": QUIET},
    "page text": dict(_RULED),
    "page strong": {**_RULED, "bold": True},
    "page number": {**_RULED, "bold": True, "align": "left"},
    "page lines": {**_RULED, "font_size": 9, "text_wrap": True, "align": "left", "valign": "vcenter", "indent": 1},
    "page fact": {**_RULED, "text_wrap": True, "align": "left", "valign": "vcenter", "indent": 1},
    "page bar": {**_RULED, "font_name": BAR_FONT, "font_size": 9, "font_color": BAND},
    # A line a tank, in nine points.
    "room text": {**_CELL, "font_size": 9, "num_format": "General", "text_wrap": True},
    "room number": {**_CELL, "font_size": 9},
    "room sign": {**_CELL, "font_size": 9, "align": "center"},
    "room link": {**_CELL, "font_size": 9, "font_color": "#0B4F8A", "underline": 1},
    "room bar": {**_CELL, "font_name": BAR_FONT, "font_size": 8, "font_color": BAND},
    "room figure": {**_RULED, "font_size": 9, "bold": True},
    "room due": {**_RULED, "font_size": 9},
    "small said": {**_CELL, "font_size": 9, "text_wrap": True, "align": "left", "indent": 1, "num_format": "General"},
    "page plain": {"valign": "vcenter"},
    "page small": {"font_size": 9, "font_color": QUIET, "valign": "vcenter"},
    "card name": {"bold": True, "font_size": 20, "font_color": BAND, "text_wrap": True, "align": "left", "valign": "vcenter", "indent": 1},
    "card text": {"font_size": 11, "text_wrap": True, "align": "left", "valign": "vcenter", "indent": 1},
}  # fmt: skip


def _label(part: str, size: int) -> dict[str, object]:
    """One line of a shelf label: a hairline round the whole, along which plain paper can be cut."""
    edges = {
        "left": 7,
        "right": 7,
        "left_color": LINE,
        "right_color": LINE,
        "font_size": size,
        "indent": 1,
        "align": "left",
        "valign": "vcenter",
    }
    own: dict[str, dict[str, object]] = {
        "name": {"bold": True, "shrink": True, "top": 7, "top_color": LINE, "valign": "bottom"},
        "latin": {"italic": True, "shrink": True, "font_color": QUIET, "valign": "top"},
        "facts": {"text_wrap": True},
        "foot": {"shrink": True, "font_color": QUIET},
        "price": {"bold": True, "align": "right", "bottom": 7, "bottom_color": LINE},
    }
    return edges | own[part]


# Points of each line of a shelf label, by its size.
LABEL_LINES = ("name", "latin", "facts", "foot", "price")
LABEL_POINTS = {
    "small": (11, 8, 7, 7, 14),
    "medium": (13, 9, 8, 8, 18),
    "wide": (17, 12, 11, 10, 24),
    "large": (20, 14, 13, 11, 32),
}
ROLES |= {
    f"label {size} {part}": _label(part, point)
    for size, points in LABEL_POINTS.items()
    for part, point in zip(LABEL_LINES, points, strict=True)
}


def properties(role: str, show: str) -> dict[str, object]:
    """What the writer needs for one role and number format."""
    found: dict[str, object] = {
        "font_name": FONT,
        "font_scheme": "none",
        "font_size": 10,
        "font_color": INK,
        **ROLES[role.removesuffix(" line").removesuffix(" way")],
    }
    if role.endswith(" way"):
        found["font_color"] = ROLES["way"]["font_color"]
    if role.endswith(" line"):
        found.pop("text_wrap", None)
    if show:
        found["num_format"] = NUMBER_FORMATS.get(show, show)
    if show == "text" and role in {"computed", "typed", "said", "given"}:
        found |= {"text_wrap": True, "align": "left", "indent": 1}
    if show == "text" and role.endswith(" line"):
        found |= {"align": "left", "indent": 1}
    if show == "text" and role.removesuffix(" line") in {"computed", "working", "head example", "head example first"}:
        found["num_format"] = "General"
    return found


def contrast(ink: str, paper: str) -> float:
    """Contrast ratio of two colours after WCAG 2.1."""

    def light(colour: str) -> float:
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    bright, dark = sorted((light(ink), light(paper)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)
