"""Pages as SVG: millimetres as units, classes for colours, titles for the screen reader."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from html import escape
from math import degrees, pi

from beltwright.drawing.ink import Area, Colour, Group, Ink, Letters, Page, Picture, Stroke, Window
from beltwright.drawing.lettering import CAPITAL_HEIGHT
from beltwright.drawing.palette import DARK, LIGHT
from beltwright.drawing.path import Arc, Path, Point
from beltwright.drawing.view import Forward, View

_LARGEST_ARC = 2.0 * pi / 3.0  # a single SVG arc cannot be a full circle
_NOT_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_NOT_ID = re.compile(r"[^\w.-]+")

FONTS = "system-ui, 'Helvetica Neue', Arial, 'DejaVu Sans', sans-serif"


def svg(page: Page, prefix: str = "", styled: bool = True, machine: View | None = None) -> str:
    """The page as an SVG document in millimetres of the paper.

    `prefix` goes before every id, so that several drawings can stand in one web page; `styled`
    puts the colours into the document itself, which a web page that carries `stylesheet()`
    does not need. Given the view of a machine, the document counts in millimetres of that
    machine instead, x to the right and y downwards from its origin, so that a place pointed
    at is a place of the machine.
    """
    return svg_round(page, svg_pieces(page.ink, page.height, prefix), prefix, styled, machine)


def svg_pieces(ink: Iterable[Ink], height: float, prefix: str = "") -> str:
    """Ink on a page of some height [mm] as SVG elements."""
    return "\n".join(_Writer(height, prefix).write(ink))


def svg_group(name: str, elements: Iterable[str]) -> str:
    """Elements that are written already, under one id."""
    return "\n".join([f'<g id="{_id("", name)}">', *elements, "</g>"])


def svg_round(
    page: Page,
    elements: str,
    prefix: str = "",
    styled: bool = True,
    machine: View | None = None,
) -> str:
    """The document of a page round its elements, which are written already."""
    body = elements
    box = f"0 0 {_number(page.width)} {_number(page.height)}"
    if machine is not None:
        box, transform = _machine_frame(page, machine)
        body = f'<g transform="{transform}">\n{body}\n</g>'
    name, description = (_id(prefix, each) for each in ("title", "description"))
    style = f"<style>{stylesheet()}</style>\n" if styled else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" '
        f'width="{_number(page.width)}mm" height="{_number(page.height)}mm" '
        f'viewBox="{box}" '
        f'role="graphics-document document" aria-labelledby="{name}" '
        f'aria-describedby="{description}">\n'
        f'<title id="{name}">{_text(page.title)}</title>\n'
        f'<desc id="{description}">{_text(page.description)}</desc>\n'
        f"{style}{body}\n</svg>\n"
    )


def _machine_frame(page: Page, view: View) -> tuple[str, str]:
    """The view box in millimetres of the machine, and how the paper lies in it."""
    if view.forward is not Forward.RIGHT:
        raise ValueError("a drawing that counts in the machine's millimetres has x to the right")
    x, y = view.origin[0], page.height - view.origin[1]
    corner = f"{_number(-x / view.scale)} {_number(-y / view.scale)}"
    size = f"{_number(page.width / view.scale)} {_number(page.height / view.scale)}"
    transform = f"scale({_number(1.0 / view.scale)}) translate({_number(-x)} {_number(-y)})"
    return f"{corner} {size}", transform


def stylesheet() -> str:
    """The style of every drawing: light, dark where the reader's screen is, black on paper."""
    light = "".join(f"--{colour.value}:{LIGHT[colour]};" for colour in Colour)
    dark = "".join(f"--{colour.value}:{DARK[colour]};" for colour in Colour)
    strokes = "".join(
        f".drawing .line-{colour.value}{{stroke:var(--{colour.value})}}" for colour in Colour
    )
    fills = "".join(
        f".drawing .fill-{colour.value}{{fill:var(--{colour.value})}}" for colour in Colour
    )
    return (
        f":root{{{light}}}"
        f"@media screen and (prefers-color-scheme:dark){{:root{{{dark}}}}}"
        ".drawing{background:var(--paper)}"
        ".drawing path{fill:none;stroke-linejoin:round}"
        f"{strokes}{fills}"
        ".drawing path[class^=fill]{fill-rule:evenodd}"
        f".drawing text{{font-family:{FONTS};font-variant-numeric:tabular-nums}}"
        ".drawing .bold{font-weight:700}"
        ".drawing .clear{paint-order:stroke;stroke:var(--paper);stroke-width:1;"
        "stroke-linejoin:round}"
        ".drawing [tabindex]:focus-visible{outline:.6px solid var(--accent);outline-offset:1px}"
    )


@dataclass(slots=True)
class _Writer:
    """Writes ink as SVG elements, and keeps the ids that are taken."""

    height: float
    prefix: str
    taken: set[str] = field(default_factory=set)
    windows: int = 0
    written: dict[int, str] = field(default_factory=dict)
    """Data of the paths by identity: the line round an area is the area's own outline."""

    def write(self, pieces: Iterable[Ink]) -> Iterator[str]:
        for piece in pieces:
            match piece:
                case Stroke():
                    yield self._stroke(piece)
                case Area():
                    data = " ".join(self._path(outline) for outline in piece.outlines)
                    yield f'<path class="fill-{piece.colour.value}" d="{data}"/>'
                case Letters():
                    yield self._letters(piece)
                case Picture():
                    yield self._picture(piece)
                case Group():
                    yield from self._group(piece)
                case Window():
                    yield from self._window(piece)

    def new_id(self, name: str) -> str:
        """A valid id for a name; a name given twice is an error."""
        made = _id(self.prefix, name)
        if made in self.taken:
            raise ValueError(f"two shapes of one drawing are both named {name!r}")
        self.taken.add(made)
        return made

    def _stroke(self, stroke: Stroke) -> str:
        dashes = stroke.pen.dashes(stroke.kind)
        dashing = f' stroke-dasharray="{" ".join(map(_number, dashes))}"' if dashes else ""
        if dashes and stroke.phase:
            dashing += f' stroke-dashoffset="{_number(stroke.phase)}"'
        return (
            f'<path class="line-{stroke.colour.value} {stroke.kind.value}" '
            f'd="{self._path(stroke.path)}" '
            f'stroke-width="{_number(stroke.pen.width(stroke.kind))}"{dashing}/>'
        )

    def _letters(self, letters: Letters) -> str:
        x, y = self._point(letters.at)
        classes = f"fill-{letters.colour.value}"
        classes += " bold" if letters.bold else ""
        classes += " clear" if letters.clear else ""
        turn = ""
        if letters.angle:
            turn = f' transform="rotate({_number(-degrees(letters.angle))} {x} {y})"'
        return (
            f'<text class="{classes}" x="{x}" y="{y}" '
            f'font-size="{_number(letters.height / CAPITAL_HEIGHT)}" '
            f'text-anchor="{letters.anchor}"{turn}>{_text(letters.text)}</text>'
        )

    def _picture(self, picture: Picture) -> str:
        x, y = self._point((picture.corner[0], picture.corner[1] + picture.height))
        data = base64.b64encode(picture.png).decode("ascii")
        return (
            f'<image x="{x}" y="{y}" width="{_number(picture.width)}" '
            f'height="{_number(picture.height)}" role="img" aria-label="{_text(picture.title)}" '
            f'href="data:image/png;base64,{data}"/>'
        )

    def _group(self, group: Group) -> Iterator[str]:
        opening = "<g"
        if group.id:
            opening += f' id="{self.new_id(group.id)}"'
        for name, value in group.data:
            opening += f' data-{name}="{_text(value)}"'
        if group.title:
            opening += ' role="graphics-symbol img"'
        if group.data and group.title:
            opening += ' tabindex="0"'
        yield opening + ">"
        if group.title:
            yield f"<title>{_text(group.title)}</title>"
        yield from self.write(group.pieces)
        yield "</g>"

    def _window(self, window: Window) -> Iterator[str]:
        self.windows += 1
        name = self.new_id(f"window-{self.windows}")
        x, y = self._point((window.corner[0], window.corner[1] + window.height))
        dx, dy = window.shift
        yield (
            f'<clipPath id="{name}"><rect x="{x}" y="{y}" width="{_number(window.width)}" '
            f'height="{_number(window.height)}"/></clipPath>'
        )
        yield f'<g clip-path="url(#{name})"><g transform="translate({_number(dx)} {_number(-dy)})">'
        yield from self.write(window.pieces)
        yield "</g></g>"

    def _path(self, path: Path) -> str:
        if id(path) not in self.written:
            self.written[id(path)] = self._path_data(path)
        return self.written[id(path)]

    def _path_data(self, path: Path) -> str:
        data = ["M" + " ".join(self._point(path.pieces[0].start))]
        for piece in path.pieces:
            if isinstance(piece, Arc):
                data += [self._arc(part) for part in piece.split(_LARGEST_ARC)]
            else:
                data.append("L" + " ".join(self._point(piece.end)))
        return "".join(data) + ("Z" if path.closed else "")

    def _arc(self, arc: Arc) -> str:
        # a left turn stays a left turn for the eye, although y now points down
        turn = 0 if (arc.sweep > 0.0) == (arc.radius > 0.0) else 1
        radius = _number(abs(arc.radius))
        return f"A{radius} {radius} 0 0 {turn} {' '.join(self._point(arc.end))}"

    def _point(self, point: Point) -> tuple[str, str]:
        return _number(point[0]), _number(self.height - point[1])


def _id(prefix: str, name: str) -> str:
    return prefix + _NOT_ID.sub("-", name)


def _number(value: float) -> str:
    """A length to a ten-thousandth of a millimetre, without needless zeros."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _text(text: str) -> str:
    return escape(_NOT_XML.sub("", text))
