"""How does a desktop GIS paint the layers when it opens them?"""

from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from geo.exports.page_classes import CLASS_COLOURS, NOT_KNOWN_COLOUR, NOT_KNOWN_WORD
from geo.ranking.classes import CLASS_WORDS
from geo.texts import phrase, phrase_of

# The outline of a block, as on the map page, and how wide it is drawn.
INK = "#333333"
OUTLINE_MILLIMETRES = 0.26
COOLEST_BLUE = "#1f5fa8"
LONGEST_NAME = 30  # that the table of styles holds
_SLD = (
    'xmlns="http://www.opengis.net/sld" version="1.1.0" '
    'xmlns:se="http://www.opengis.net/se" xmlns:ogc="http://www.opengis.net/ogc"'
)


@dataclass(frozen=True, slots=True)
class Style:
    """
    One way to paint a layer.

    Attributes
    ----------
    layer : str
        Table that it is for.
    name : str
        At most thirty characters, as the table of styles has it.
    qml : str
        In the words of the desktop GIS that made the table of styles.
    sld : str
        As a Styled Layer Descriptor (OGC 05-078r4, with symbols of OGC 05-077r4).
    """

    layer: str
    name: str
    qml: str
    sld: str


def style_of_classes(layer: str, *, column: str, label: str) -> Style:
    """
    Return blocks in the five classes of the map page, each with a label.

    Parameters
    ----------
    layer : str
        Table that it is for.
    column : str
        Holds the words of the classes.
    label : str
        Column written on each block.

    Returns
    -------
    Style
        Worst class first in the legend, which is in the language spoken; the data are not.
    """
    words = (*CLASS_WORDS[::-1], NOT_KNOWN_WORD)
    colours = (*CLASS_COLOURS[::-1], NOT_KNOWN_COLOUR)
    pairs = list(zip(words, colours, strict=True))
    categories = "".join(
        f'<category render="true" symbol="{number}" value={quoteattr(word)} '
        f"label={quoteattr(phrase_of(word))}/>"
        for number, (word, _) in enumerate(pairs)
    )
    symbols = "".join(_fill(number, colour) for number, (_, colour) in enumerate(pairs))
    qml = _document(
        f'<renderer-v2 type="categorizedSymbol" attr={quoteattr(column)} enableorderby="0" '
        f'symbollevels="0"><categories>{categories}</categories><symbols>{symbols}</symbols>'
        f"</renderer-v2>{_labels(label)}"
    )
    rules = "".join(
        f"<se:Rule><se:Name>{escape(phrase_of(word))}</se:Name><ogc:Filter><ogc:PropertyIsEqualTo>"
        f"<ogc:PropertyName>{column}</ogc:PropertyName><ogc:Literal>{word}</ogc:Literal>"
        f"</ogc:PropertyIsEqualTo></ogc:Filter>{_polygon(colour)}</se:Rule>"
        for word, colour in pairs
    )
    return Style(
        layer, phrase("Class of the days ahead")[:LONGEST_NAME], qml, _descriptor(layer, rules)
    )


def style_of_coolest(layer: str) -> Style:
    """
    Return the coolest tenths as blue hatching, so that the classes show through.

    Parameters
    ----------
    layer : str
        Table that it is for.

    Returns
    -------
    Style
        One symbol.
    """
    qml = _document(
        '<renderer-v2 type="singleSymbol" enableorderby="0" symbollevels="0"><symbols>'
        f"{_fill(0, COOLEST_BLUE, pattern='b_diagonal')}</symbols></renderer-v2>"
    )
    name = phrase("Coolest tenth")
    rule = (
        f"<se:Rule><se:Name>{escape(name)}</se:Name>{_polygon(COOLEST_BLUE, opacity=0.4)}</se:Rule>"
    )
    return Style(layer, name[:LONGEST_NAME], qml, _descriptor(layer, rule))


def _document(inside: str) -> str:
    return f'<qgis version="3.22.0" styleCategories="Symbology|Labeling">{inside}</qgis>'


def _fill(number: int, colour: str, *, pattern: str = "solid") -> str:
    options = {
        "color": _channels(colour),
        "outline_color": _channels(INK),
        "outline_width": str(OUTLINE_MILLIMETRES),
        "outline_width_unit": "MM",
        "style": pattern,
    }
    told = "".join(
        f'<Option type="QString" name="{name}" value="{value}"/>' for name, value in options.items()
    )
    return (
        f'<symbol type="fill" name="{number}" alpha="1"><layer class="SimpleFill" enabled="1" '
        f'pass="0"><Option type="Map">{told}</Option></layer></symbol>'
    )


def _labels(column: str) -> str:
    return (
        '<labeling type="simple"><settings calloutType="simple">'
        f'<text-style fieldName={quoteattr(column)} isExpression="0" fontSize="9" '
        f'textColor="{_channels("#000000")}"><text-buffer bufferDraw="1" bufferSize="0.8" '
        f'bufferColor="{_channels("#ffffff")}"/></text-style>'
        '<placement placement="1"/><rendering drawLabels="1"/></settings></labeling>'
    )


def _channels(colour: str) -> str:
    red, green, blue = (int(colour[place : place + 2], 16) for place in (1, 3, 5))
    return f"{red},{green},{blue},255"


def _polygon(colour: str, *, opacity: float = 1.0) -> str:
    return (
        f'<se:PolygonSymbolizer><se:Fill><se:SvgParameter name="fill">{colour}</se:SvgParameter>'
        f'<se:SvgParameter name="fill-opacity">{opacity:g}</se:SvgParameter></se:Fill><se:Stroke>'
        f'<se:SvgParameter name="stroke">{INK}</se:SvgParameter></se:Stroke>'
        "</se:PolygonSymbolizer>"
    )


def _descriptor(layer: str, rules: str) -> str:
    return (
        f"<StyledLayerDescriptor {_SLD}><NamedLayer><se:Name>{layer}</se:Name><UserStyle>"
        f"<se:Name>{layer}</se:Name><se:FeatureTypeStyle>{rules}</se:FeatureTypeStyle>"
        "</UserStyle></NamedLayer></StyledLayerDescriptor>"
    )
