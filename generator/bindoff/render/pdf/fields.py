"""Places to fill in (AcroForm, ISO 32000-1, 12.7), each with a look of its own.

A viewer draws what is typed in the standard font that the form names; nothing is set in it by us.
Fields have no action and no script.
"""

from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, String

_FRAME, _WEIGHT = 0.35, 0.6  # a grey of 7 to 1 against white, and points
_FONT, _SIZE = "Helv", 10
_PRINT = 4  # a flag of annotations: they are printed too


def field(
    pdf: pikepdf.Pdf,
    name: str,
    label: str,
    box: tuple[float, float, float, float],
    *,
    ticks: bool,
) -> Any:
    """The annotation of a field, at the same time the field itself; ``label`` is what is heard."""
    left, bottom, right, top = (round(part, 2) for part in box)
    wide, high = round(right - left, 2), round(top - bottom, 2)
    look = Dictionary(
        Type=Name.Annot,
        Subtype=Name.Widget,
        Rect=Array([left, bottom, right, top]),
        F=_PRINT,
        T=String(name),
        TU=String(label),
        MK=Dictionary(BC=Array([_FRAME])),
        BS=Dictionary(W=_WEIGHT, S=Name.S),
    )
    frame = _frame(wide, high)
    if ticks:
        look.FT = Name.Btn
        look.V = look.AS = Name.Off
        ticked = f"{frame} {_cross(wide, high)}"
        states = Dictionary(Yes=_form(pdf, wide, high, ticked), Off=_form(pdf, wide, high, frame))
        look.AP = Dictionary(N=states)
    else:
        look.FT = Name.Tx
        look.DA = String(f"/{_FONT} {_SIZE} Tf 0 g")
        look.AP = Dictionary(N=_form(pdf, wide, high, f"{frame} /Tx BMC EMC"))
    return look


def write_form(pdf: pikepdf.Pdf, fields: list[Any]) -> None:
    """Let the file know its fields, in reading order."""
    font = Dictionary(
        Type=Name.Font,
        Subtype=Name.Type1,
        BaseFont=Name.Helvetica,
        Encoding=Name.WinAnsiEncoding,
    )
    pdf.Root.AcroForm = pdf.make_indirect(
        Dictionary(
            Fields=Array([pdf.make_indirect(each) for each in fields]),
            DR=Dictionary(Font=Dictionary({f"/{_FONT}": pdf.make_indirect(font)})),
            DA=String(f"/{_FONT} {_SIZE} Tf 0 g"),
        )
    )


def _frame(wide: float, high: float) -> str:
    half = _WEIGHT / 2
    size = f"{wide - _WEIGHT:.2f} {high - _WEIGHT:.2f}"
    return f"1 g {_FRAME} G {_WEIGHT} w {half:.2f} {half:.2f} {size} re B"


def _cross(wide: float, high: float) -> str:
    inset = high * 0.25
    right, top = wide - inset, high - inset
    return (
        f"0 G 1.4 w {inset:.2f} {inset:.2f} m {right:.2f} {top:.2f} l "
        f"{inset:.2f} {top:.2f} m {right:.2f} {inset:.2f} l S"
    )


def _form(pdf: pikepdf.Pdf, wide: float, high: float, operators: str) -> Any:
    head = Dictionary(
        Type=Name.XObject,
        Subtype=Name.Form,
        BBox=Array([0, 0, wide, high]),
        Resources=Dictionary(),
    )
    return pdf.make_indirect(pikepdf.Stream(pdf, operators.encode(), head))
