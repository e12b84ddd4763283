"""Pages as PDF at true size, with real text in a font that holds the signs we use."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from importlib.util import find_spec
from io import BytesIO
from math import cos, degrees, pi, sin, tan
from pathlib import Path as FilePath
from typing import Any

from beltwright.drawing.ink import Area, Colour, Group, Ink, Letters, Page, Picture, Stroke, Window
from beltwright.drawing.lettering import CAPITAL_HEIGHT
from beltwright.drawing.palette import PRINT
from beltwright.drawing.paper_units import INCH
from beltwright.drawing.path import Arc, Path

MM = 72.0 / INCH
"""Points in a millimetre."""

_REGULAR, _BOLD = "DejaVuSans", "DejaVuSans-Bold"
_LARGEST_ARC = pi / 4.0  # a Bézier curve of 45 degrees keeps within 5 millionths of the radius
_CLEAR = 0.35  # room kept round lettering, in heights of a capital


def pdf(pages: Sequence[Page], title: str) -> bytes:
    """The pages as one PDF document; the same pages give the same bytes."""
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    if not pages:
        raise ValueError("a document needs at least one page")
    _register_fonts()
    rl_config.useA85 = 0  # letters in place of bytes take a quarter more room, and long to write
    out = BytesIO()
    canvas = Canvas(out, invariant=1, pageCompression=1, lang="en")
    canvas.setTitle(title)
    canvas.setSubject(pages[0].description)
    canvas.setAuthor("")
    canvas.setViewerPreference("PrintScaling", "None")  # print at true size, do not fit
    for number, page in enumerate(pages, start=1):
        _write_page(canvas, page, f"page-{number}")
    canvas.save()
    return out.getvalue()


def _write_page(canvas: Any, page: Page, key: str) -> None:
    canvas.setPageSize((page.width * MM, page.height * MM))
    canvas.bookmarkPage(key)
    canvas.addOutlineEntry(page.title, key)
    canvas.scale(MM, MM)
    canvas.setLineJoin(1)
    _write(canvas, page.ink)
    canvas.showPage()


def _register_fonts() -> None:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    for name in (_REGULAR, _BOLD):
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(TTFont(name, str(_font_folder() / f"{name}.ttf")))


def _font_folder() -> FilePath:
    """Where the chart library keeps its fonts, found without importing it."""
    found = find_spec("matplotlib")
    if found is None or found.origin is None:
        raise RuntimeError("the fonts for printing are missing: install matplotlib")
    return FilePath(found.origin).parent / "mpl-data" / "fonts" / "ttf"


def _write(canvas: Any, pieces: Iterable[Ink]) -> None:
    for piece in pieces:
        match piece:
            case Stroke():
                _stroke(canvas, piece)
            case Area():
                _area(canvas, piece)
            case Letters():
                _letters(canvas, piece)
            case Picture():
                _picture(canvas, piece)
            case Group():
                _write(canvas, piece.pieces)
            case Window():
                _window(canvas, piece)


def _stroke(canvas: Any, stroke: Stroke) -> None:
    canvas.setStrokeColor(PRINT[stroke.colour])
    canvas.setLineWidth(stroke.pen.width(stroke.kind))
    canvas.setDash(list(stroke.pen.dashes(stroke.kind)), stroke.phase)
    canvas.drawPath(_path(canvas, [stroke.path]), stroke=1, fill=0)


def _area(canvas: Any, area: Area) -> None:
    canvas.setFillColor(PRINT[area.colour])
    canvas.drawPath(_path(canvas, area.outlines), stroke=0, fill=1, fillMode=0)


def _letters(canvas: Any, letters: Letters) -> None:
    from reportlab.pdfbase.pdfmetrics import stringWidth

    font, size = (_BOLD if letters.bold else _REGULAR), letters.height / CAPITAL_HEIGHT
    width = stringWidth(letters.text, font, size)
    left = {"start": 0.0, "middle": -width / 2.0, "end": -width}[letters.anchor]
    canvas.saveState()
    canvas.translate(*letters.at)
    if letters.angle:
        canvas.rotate(degrees(letters.angle))
    if letters.clear:
        room = _CLEAR * letters.height
        canvas.setFillColor(PRINT[Colour.PAPER])
        canvas.rect(
            left - room, -0.5 * room, width + 2 * room, letters.height + room, stroke=0, fill=1
        )
    canvas.setFillColor(PRINT[letters.colour])
    canvas.setFont(font, size)
    canvas.drawString(left, 0.0, letters.text)
    canvas.restoreState()


def _picture(canvas: Any, picture: Picture) -> None:
    from PIL import Image
    from reportlab.lib.utils import ImageReader

    # paper has no transparency, whose mask would take as long again
    image = ImageReader(Image.open(BytesIO(picture.png)).convert("RGB"))
    canvas.drawImage(image, *picture.corner, picture.width, picture.height)


def _window(canvas: Any, window: Window) -> None:
    canvas.saveState()
    clip = canvas.beginPath()
    clip.rect(*window.corner, window.width, window.height)
    canvas.clipPath(clip, stroke=0, fill=0)
    canvas.translate(*window.shift)
    _write(canvas, window.pieces)
    canvas.restoreState()


def _path(canvas: Any, paths: Iterable[Path]) -> Any:
    drawn = canvas.beginPath()
    for path in paths:
        drawn.moveTo(*path.pieces[0].start)
        for piece in path.pieces:
            if isinstance(piece, Arc):
                for part in piece.split(_LARGEST_ARC):
                    drawn.curveTo(*_control_points(part))
            else:
                drawn.lineTo(*piece.end)
        if path.closed:
            drawn.close()
    return drawn


def _control_points(arc: Arc) -> tuple[float, ...]:
    """The Bézier curve of a short arc: control points at 4/3 tan(sweep / 4) radii."""
    reach = 4.0 / 3.0 * tan(arc.sweep / 4.0) * arc.radius
    (x0, y0), (x1, y1) = arc.start, arc.end
    begin, end = arc.begin, arc.begin + arc.sweep
    return (
        x0 - reach * sin(begin),
        y0 + reach * cos(begin),
        x1 + reach * sin(end),
        y1 - reach * cos(end),
        x1,
        y1,
    )
